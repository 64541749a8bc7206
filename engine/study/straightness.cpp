#include "engine/study/straightness.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"

namespace axlewright {
namespace {

constexpr int kHeights = 11;

ArmRule rule_of(const Straightness& s) {
  const auto alike = [](double a, double b) { return std::abs(a - b) <= kRuleTolerance; };
  if (alike(s.near_half, s.guide_half) && alike(s.half_link, s.guide_half))
    return ArmRule::equal_halves;
  if (alike(s.half_link, s.half_link_by_rule)) return ArmRule::mean_proportional;
  if (alike(s.half_link, std::sqrt(s.near_half * s.guide_half))) return ArmRule::root_of_product;
  return ArmRule::none;
}

Straightness measured(const Rig& rig, const GuidedPlace& guided) {
  const Mechanism& m = rig.expansion().mechanism;
  const auto apart = [&](AnchorId a, AnchorId b) {
    return (m.anchor(a).at - m.anchor(b).at).norm();
  };
  Straightness s;
  s.name = guided.name;
  s.words = guided.words;
  s.near_half = apart(guided.near_end, guided.middle);
  s.guide_half = apart(guided.guide_end, guided.middle);
  s.half_link = apart(guided.pivot, guided.middle);
  s.half_link_by_rule = s.guide_half * s.guide_half / s.near_half;
  s.rule = rule_of(s);
  const std::string rocker = guided.name + "_rocker";
  const auto& names = rig.expansion().body_names;
  s.on_rocker = std::find(names.begin(), names.end(), rocker) != names.end();
  return s;
}

}  // namespace

std::vector<Straightness> guided_bar_paths(Rig& rig) {
  std::vector<Straightness> bars;
  for (const GuidedPlace& guided : rig.expansion().guided) bars.push_back(measured(rig, guided));
  if (bars.empty()) return bars;
  std::vector<double> least(bars.size(), INFINITY), most(bars.size(), -INFINITY);
  for (int k = 0; k < kHeights; ++k) {
    const auto& [low, high] = rig.truck().height_range;
    PoseRequest request;
    request.height = low + k * (high - low) / (kHeights - 1);
    const PoseResult pose = rig.solve(request);
    if (!pose.report.usable()) return bars;
    for (std::size_t b = 0; b < bars.size(); ++b) {
      const int offset = quantities_of(rig.quantities(), "near_end_offset." + bars[b].name).front();
      least[b] = std::min(least[b], pose.values[index(offset)]);
      most[b] = std::max(most[b], pose.values[index(offset)]);
    }
  }
  for (std::size_t b = 0; b < bars.size(); ++b) bars[b].leaves_line = most[b] - least[b];
  return bars;
}

}  // namespace axlewright
