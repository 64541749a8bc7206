#pragma once

#include <string>
#include <vector>

#include "engine/mechanism/design.h"
#include "engine/solve/dense.h"

// What is held and what is loose in a mechanism, found by rank and null space of its scaled Jacobian at the
// as-measured pose *and* at displaced ones; and, from that, a square set of equations that can be solved.

namespace axlewright {

/// One way in which the mechanism can move with every input held.
///   direction  velocity of the tree coordinates at the as-measured pose (rad, m); a spin: 1 rad/s of `body` about its line
///   spin       a body turning about the line of its two ends; then it is fixed by a gauge and the mechanism can be solved
struct LooseMotion {
  std::string name;  ///< "tie rod: turns about its own line"
  BodyId body;
  bool spin = false;
  Vec3 line = Vec3::Zero();  ///< of a spin: unit direction as measured
  Vector direction;
};

enum class Soundness {
  sound,       ///< every coordinate is held by closures or bushes, spins by gauges
  under_held,  ///< something moves with all inputs held, and not only about its own line
  over_held,   ///< closures fight once the mechanism moves; see `message`
  singular  ///< loose at the as-measured pose alone: a dead centre or a bound linkage as measured
};

/// A mechanism analysed: the equations to be solved, and what is loose, redundant or at odds.
struct Assembly {
  System system;  ///< with its gauges
  std::vector<int>
      active;  ///< closures solved; without bushes as many as there are coordinates when sound
  std::vector<int> set_aside;  ///< redundant closures, checked at every pose
  std::vector<int>
      bushes;  ///< equations of bushes: with any, a pose is a place of rest (balance.h)
  std::vector<LooseMotion> loose;
  Soundness soundness = Soundness::sound;
  int mobility = 0;                    ///< ways to move with the inputs held
  double smallest_singular_value = 0;  ///< of the active set as measured, dimensionless
  std::vector<std::string> fighting;   ///< equations that cannot all hold when displaced
  std::string message;                 ///< empty when sound
};

/// Builds the system with the inputs in `held` and analyses it. What is held and loose is told with bushes counted as if they were
/// closures, what fights and what is redundant without them. Rank counts singular values below 1e-9 (scaled) as zero.
Assembly assemble(const Mechanism& mechanism, const std::vector<InputId>& held);

/// The equations that hold a place: the active closures, and behind them those of bushes.
std::vector<int> holding_rows(const Assembly& assembly);

/// A unit motion of `system` in words: which body moves most, and how: "axle: moves sideways", "bracket: turns about up".
std::string words_for_motion(const System& system, const Design& design, const Vector& direction);

}  // namespace axlewright
