#include "engine/ask/influence.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr std::size_t kMostTold = 12;

std::string with_blanks(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string way_words(const Influence& influence) {
  if (influence.coordinate == "x") return "forward";
  if (influence.coordinate == "y") return "to the left";
  if (influence.coordinate == "z") return "up";
  return "longer";
}

std::string text_of(const Influence& influence, double per_metre, const QuantityInfo& info,
                    const Words& words) {
  const double way = words.inches ? 0.1 * kMetresPerInch : 1e-3;
  std::string who = with_blanks(influence.name);
  if (influence.coordinate != "length" && !influence.on.empty())
    who += fmt::format(" on the {}", with_blanks(influence.on));
  return fmt::format("{}, {} {}: {}", who, words.inches ? "0.1 in" : "1 mm", way_words(influence),
                     words.small_with_sign(info, per_metre * way));
}

Json strongest(std::vector<Influence> list, int quantity, const QuantityInfo& info,
               const Words& words) {
  const auto slope = [&](const Influence& i) {
    return i.per_metre[static_cast<std::size_t>(quantity)];
  };
  list.erase(std::remove_if(list.begin(), list.end(),
                            [&](const Influence& i) { return std::isnan(slope(i)); }),
             list.end());
  // As float: those that differ by rounding alone are alike, and stay in the order of the list.
  const auto strength = [&](const Influence& i) { return static_cast<float>(std::abs(slope(i))); };
  std::stable_sort(list.begin(), list.end(), [&](const Influence& a, const Influence& b) {
    return strength(a) > strength(b);
  });
  Json told = Json::array();
  for (const Influence& influence : list) {
    if (told.size() == kMostTold) break;
    told.push_back(Json{{"name", influence.name},
                        {"coordinate", influence.coordinate},
                        {"on", influence.on},
                        {"per_mm", to_json_unit(info.unit, slope(influence) * 1e-3)},
                        {"text", text_of(influence, slope(influence), info, words)}});
  }
  return told;
}

}  // namespace

Json points_that_matter(Rig& rig, const PoseRequest& where, int quantity, const Words& words) {
  const QuantityInfo& info = rig.quantities()[static_cast<std::size_t>(quantity)];
  return Json{{"quantity", info.key},
              {"words", info.words},
              {"unit", unit_words(info.unit)},
              {"where", json_of(where)},
              {"place_text", words.place(where)},
              {"design_moves", strongest(rig.design_moves(where), quantity, info, words)},
              {"build_errors", strongest(rig.build_errors(where), quantity, info, words)}};
}

}  // namespace axlewright
