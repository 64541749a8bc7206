#pragma once

#include "engine/solve/follower.h"

namespace axlewright {

/// The direction of a loose motion at the present pose: a spin as measured is none once the truck has moved. Per radian of
/// the body's turn about its line against its carrier, all inputs held. Renews the follower's factors.
Vector motion_here(PathFollower& present, const LooseMotion& motion);

/// Carries out a spin from the present pose by an angle [rad] (to a ten-thousandth of it), all inputs held, closing the mechanism after each step. False,
/// and the place is wherever it came to, if it will not close on the way or the motion is no spin.
bool carry_out(PathFollower& present, const LooseMotion& motion, double angle);

}  // namespace axlewright
