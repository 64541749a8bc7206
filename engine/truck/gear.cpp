#include "engine/truck/gear.h"

#include <algorithm>
#include <cmath>

#include "engine/base/invariant.h"

namespace axlewright {
namespace {

struct Stretch {
  double from, to, ratio,
      slope;  ///< wheel angles; the ratio at `from` and its change with the angle
};

/// The stretch of the table that begins at row k; the last is endless and level.
Stretch stretch(const Gear& gear, std::size_t k) {
  const GearRatio& row = gear.ratio[k];
  if (k + 1 == gear.ratio.size()) return {row.wheel_angle, INFINITY, row.ratio, 0};
  const GearRatio& next = gear.ratio[k + 1];
  return {row.wheel_angle, next.wheel_angle, row.ratio,
          (next.ratio - row.ratio) / (next.wheel_angle - row.wheel_angle)};
}

double pitman_over(const Stretch& s, double wheel) {
  const double way = wheel - s.from;
  return s.slope == 0 ? way / s.ratio : std::log1p(s.slope * way / s.ratio) / s.slope;
}

double wheel_over(const Stretch& s, double pitman) {
  return s.slope == 0 ? s.from + pitman * s.ratio
                      : s.from + s.ratio * std::expm1(s.slope * pitman) / s.slope;
}

}  // namespace

double pitman_for_wheel(const Gear& gear, double wheel) {
  AXLEWRIGHT_INVARIANT(!gear.ratio.empty());
  double pitman = 0;
  for (std::size_t k = 0; k < gear.ratio.size(); ++k) {
    const Stretch s = stretch(gear, k);
    pitman += pitman_over(s, std::min(std::abs(wheel), s.to));
    if (std::abs(wheel) <= s.to) break;
  }
  return std::copysign(pitman, wheel);
}

double wheel_for_pitman(const Gear& gear, double pitman) {
  AXLEWRIGHT_INVARIANT(!gear.ratio.empty());
  double left = std::abs(pitman);
  for (std::size_t k = 0; k < gear.ratio.size(); ++k) {
    const Stretch s = stretch(gear, k);
    const double whole = std::isinf(s.to) ? INFINITY : pitman_over(s, s.to);
    if (left <= whole) return std::copysign(wheel_over(s, left), pitman);
    left -= whole;
  }
  return 0;
}

double gear_ratio_at(const Gear& gear, double wheel) {
  AXLEWRIGHT_INVARIANT(!gear.ratio.empty());
  for (std::size_t k = 0; k < gear.ratio.size(); ++k) {
    const Stretch s = stretch(gear, k);
    if (std::abs(wheel) <= s.to) return s.ratio + s.slope * (std::abs(wheel) - s.from);
  }
  return gear.ratio.back().ratio;
}

}  // namespace axlewright
