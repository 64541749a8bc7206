#include "engine/ask/words.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

bool rounds_to_zero(const std::string& text) {
  return text.find_first_of("123456789") == std::string::npos;
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
  switch (info.unit) {
    case QuantityUnit::length:
      return length(si);
    case QuantityUnit::angle:
      return angle(si);
    case QuantityUnit::turns:
      return fmt::format("{:.2f} turns", std::abs(si));
    case QuantityUnit::ratio:
      return fmt::format("{:.2f} to 1", std::abs(si));
    case QuantityUnit::none:
      return "";
    case QuantityUnit::angle_per_angle:
      return fmt::format("{:.2f} deg per deg", std::abs(si));
    case QuantityUnit::angle_per_bump:
      return fmt::format("{:.2f} deg per {}", std::abs(to_deg(si)), inches ? "inch" : "25 mm");
  }
  return "";
}

std::string Words::with_sign(const QuantityInfo& info, double si) const {
  const double shown =
      info.unit == QuantityUnit::angle_per_bump && inches ? si * kMetresPerInch / kBump : si;
  const std::string text = magnitude(info, shown);
  const std::string number = text.substr(0, text.find(' '));
  if (rounds_to_zero(number)) return text;
  const std::string& side = si > 0 ? info.positive : info.negative;
  if (!side.empty()) return text + " " + side;
  return si < 0 ? "-" + text : text;
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
