#pragma once

#include <string>
#include <vector>

#include "engine/mechanism/equations.h"
#include "engine/solve/dense.h"

// What runs out where a path of inputs ends.
//
// Near a limit point the linkage is loose for a moment: it moves though no input does, and in return forces without bound can
// go round in it, from an input through some of its parts to the frame, with no load on it. Every part on that way carries
// force, the healthy ones too; and of a singular matrix any of the equations concerned may be called the superfluous one. What tells
// the parts that run out is that they *swing under load*: they turn in the loose motion while they carry. With the velocities of the
// loose motion and the forces that go round,
//   swing of a part = sum of  force . (w x (w x place))  over the forces on it,    w its angular velocity,
// which is N v^2 / L for a bar of length L under an axial force N whose ends move past each other with v. The forces on a part
// are in balance, so the swing does not depend on where places are counted from. Parts that pass force on and stand still have none; parts
// that only flap along carry none. (All the swings together are the second derivative of the way of the input along the loose motion
// times its force: what makes the input turn back there.)

namespace axlewright {

/// Which parts run out at a limit point, and how they stand there.
struct RunOut {
  enum class How {
    dead_centre,  ///< what pushes on the parts has lost its lever
    straight,     ///< two parts stretch out in one line
    folded        ///< two parts lie in one line, one over the other
  };
  /// Bars and bodies. Two in one line; or those with 0.3 of the largest swing and more, the strongest first, three at most; to a single
  /// body also what pushes on it.
  std::vector<std::string> parts;
  How how = How::dead_centre;

  std::string subject() const;    ///< "drag link and left knuckle"
  std::string predicate() const;  ///< "run straight", "is at a dead centre"
  std::string sentence() const { return subject() + " " + predicate(); }
};

/// Names the parts, for a pose near a limit point.
///   rows         equations solved
///   motion       the loose motion: velocity of the coordinates (rad, m)
///   multipliers  the forces that go round, by `rows`
RunOut find_run_out(const System& system, const Design& design, const Kinematics& kin,
                    const std::vector<int>& rows, const Vector& motion, const Vector& multipliers);

}  // namespace axlewright
