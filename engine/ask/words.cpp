#include "engine/ask/words.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

bool rounds_to_zero(const std::string& text) {
  return text.find_first_of("123456789") == std::string::npos;
}

/// The magnitude of an SI value in the unit of its kind.
std::string amount(QuantityUnit unit, double si, bool inches, int decimals) {
  const auto text = [&](double value, const char* words) {
    return fmt::format("{:.{}f}{}", std::abs(value), decimals, words);
  };
  switch (unit) {
    case QuantityUnit::length:
      return inches ? text(to_inch(si), " in") : text(to_mm(si), " mm");
    case QuantityUnit::angle:
      return text(to_deg(si), " deg");
    case QuantityUnit::turns:
      return text(si, " turns");
    case QuantityUnit::ratio:
      return text(si, " to 1");
    case QuantityUnit::none:
      return "";
    case QuantityUnit::angle_per_angle:
      return text(si, " deg per deg");
    case QuantityUnit::angle_per_bump:
      return inches ? text(to_deg(si) * kMetresPerInch / kBump, " deg per inch")
                    : text(to_deg(si), " deg per 25 mm");
  }
  return "";
}

std::string signed_text(const QuantityInfo& info, double si, const std::string& text) {
  if (rounds_to_zero(text.substr(0, text.find(' ')))) return text;
  const std::string& side = si > 0 ? info.positive : info.negative;
  if (!side.empty()) return text + " " + side;
  return si < 0 ? "-" + text : text;
}

}  // namespace

std::string Words::length(double metres) const {
  return inches ? fmt::format("{:.2f} in", std::abs(to_inch(metres)))
                : fmt::format("{:.1f} mm", std::abs(to_mm(metres)));
}

std::string Words::height(double metres) const {
  return inches ? fmt::format("{:.1f} in", to_inch(metres))
                : fmt::format("{:.0f} mm", to_mm(metres));
}

std::string Words::angle(double radians) const {
  return fmt::format("{:.1f} deg", std::abs(to_deg(radians)));
}

std::string Words::magnitude(const QuantityInfo& info, double si) const {
  const bool coarse =
      info.unit == QuantityUnit::angle || (info.unit == QuantityUnit::length && !inches);
  return amount(info.unit, si, inches, coarse ? 1 : 2);
}

std::string Words::with_sign(const QuantityInfo& info, double si) const {
  return signed_text(info, si, magnitude(info, si));
}

std::string Words::small_with_sign(const QuantityInfo& info, double si) const {
  return signed_text(info, si, amount(info.unit, si, inches, 3));
}

std::string Words::place(const PoseRequest& request) const {
  std::string text = "at height " + height(request.height);
  const auto way = [&](const char* name, double metres) {
    if (metres == 0) return;
    text += fmt::format(", {} {} {}", name,
                        inches ? fmt::format("{:.1f} in", std::abs(to_inch(metres)))
                               : fmt::format("{:.0f} mm", std::abs(to_mm(metres))),
                        metres > 0 ? "up" : "down");
  };
  way("rear", request.rear_height);
  way("both wheels", request.travel);
  way("left wheel", request.travel_left);
  way("right wheel", request.travel_right);
  if (request.lean != 0)
    text += fmt::format(", lean {} {} side up", angle(request.lean),
                        request.lean > 0 ? "left" : "right");
  switch (request.steer_by) {
    case SteerBy::straight_ahead:
      text += ", going straight";
      break;
    case SteerBy::held:
      text += ", wheel held";
      break;
    case SteerBy::steering_wheel:
      text += fmt::format(", wheel {:.0f} deg {}", std::abs(to_deg(request.steer)),
                          request.steer >= 0 ? "left" : "right");
      break;
    case SteerBy::pitman:
      text += fmt::format(", pitman arm {} {}", angle(request.steer),
                          request.steer >= 0 ? "left" : "right");
      break;
    case SteerBy::road_wheels:
      text += fmt::format(", road wheels {} {}", angle(request.steer),
                          request.steer >= 0 ? "left" : "right");
      break;
  }
  return text;
}

}  // namespace axlewright
