#include "engine/ask/fight_answer.h"

#include <algorithm>
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

std::string gap_text(const JointGap& gap, const Words& words) {
  return gap.is_angle ? words.angle(gap.gap) : words.length(gap.gap);
}

std::string text_of(const Motion& motion, const Fight& fight, const std::vector<std::string>& names,
                    bool gives, const Words& words) {
  const std::string end = gives ? ": the bushes give" : "";
  if (!fight.one_opens) {
    return fmt::format(
        "rigid, {} cannot be had: as near as the parts come together {} still part, by up to {}{}",
        motion.words, list_of(names), gap_text(fight.gaps.front(), words), end);
  }
  const std::string first = fmt::format("rigid, {} would part the {} by {}", motion.words,
                                        names.front(), gap_text(fight.gaps.front(), words));
  if (names.size() == 1) return first + end;
  return fmt::format("{}; it fights with {}{}", first, list_of({names.begin() + 1, names.end()}),
                     end);
}

Json json_of(const Motion& motion, const Fight& fight, const Mechanism& rigid, bool gives,
             const Words& words) {
  Json j{{"motion", motion.words}, {"one_opens", fight.one_opens}, {"gaps", Json::array()}};
  std::vector<std::string> names;
  for (const JointGap& gap : fight.gaps) {
    const std::string& name = rigid.joint(gap.joint).name;
    Json told{{"joint", name}};
    told[gap.is_angle ? "gap_deg" : "gap_mm"] = gap.is_angle ? to_deg(gap.gap) : to_mm(gap.gap);
    j["gaps"].push_back(std::move(told));
    // A hinge has several closures of one name.
    const bool is_new = std::find(names.begin(), names.end(), name) == names.end();
    if (is_new && names.size() < kMostNamed) names.push_back(name);
  }
  j["text"] = text_of(motion, fight, names, gives, words);
  return j;
}

}  // namespace

Json fights(const Rig& rig, const Words& words) {
  Json list = Json::array();
  const Expansion& x = rig.expansion();
  const Assembly& held = rig.held().assembly();
  const bool gives = !held.bushes.empty();
  if (!gives && held.set_aside.empty() && held.soundness != Soundness::over_held) return list;
  const Mechanism rigid = rigid_of(x.mechanism);
  std::vector<InputId> inputs = height_inputs(x);
  inputs.push_back(x.pitman_turn.value >= 0 ? x.pitman_turn : x.road_wheels);
  for (const Motion& motion : motions(rig, words)) {
    const Fight fight = find_fight(rigid, inputs, rig.inputs_for(motion.request));
    if (!fight.gaps.empty()) list.push_back(json_of(motion, fight, rigid, gives, words));
  }
  return list;
}

}  // namespace axlewright
