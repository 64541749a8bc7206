#pragma once

#include "engine/quantity/quantities.h"

// Quantities of a height that are told of several poses, not of one.

namespace axlewright {

/// Mean steer of the road wheels with the steering wheel held at its aligned angle.
const QuantityInfo& held_steer_info();

/// Largest deviation of the mean steer over the travel, wheel held from going straight.
const QuantityInfo& bump_sweep_info();

}  // namespace axlewright
