#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "engine/quantity/quantities.h"
#include "engine/solve/follower.h"

// Exact derivatives of every quantity at a solved pose, by dual numbers: along a change of the design, and along a motion
// that nothing holds.

namespace axlewright {

/// A way to change the design: anchors and lengths that move together, per metre.
///   pitman      what the pitman arm's input does meanwhile [rad per m]; only looked at where the present pose has it held
///   road_place  what the road's point does meanwhile; only looked at where the pose has one
struct DesignDirection {
  std::vector<std::pair<AnchorId, Vec3>> places;
  std::vector<std::pair<LengthId, double>> lengths;
  double pitman = 0;
  Vec3 road_place = Vec3::Zero();
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
  std::optional<Vec3> road_place = std::nullopt;  ///< as evaluate_quantities() has it
};

/// Rates of the quantities that are rates themselves, at the pose.
QuantityRates<double> rates_at(SolvedPose& pose);

/// All quantities of the pose.
std::vector<double> quantities_at(SolvedPose& pose);

/// Derivatives of all quantities along a design direction, inputs as they are [SI per metre]. NaN where the quantity itself is.
std::vector<double> slopes_along(SolvedPose& pose, const DesignDirection& direction);

/// Derivative of the middle of both contacts along a design direction.
Vec3 contact_slope_along(SolvedPose& pose, const DesignDirection& direction);

/// Derivatives of all quantities along a loose motion, all inputs held: per radian of a spin. Quantities that are rates
/// come out as 0.
std::vector<double> slopes_along(SolvedPose& pose, const LooseMotion& motion);

}  // namespace axlewright
