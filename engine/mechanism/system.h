#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/mechanism/mechanism.h"

// A mechanism made ready to be solved: a tree of bodies under the frame, and one scalar equation for everything
// that the tree does not hold already. Two kinds of equation, both against two or three bodies, make every joint:
//   distance   (|p_a - p_b|^2 - L^2) / (2L)      its multiplier is the bar's axial force
//   offset     n . (p_a - p_b) - c               n fixed on a body: ball, point on line, held coordinate
//   cosine     u . v - c                         u, v fixed on bodies: pins, slides, keepers, gauges
// two more measure how far a bush is turned:
//   angle      atan2(u . w, u . v) - c           u fixed on one body, v and w on another, square to each other
//   tilt       asin(u . v) - c
// and two make inputs: `turn` of a tree pin, mean `heading`.
// An equation with a stiffness is no closure: its residual is the deflection of a bush, which pulls back in proportion.

namespace axlewright {

enum class TreeKind { weld, pin, slide, ball, free };

/// How a body hangs on its parent: its coordinates are first .. first + count - 1.
///   pin    count 1: angle about `axis` through `pivot` [rad]
///   slide  count 1: way along `axis` [m]
///   ball   count 3: rotation about `pivot`, updated by small rotations in the parent's axes [rad]
///   free   count 6: as ball about `centre`, then translation [m]; parent is the frame
struct TreeJoint {
  TreeKind kind = TreeKind::weld;
  BodyId body, parent;
  int first = 0;
  int count = 0;
  AnchorId pivot_parent, pivot_child;
  AxisId axis;                 ///< on the parent
  Vec3 centre = Vec3::Zero();  ///< free only
  JointId joint;               ///< the mechanism's joint; none if free
  double sign = 1;             ///< -1 where body_b of the joint is the parent
};

enum class EquationKind { distance, offset, cosine, angle, tilt, turn, heading };

/// Why an equation is there.
enum class EquationRole { joint, input, gauge, bush };

/// One scalar equation: its kind and role say which of the members count.
struct Equation {
  EquationKind kind = EquationKind::offset;
  EquationRole role = EquationRole::joint;
  AnchorId a, b;  ///< distance, offset
  AxisId u,
      v;  ///< offset (u = n), cosine, angle, tilt; heading: u is what it counts against, none for the frame
  AxisId w;                ///< angle
  LengthId length;         ///< distance
  double target = 0;       ///< c of offset, cosine, angle and tilt, unless an input gives it
  double stiffness = 0;    ///< of role bush: [N/m] or [N m/rad]; 0: a closure
  int input = -1;          ///< index into the inputs whose value is the target
  int tree = -1;           ///< turn: index of the tree joint
  double as_measured = 0;  ///< turn: its value as measured [rad]
  std::vector<AxisId> headings;
  JointId joint;     ///< where it comes from
  std::string name;  ///< "track bar", "tie rod ball, left: sideways"
};

/// A coordinate that an equation answers to, and by which wrench: the equation's wrench in `slot`, times `sign`.
struct JacobianEntry {
  int column = 0;
  int slot = 0;
  double sign = 1;
};

/// Wrench slots of an equation: on the bodies of a, b and u (or of the two headings and the frame), which balance each other; and on
/// the body that a heading counts against, which the frame balances alone.
inline constexpr int kAgainst = 3;
inline constexpr int kSlots = 4;

/// A mechanism as a tree of bodies and scalar equations over the tree's coordinates.
struct System {
  Mechanism mechanism;            ///< with the axes that the equations needed added
  std::vector<TreeJoint> tree;    ///< parents before children; the frame is not listed
  std::vector<int> tree_of_body;  ///< index into `tree`, -1 for the frame
  int coordinates = 0;
  std::vector<Equation> equations;  ///< joints' first, then inputs', then gauges'
  std::vector<std::vector<JacobianEntry>>
      entries;  ///< by equation: structure, a superset of the non-zeros

  int equation_count() const { return static_cast<int>(equations.size()); }
};

/// The system of a mechanism with the inputs named held at given values. Deterministic: the same mechanism gives
/// the same tree and order. Pins, slides and clamps go into the tree first, then the body with the most joints.
System make_system(const Mechanism& mechanism, const std::vector<InputId>& held);

/// Adds one equation (a gauge) and its structure.
void add_equation(System& system, Equation equation);

/// The bodies that the wrenches of an equation act on, by slot; -1 where a slot is not used.
std::array<int, kSlots> bodies_of(const System& system, const Equation& equation);

/// Bodies from `body` up to, without, the frame.
std::vector<BodyId> path_to_frame(const System& system, BodyId body);

}  // namespace axlewright
