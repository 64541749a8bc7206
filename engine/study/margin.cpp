#include "engine/study/margin.h"

#include <cmath>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "engine/base/units.h"
#include "engine/quantity/quantities.h"
#include "engine/study/lock.h"
#include "engine/truck/gear.h"

namespace axlewright {
namespace {

// How far beyond the asked range is looked: well past anything a shop would build.
constexpr double kHeightSearch = 0.4;
constexpr double kLeanSearch = 20 * kRadiansPerDegree;
constexpr double kPitmanSearch = 80 * kRadiansPerDegree;

std::vector<double> between(const std::vector<double>& a, const std::vector<double>& b, double s) {
  std::vector<double> inputs;
  for (std::size_t k = 0; k < a.size(); ++k) inputs.push_back(a[k] + s * (b[k] - a[k]));
  return inputs;
}

/// The share of the way at which a closure that was set aside begins to miss; it does at the end.
double where_closures_part(PathFollower& follower, const std::vector<double>& from,
                           const std::vector<double>& to) {
  constexpr int kHalvings = 30;
  double fits = 0, fights = 1;
  for (int k = 0; k < kHalvings; ++k) {
    const double middle = 0.5 * (fits + fights);
    (follower.go_to(between(from, to, middle)).usable() ? fits : fights) = middle;
  }
  return fits;
}

/// Follows one straight line of inputs from a pose that closes to one that may not. The margin comes with its input, its way and what is
/// asked; its end is filled in.
Margin along(Rig& rig, Margin margin, const PoseRequest& from, const PoseRequest& to, double end) {
  rig.restart();
  SolveReport report = rig.solve_place(from).report;
  margin.end = 0;
  if (report.usable()) {
    const std::vector<double> target = rig.inputs_for(to);
    report = rig.follower().go_to(target);
    double reached = report.usable() ? 1 : report.path_reached;
    if (report.outcome == Outcome::over_held)
      reached = where_closures_part(rig.follower(), rig.inputs_for(from), target);
    margin.end = reached * end;
  }
  // A search that only did not settle has found no end.
  if (!report.usable() && report.outcome != Outcome::iteration_limit) {
    margin.by = WayEnd::bind;
    margin.what_ran_out = report.what_ran_out;
    margin.how_it_ran_out = report.how_it_ran_out;
  }
  rig.restart();
  return margin;
}

const Margin& worse(const Margin& a, const Margin& b) {
  const bool a_ends = a.by != WayEnd::search, b_ends = b.by != WayEnd::search;
  if (a_ends != b_ends) return a_ends ? a : b;
  return a.margin() <= b.margin() ? a : b;
}

Margin height_margin(Rig& rig, bool up) {
  Margin m;
  m.input = up ? "height, up" : "height, down";
  m.way = up ? 1 : -1;
  m.asked = rig.truck().height_range[up ? 1 : 0];
  PoseRequest from, to;
  to.height = m.asked + m.way * kHeightSearch;
  return along(rig, m, from, to, to.height);
}

Margin lean_margin(Rig& rig, double height, bool left_up) {
  Margin m;
  m.input = left_up ? "lean, left side up" : "lean, right side up";
  m.is_angle = true;
  m.way = left_up ? 1 : -1;
  m.asked = m.way * rig.truck().lean;
  PoseRequest from, to;
  from.height = to.height = height;
  from.steer_by = to.steer_by = SteerBy::held;
  to.lean = m.way * kLeanSearch;
  // The path is straight in sin(lean); the share of it that was reached is turned back into an angle.
  m = along(rig, m, from, to, std::sin(to.lean));
  m.end = std::asin(m.end);
  return m;
}

/// How fast the road wheels turn with the pitman arm there, in the sense of straight ahead; nothing without a pose.
std::optional<double> answer_at(Rig& rig, PoseRequest request, double pitman) {
  request.steer = pitman;
  const PoseResult pose = rig.solve(request);
  if (!pose.report.usable()) return {};
  return 1 / pose.values[kSteeringRatio];
}

/// The pitman angle, before `end`, where the road wheels stop answering: where their rate changes sign.
std::optional<double> dead_centre(Rig& rig, const PoseRequest& from, double end) {
  constexpr int kStrides = 40;
  constexpr int kHalvings = 40;
  double before = 0;
  const std::optional<double> straight = answer_at(rig, from, before);
  for (int k = 1; straight && k <= kStrides; ++k) {
    double here = end * k / kStrides;
    const std::optional<double> answer = answer_at(rig, from, here);
    if (!answer) return {};
    if (*answer * *straight > 0) {
      before = here;
      continue;
    }
    for (int h = 0; h < kHalvings; ++h) {
      const double middle = 0.5 * (before + here);
      const std::optional<double> there = answer_at(rig, from, middle);
      if (!there) break;
      (*there * *straight > 0 ? before : here) = middle;
    }
    return here;
  }
  return {};
}

Margin steering_margin(Rig& rig, double height, bool left) {
  PoseRequest from, to;
  from.height = to.height = height;
  const Lock lock = find_lock(rig, from);
  Margin m;
  m.input = left ? "steering wheel, to the left" : "steering wheel, to the right";
  m.is_angle = true;
  m.way = left ? 1 : -1;
  m.asked = left ? lock.left.asked : lock.right.asked;
  from.steer_by = to.steer_by = SteerBy::pitman;
  to.steer = m.way * kPitmanSearch;
  m = along(rig, m, from, to, to.steer);
  if (const std::optional<double> dead = dead_centre(rig, from, m.end)) {
    m.by = WayEnd::dead_centre;
    m.end = *dead;
    m.what_ran_out = "the road wheels' answer";
    m.how_it_ran_out = "ends";
  }
  m.end = wheel_for_pitman(rig.truck().gear, m.end);
  return m;
}

using Search = std::function<Margin(Rig&)>;

}  // namespace

std::vector<Margin> find_margins(const Rig& rig, const ForEach& for_each,
                                 const Progress& progress) {
  std::vector<Search> searches;
  for (const bool up : {true, false})
    searches.emplace_back([=](Rig& here) { return height_margin(here, up); });
  const auto add_pairs = [&](Margin (*margin)(Rig&, double, bool)) {
    for (const bool left : {true, false}) {
      for (const double height : rig.truck().height_range)
        searches.emplace_back([=](Rig& here) { return margin(here, height, left); });
    }
  };
  add_pairs(lean_margin);
  if (rig.expansion().pitman_turn.value >= 0) add_pairs(steering_margin);

  std::vector<Margin> found(searches.size());
  const auto look = [&](std::size_t k) {
    Rig here = rig;
    found[k] = searches[k](here);
  };
  if (!for_each(searches.size(), look, progress)) return {};
  std::vector<Margin> margins = {found[0], found[1]};
  for (std::size_t k = 2; k < found.size(); k += 2)
    margins.push_back(worse(found[k], found[k + 1]));
  return margins;
}

}  // namespace axlewright
