#pragma once

#include <numbers>

namespace axlewright {

// The engine works in metre, radian, newton, kilogram, second. These are the only places where a
// number changes unit; they are called where numbers enter or leave (truck, ask, output).

inline constexpr double kMetresPerInch = 0.0254;
/// Pound-force: 0.45359237 kg under 9.80665 m/s^2, both exact (NIST SP 811, 2008, appendix B.8, from memory).
inline constexpr double kNewtonsPerPoundForce = 0.45359237 * 9.80665;
inline constexpr double kRadiansPerDegree = std::numbers::pi / 180.0;

constexpr double from_mm(double mm) {
  return mm * 1e-3;
}
constexpr double to_mm(double metres) {
  return metres * 1e3;
}
constexpr double from_inch(double inch) {
  return inch * kMetresPerInch;
}
constexpr double to_inch(double metres) {
  return metres / kMetresPerInch;
}
constexpr double from_deg(double deg) {
  return deg * kRadiansPerDegree;
}
constexpr double to_deg(double radians) {
  return radians / kRadiansPerDegree;
}

}  // namespace axlewright
