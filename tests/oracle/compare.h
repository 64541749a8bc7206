#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/solve/follower.h"
#include "tests/oracle/restate.h"

namespace axlewright::oracle {

/// How far our answer at one pose is from the second solver's: largest over all bodies, joints and held inputs.
///   place   of every anchor [m]
///   turn    of every body [rad]
///   force   of every determined reaction, moments at 1 m [N]
///   largest of the reactions themselves [N]
struct Difference {
  bool closed = false;  ///< the second solver found a pose
  double place = 0;
  double turn = 0;
  double force = 0;
  double largest_reaction = 0;
  int reactions = 0;  ///< how many were determined and compared
  int undetermined = 0;
  double acceleration = 0;
  std::string worst_joint;
};

/// Compares the follower's present pose, its inputs held there. The second solver starts from that pose with every body
/// moved by a millimetre and turned by a degree, in directions drawn from `seed`, and so are the loads on every body.
Difference compare_here(PathFollower& follower, const std::vector<InputId>& held,
                        std::uint64_t seed);

/// How far our place of rest on bushes is from the second solver's.
///   place, turn  as above
///   force        of every bush on its body_b, moments at its anchor b and at 1 m [N]
///   energy       of all bushes [J]
struct RestDifference {
  bool closed = false;
  double place = 0;
  double turn = 0;
  double force = 0;
  double energy = 0;
  double largest_force = 0;
  int bushes = 0;
  double stiffness = 0;   ///< the second solver's least: above zero its place is a minimum [N/m]
  double unbalanced = 0;  ///< what it left [N, N m]
  std::string worst_bush;
};

/// Compares the follower's present place of rest, its inputs held there, with where the second solver settles from disturbed
/// bodies as above.
RestDifference compare_rest_here(const PathFollower& follower, const std::vector<InputId>& held,
                                 std::uint64_t seed);

/// How far off Simbody's own minimiser of energy ends, asked for a gradient of `tolerance` [N, N m]: largest way of any anchor [m];
/// infinity where it gives up.
double apart_from_minimised(const PathFollower& follower, const std::vector<InputId>& held,
                            std::uint64_t seed, double tolerance);

/// How far the follower's present pose is from where the second solver gets by itself, from as measured in many small steps
/// of the inputs: largest way of any anchor [m]. Tells whether both are on the as-measured assembly's branch.
double apart_after_own_path(const PathFollower& follower, const std::vector<InputId>& held);

/// Whether the second solver gets from the follower's present pose to other inputs in small steps of small moves. Asked where
/// the follower says that it cannot.
bool second_gets_to(const PathFollower& follower, const std::vector<InputId>& held,
                    const std::vector<double>& inputs);

}  // namespace axlewright::oracle
