#include "engine/ask/measured_answer.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/list_text.h"
#include "engine/base/number.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

// Of its own error less than this part shows: as good as checked by nothing.
constexpr double kChecked = 0.05;
// A bench reads so much better than a tape that little of its errors shows; below this none of them does.
constexpr double kAlone = 1e-4;

const char* word_for(MeasuringAxes axes) {
  switch (axes) {
    case MeasuringAxes::frame:
      return "frame";
    case MeasuringAxes::road:
      return "road";
    case MeasuringAxes::gauge_holes:
      return "gauge holes";
  }
  return "";
}

/// "0.6", of a misfit in units of its plus_minus; two places where one says too little.
std::string times_words(double times) {
  const double size = std::abs(times);
  return decimal_text(size, 1, size < 0.1 ? 2 : 1);
}

std::string number_words(const Misfit& misfit, double value, const Words& words) {
  return misfit.is_angle ? words.angle(value) : words.length(value);
}

std::string misfit_text(const Misfit& misfit, const Words& words) {
  if (misfit.is_exact) {
    return fmt::format("{}: {}", misfit.words,
                       number_words(misfit, std::abs(misfit.error()), words));
  }
  return fmt::format("{}: the fit is {} {}, {} times its plus_minus", misfit.words,
                     number_words(misfit, std::abs(misfit.error()), words),
                     misfit.error() < 0 ? "less" : "more",
                     times_words(misfit.error() / misfit.plus_minus));
}

Json misfit_json(const Misfit& misfit, const Words& words) {
  const std::string unit = misfit.is_angle ? "_deg" : "_mm";
  const auto number = [&](double value) {
    return number_or_null(misfit.is_angle ? to_deg(value) : to_mm(value));
  };
  return Json{{"name", misfit.name},
              {"words", misfit.words},
              {"coordinate", misfit.is_coordinate},
              {"value" + unit, number(misfit.value)},
              {"fitted" + unit, number(misfit.fitted)},
              {"plus_minus" + unit, number(misfit.plus_minus)},
              {"misfit", number_or_null(misfit.error() / misfit.plus_minus)},
              {"normal", misfit.normal},
              {"checked", misfit.checked < kAlone ? 0 : misfit.checked},
              {"by_others" + unit, number(misfit.by_others)},
              {"text", misfit_text(misfit, words)}};
}

Json misfits_json(const MeasuredFit& fit, const Words& words) {
  Json list = Json::array();
  for (const Misfit& misfit : fit.misfits) {
    if (!misfit.is_exact) list.push_back(misfit_json(misfit, words));
  }
  return list;
}

Json points_json(const Truck& truck) {
  Json list = Json::array();
  for (std::size_t k = 0; k < truck.points.size(); ++k) {
    const Point& point = truck.points[k];
    const FittedPoint& fitted = truck.fit->points[k];
    list.push_back(Json{{"name", point.name},
                        {"on", point.on},
                        {"measured_mm", place_mm(fitted.measured)},
                        {"moved_mm", to_mm(fitted.moved)},
                        {"as_stood_mm", place_mm(fitted.as_stood)},
                        {"place_mm", place_mm(point.at)},
                        {"plus_minus_mm", place_mm(fitted.plus_minus)}});
  }
  return list;
}

Json open_angle(double plus_minus) {
  return plus_minus > 0 ? Json(to_deg(plus_minus)) : Json();
}

Json stance_json(const FoundStance& stance) {
  return Json{{"lean_deg", to_deg(stance.lean)},
              {"lean_plus_minus_deg", open_angle(stance.lean_plus_minus)},
              {"rake_deg", to_deg(stance.rake)},
              {"rake_plus_minus_deg", open_angle(stance.rake_plus_minus)},
              {"yaw_deg", to_deg(stance.yaw)},
              {"yaw_plus_minus_deg", open_angle(stance.yaw_plus_minus)}};
}

/// Coordinates that were measured, and those of them that nothing checks.
struct Coordinates {
  int measured = 0, unchecked = 0;
};

Coordinates coordinates_of(const MeasuredFit& fit) {
  Coordinates count;
  for (const Misfit& misfit : fit.misfits) {
    if (!misfit.is_coordinate) continue;
    ++count.measured;
    if (misfit.checked < kChecked) ++count.unchecked;
  }
  return count;
}

/// "of 10 trucks measured with such care 6 would miss by as much".
std::string chance_words(double chance) {
  const int of = chance >= 0.1 ? 10 : 100;
  return fmt::format("of {} trucks measured with such care {} would miss by as much", of,
                     std::max(1L, std::lround(of * chance)));
}

std::string fits_words(const MeasuredFit& fit) {
  if (fit.worst < 0) return "Nothing that was measured checks anything else: it is taken as it is.";
  const Misfit& worst = fit.misfits[index(fit.worst)];
  return fmt::format(
      "What was measured fits together: {}. The worst is {}, {} times its "
      "plus_minus.",
      chance_words(std::min(fit.chance, fit.chance_of_largest)), worst.words,
      times_words(worst.error() / worst.plus_minus));
}

std::string unchecked_words(const MeasuredFit& fit) {
  const Coordinates count = coordinates_of(fit);
  if (count.unchecked == 0) return {};
  return fmt::format(" Of {} coordinates {} are checked by nothing else that was measured.",
                     count.measured, count.unchecked);
}

/// Readings that nothing else checks, which no misfit can show.
std::string alone_words(const MeasuredFit& fit) {
  std::vector<std::string> alone;
  for (const Misfit& misfit : fit.misfits) {
    if (!misfit.is_coordinate && !misfit.is_exact && misfit.checked < kAlone)
      alone.push_back(misfit.words);
  }
  if (alone.empty()) return {};
  return fmt::format(" Nothing else tells {}: a slip there is not seen.", list_of(alone, " or "));
}

std::string stood_words(const MeasuredFit& fit, const Words& words) {
  // A lean that the angle's last digit does not show is none to speak of.
  const std::string lean = words.angle(std::abs(fit.stance.lean));
  if (lean == words.angle(0)) return {};
  return fmt::format(
      " The frame leaned {}, {} side up; everything is told of the truck set straight.", lean,
      fit.stance.lean > 0 ? "left" : "right");
}

}  // namespace

std::string measured_sentence(const Truck& truck, const Words& words) {
  const MeasuredFit& fit = *truck.fit;
  return fits_words(fit) + unchecked_words(fit) + alone_words(fit) + stood_words(fit, words);
}

Json measured_json(const Truck& truck, const Words& words) {
  const MeasuredFit& fit = *truck.fit;
  const Coordinates count = coordinates_of(fit);
  Json answer{{"axes", word_for(fit.axes)},
              {"report", json_of(fit.report)},
              {"redundancy", fit.redundancy},
              {"chi_square", fit.chi_square},
              {"chance", fit.chance},
              {"chance_of_largest", fit.chance_of_largest},
              {"coordinates", count.measured},
              {"unchecked", count.unchecked},
              {"worst", fit.worst < 0 ? Json() : Json(fit.misfits[index(fit.worst)].name)}};
  answer["stood"] = stance_json(fit.stance);
  answer["readings"] = misfits_json(fit, words);
  answer["points"] = points_json(truck);
  answer["text"] = measured_sentence(truck, words);
  return answer;
}

}  // namespace axlewright
