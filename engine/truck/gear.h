#pragma once

#include "engine/truck/truck.h"

namespace axlewright {

/// The pitman arm's turn for a steering-wheel angle from centre, both positive to the left [rad]. The ratio is linear between
/// the rows of the table, constant beyond the last, alike on both sides; so the turn is the integral of 1 / ratio.
double pitman_for_wheel(const Gear& gear, double wheel);

/// The inverse.
double wheel_for_pitman(const Gear& gear, double pitman);

/// Ratio d(wheel)/d(pitman) at a steering-wheel angle.
double gear_ratio_at(const Gear& gear, double wheel);

}  // namespace axlewright
