#include "engine/ask/guided_answer.h"

#include <fmt/format.h>

#include "engine/base/units.h"
#include "engine/study/straightness.h"

namespace axlewright {
namespace {

const char* name_of(ArmRule rule) {
  switch (rule) {
    case ArmRule::equal_halves:
      return "equal halves";
    case ArmRule::mean_proportional:
      return "a^2/b";
    case ArmRule::root_of_product:
      return "sqrt(a b)";
    case ArmRule::none:
      return "none";
  }
  return "";
}

std::string rule_text(const Straightness& s, const Words& words) {
  switch (s.rule) {
    case ArmRule::equal_halves:
      return "all equal, the exact rule";
    case ArmRule::mean_proportional:
      return "unequal halves by the rule, half-link = guide half squared / near half";
    case ArmRule::root_of_product:
      return fmt::format(
          "unequal halves, and the half-link is the root of their product, which is not the rule: "
          "guide half squared / near half is {}",
          words.length(s.half_link_by_rule));
    case ArmRule::none:
      return fmt::format(
          "these keep neither rule, all equal or half-link = guide half squared / near half, which "
          "is {}",
          words.length(s.half_link_by_rule));
  }
  return "";
}

std::string text_of(const Straightness& s, const Truck& truck, const Words& words) {
  std::string text = fmt::format("{}: near half {}, guide half {}, half-link {}: {}", s.words,
                                 words.length(s.near_half), words.length(s.guide_half),
                                 words.length(s.half_link), rule_text(s, words));
  if (s.on_rocker) text += "; its guide end is on a rocker";
  if (!s.leaves_line) return text + "; not every height can be had, so its path is not told";
  return text + fmt::format("; from {} to {} its near end leaves its line by {}",
                            words.height(truck.height_range[0]),
                            words.height(truck.height_range[1]), words.length(*s.leaves_line));
}

}  // namespace

Json guided_bars(Rig& rig, const Words& words) {
  Json list = Json::array();
  for (const Straightness& s : guided_bar_paths(rig)) {
    Json j{{"bar", s.name},
           {"rule", name_of(s.rule)},
           {"near_half_mm", to_mm(s.near_half)},
           {"guide_half_mm", to_mm(s.guide_half)},
           {"half_link_mm", to_mm(s.half_link)},
           {"half_link_by_rule_mm", to_mm(s.half_link_by_rule)},
           {"on_rocker", s.on_rocker},
           {"text", text_of(s, rig.truck(), words)}};
    j["leaves_line_mm"] = s.leaves_line ? Json(to_mm(*s.leaves_line)) : Json();
    list.push_back(std::move(j));
  }
  return list;
}

}  // namespace axlewright
