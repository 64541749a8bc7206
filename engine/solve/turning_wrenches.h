#pragma once

#include <vector>

#include "engine/mechanism/equations.h"
#include "engine/solve/dense.h"

namespace axlewright {

/// The stiffness that forces have because they turn with what they act on: the sum over equations of force times the residual's second
/// derivatives along the coordinates. Those of the wrenches are in closed form. As an equation does not
/// change when all that it joins moves together, only coordinates of its Jacobian count: three for the hinge of a leaf spring.
class TurningWrenches {
 public:
  /// `rows`: indices into the system's equations, in the order of add_to()'s forces.
  void lay_down(const System& system, const Design& design, const std::vector<int>& rows);

  /// Adds to a matrix over the coordinates: in row c, column d what coordinate c feels more as d moves. Needs the twists of `kin`.
  void add_to(Matrix& stiffness, const Vector& forces, const Kinematics& kin) const;

 private:
  using Parts = EquationPartsT<double>;

  /// A coordinate that an equation answers to, by the wrench in `slot` times `sign`; and which of its parts the coordinate moves.
  struct Lever {
    int column, slot;
    double sign;
    bool moves_a, moves_b, moves_u, moves_v, moves_w;
  };
  struct Row {
    EquationKind kind = EquationKind::offset;
    Parts measured;
    int body_a = 0, body_b = 0, body_u = 0, body_v = 0, body_w = 0;
    int lever_begin = 0, lever_end = 0;
  };

  void find_what_moves(const System& system);
  void add_levers(const System& system, int equation, Row& row);
  static Parts velocities(const Parts& here, const Lever& lever, const Twist& twist);

  int coordinates_ = 0;
  std::vector<std::vector<bool>> moves_;  ///< by body and coordinate
  std::vector<std::vector<bool>>
      carries_;  ///< by coordinates d and c: whether d carries the axis of c
  std::vector<Row> rows_;
  std::vector<Lever> levers_;
};

}  // namespace axlewright
