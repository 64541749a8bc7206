#pragma once

#include <utility>
#include <vector>

#include "engine/quantity/quantities.h"
#include "engine/solve/follower.h"

// Exact derivatives of every quantity at a solved pose, by dual numbers: along a change of the design, and along a motion
// that nothing holds.

namespace axlewright {

/// A way to change the design: anchors and lengths that move together, per metre.
struct DesignDirection {
  std::vector<std::pair<AnchorId, Vec3>> places;
  std::vector<std::pair<LengthId, double>> lengths;
};

/// A truck at a solved pose.
///   present  the follower that closed the pose
///   held     one over the same tree, at the same pose, with the steering input held: for rates with the wheel held. May be
///            `present` itself
/// Both have their factors renewed.
struct SolvedPose {
  const Truck& truck;
  const Expansion& expansion;
  PathFollower& present;
  PathFollower& held;
  QuantityContext context;
};

/// Rates of the quantities that are rates themselves, at the pose.
QuantityRates<double> rates_at(SolvedPose& pose);

/// All quantities of the pose.
std::vector<double> quantities_at(SolvedPose& pose);

/// Derivatives of all quantities along a design direction, inputs as they are [SI per metre]. NaN where the quantity itself is.
std::vector<double> slopes_along(SolvedPose& pose, const DesignDirection& direction);

/// Derivatives of all quantities along a loose motion, all inputs held: per radian of a spin. Quantities that are rates
/// come out as 0.
std::vector<double> slopes_along(SolvedPose& pose, const LooseMotion& motion);

}  // namespace axlewright
