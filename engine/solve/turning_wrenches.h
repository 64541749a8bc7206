#pragma once

#include <array>
#include <vector>

#include "engine/mechanism/equations.h"
#include "engine/solve/dense.h"

namespace axlewright {

/// The stiffness that forces have because they turn with what they act on: the sum over equations of force times the residual's second
/// derivatives along the coordinates. Those of the wrenches are in closed form. As an equation does not
/// change when all that it joins moves together, only coordinates of its Jacobian count: three for the hinge of a leaf spring.
///
/// The equations of one joint are taken together: what a coordinate feels as another moves hangs on the motion of the other and on which side
/// of the joint it is itself, so the sum over equations is made for each side, and each coordinate of a side asks for its power alone.
class TurningWrenches {
 public:
  /// `rows`: indices into the system's equations, in the order of add_to()'s forces.
  void lay_down(const System& system, const Design& design, const std::vector<int>& rows);

  /// Adds to a matrix over the coordinates: in row c, column d what coordinate c feels more as d moves. Needs the twists of `kin`.
  void add_to(Matrix& stiffness, const Vector& forces, const Kinematics& kin);

 private:
  using Parts = EquationPartsT<double>;

  struct Row {
    EquationKind kind = EquationKind::offset;
    Parts measured;
    int body_a = 0, body_b = 0, body_u = 0, body_v = 0, body_w = 0;
  };
  /// How an equation answers to a coordinate: by the wrench in `slot` times `sign`; and which of its parts the coordinate moves.
  struct Reach {
    int slot = kNone;
    double sign = 0;
    bool moves_a = false, moves_b = false, moves_u = false, moves_v = false, moves_w = false;

    bool operator==(const Reach& other) const = default;
    bool answers() const { return slot != kNone; }
  };
  static constexpr int kNone = -1;
  struct Lever {
    int column, side;
  };
  /// Equations of one joint: rows_[row_begin] to row_end, and so on. Coordinates that all of them answer to alike are one side.
  struct Group {
    int row_begin = 0, row_end = 0;
    int side_begin = 0, sides = 0;
    int lever_begin = 0, lever_end = 0;
  };
  /// An equation where it stands.
  struct Standing {
    Parts here;
    std::array<Wrench, kSlots> wrench;
    double force = 0;
  };

  void find_what_moves(const System& system);
  Row row_of(const System& system, const Design& design, int equation) const;
  Reach reach_of(const System& system, const std::vector<int>& rows, int row, int column) const;
  void add_group(const System& system, const std::vector<int>& rows, int begin, int end);
  const Reach& reach(const Group& group, int side, int row) const;
  void stand(const Group& group, const Vector& forces, const Kinematics& kin);
  void move(const Group& group, const Lever& mover, const Twist& by);
  static Parts velocities(const Parts& here, const Reach& mover, const Twist& twist);

  int coordinates_ = 0;
  std::vector<std::vector<bool>> moves_;  ///< by body and coordinate
  std::vector<std::vector<bool>>
      carries_;  ///< by coordinates d and c: whether d carries the axis of c
  std::vector<Row> rows_;
  std::vector<Group> groups_;
  std::vector<int> first_reach_;  ///< by side: of its group's rows, in reaches_
  std::vector<Reach> reaches_;
  std::vector<Lever> levers_;

  // Scratch of a group.
  std::vector<Standing> standing_;  ///< by row
  std::vector<Wrench> changes_,
      carried_along_;  ///< by side: as a coordinate moves; the part that moves along
};

}  // namespace axlewright
