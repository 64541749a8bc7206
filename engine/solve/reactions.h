#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/solve/follower.h"

// The forces in a mechanism that stands still under loads: no friction, no weights but those among the loads. They are
// the multipliers of its equations, sum(loads) + J^T multipliers = 0, and for joints that the tree itself holds an inward
// pass of equilibrium over the tree. On bushes they are how the forces begin to change as the loads come on: of loads so small that the
// pose hardly moves, and without what the bushes carry already.
//
// Steering by a mean heading (`straight_ahead`, `road_wheels`): no part of the truck holds a heading; the gear does it
// through the pitman arm. With the heading's row the bars carry forces that no real truck has. So put the follower that
// holds the pitman arm at the pose (start_from(): both share the tree) and ask that one.

namespace axlewright {

/// What acts on a body at the solved pose: a force at a place, and a moment, all in frame axes [N, m, N m]. The place
/// is where the force acts in the pose, not as measured.
struct BodyLoad {
  BodyId body{};
  Vec3 force = Vec3::Zero();
  Vec3 place = Vec3::Zero();
  Vec3 moment = Vec3::Zero();
};

/// What a joint puts on its body_b, at its anchor b (for a joint without anchors: at the frame's origin), in frame axes
/// [N, N m]; body_a gets the opposite at the same place. Nothing where redundant closures leave it to elasticity.
struct JointReaction {
  std::optional<Vec3> force;
  std::optional<Vec3> moment;
};

/// A load that would turn a loose spin: its gauge had to hold it, and no part of the truck can.
struct UnbalancedSpin {
  BodyId body{};
  double moment = 0;  ///< of the gauge on the body [N m]
};

///   multipliers  by equation of the system: of a distance the bar's axial force, compression positive; of an input its effort
///   joints       by JointId
///   axial        by JointId, of distances: tension positive [N]; nothing for other kinds too
///   efforts      by InputId, of held inputs: what the input pushes with in its positive direction [N, N m]
/// Only what is determined is given: a multiplier is if no left null vector of the Jacobian of all equations, those set
/// aside too, has weight on it.
struct Reactions {
  std::vector<std::optional<double>> multipliers;
  std::vector<JointReaction> joints;
  std::vector<std::optional<double>> axial;
  std::vector<std::optional<double>> efforts;
  std::vector<UnbalancedSpin> spins;

  bool balanced() const { return spins.empty(); }
};

/// The reactions at the follower's present pose, which must be one that it closed (report().usable()). The follower only
/// has its factors renewed.
Reactions reactions(PathFollower& follower, const std::vector<BodyLoad>& loads);

}  // namespace axlewright
