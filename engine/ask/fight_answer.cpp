#include "engine/ask/fight_answer.h"

#include <utility>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/list_text.h"
#include "engine/base/units.h"
#include "engine/solve/fight.h"

namespace axlewright {
namespace {

constexpr std::size_t kMostNamed = 4;

struct Motion {
  std::string words;  ///< "a lean of 1 deg"
  PoseRequest request;
};

std::vector<Motion> motions(const Rig& rig, const Words& words) {
  std::vector<Motion> list;
  PoseRequest lean;
  lean.steer_by = SteerBy::pitman;
  lean.lean = from_deg(1);
  list.push_back({"a lean of 1 deg", lean});
  for (const double height : rig.truck().height_range) {
    if (height == 0) continue;
    PoseRequest raised;
    raised.steer_by = SteerBy::pitman;
    raised.height = height;
    list.push_back({"the way to height " + words.height(height), raised});
  }
  return list;
}

Json json_of(const Motion& motion, const std::vector<JointGap>& gaps, const Mechanism& rigid,
             bool gives, const Words& words) {
  Json j{{"motion", motion.words}, {"gaps", Json::array()}};
  std::vector<std::string> names;
  for (const JointGap& gap : gaps) {
    const std::string& name = rigid.joint(gap.joint).name;
    Json told{{"joint", name}};
    told[gap.is_angle ? "gap_deg" : "gap_mm"] = gap.is_angle ? to_deg(gap.gap) : to_mm(gap.gap);
    j["gaps"].push_back(std::move(told));
    if (names.size() < kMostNamed) names.push_back(name);
  }
  const std::string others =
      gaps.size() > names.size() ? fmt::format(" and {} more", gaps.size() - names.size()) : "";
  j["text"] = fmt::format(
      "rigid, {} would part the {} by {}; they fight it out with {}{}{}", motion.words,
      names.front(),
      gaps.front().is_angle ? words.angle(gaps.front().gap) : words.length(gaps.front().gap),
      list_of({names.begin() + 1, names.end()}), others, gives ? ": the bushes give" : "");
  return j;
}

}  // namespace

Json fights(const Rig& rig, const Words& words) {
  Json list = Json::array();
  const Expansion& x = rig.expansion();
  const Assembly& held = rig.held().assembly();
  const bool gives = !held.bushes.empty();
  if (!gives && held.soundness != Soundness::over_held) return list;
  const Mechanism rigid = rigid_of(x.mechanism);
  std::vector<InputId> inputs = height_inputs(x);
  inputs.push_back(x.pitman_turn.value >= 0 ? x.pitman_turn : x.road_wheels);
  for (const Motion& motion : motions(rig, words)) {
    const std::vector<JointGap> gaps = find_fight(rigid, inputs, rig.inputs_for(motion.request));
    if (gaps.size() > 1) list.push_back(json_of(motion, gaps, rigid, gives, words));
  }
  return list;
}

}  // namespace axlewright
