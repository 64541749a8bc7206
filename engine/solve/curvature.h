#pragma once

#include <vector>

#include "engine/mechanism/equations.h"

// How much the equations of a system can bend within a neighbourhood of a pose: true bounds of their second derivatives, from
// lever arms alone.
//
// Chart. Near a pose q every other one is written with *exponential* coordinates x: a pin is turned on by an angle x, a slide and the
// place of a free body are shifted on by x, and a ball or free body is turned on by exp([x]) (the rotation about x by
// the angle |x|). Coordinates that belong together make a *block*: one number of a pin or slide, three of a ball, three
// and three of a free body. |x_j| is the Euclidean norm of block j; for turns it is the angle of the relative rotation, so |x_j| is a
// *distance* of poses (bi-invariant on the rotations), and balls in the chart are balls of that distance.
//
// Rotations. Along any directions d, e the first and second derivatives of exp([x]), as matrices, have norms
//   |D exp [d]| <= |d|,   |D^2 exp [d, e]| <= |d| |e|          for every x,
// since by Duhamel's formula they are integrals of products of rotations with [d] and [e] (norms |d|, |e|) over sets of
// measure 1 and 1/2, the latter in two orders. So a joint further in and one further out give, by the product rule, |d_j| |d_k| as well.
//
// Places. Walk from a *root* body to the body of a point p. Seen from the root, joint k turns p about its pivot P_k (its axis, a pin);
// let l_k be the *reach*: the distance of p from P_k (from the axis), 1 for a slide or shift. The joints inward of k turn the whole. With
// |d_j| <= w_j, |e_j| <= w_j:
//   |D p|   <= sum_k w_k l_k                                                =: V
//   |D^2 p| <= sum_k w_k l_k (w_k if k turns, + 2 sum_{j inward of k that turns} w_j)    =: S
// A pair (j, k) bends p by the reach of its *outer* joint: the inner one turns what the outer one does. A shift does
// not bend; a shift inward of a turn neither. A joint walked from its child to its parent is the inverse motion, exp([-x]), with the
// same norms; of a free body the shift is then outside the turn. In the chart's box |x_j| <= r w_j the reach is at most
//   l_k(q) + r sum_{i outward of k} w_i l_i,
// the outermost reach being a rigid one.
//
// Differences r = p_a - p_b. Walk to both; on the way that both share, the reach is |r|, which only the ways that they
// do not share change.
//
// Equations (equations.h), with V and S of r:
//   distance  (|r|^2 - L^2) / (2L)        |D^2| <= (V^2 + |r| S) / L      root: where the ways to a and b part
//   offset    n . r - c                   |D^2| <= S                      root: the body that n is fixed on
//   cosine    u . v - c                   |D^2| <= W^2                    W: sum of w_j of the turns between the bodies of u and v
//   turn      linear: 0
//   heading   mean of atan2(-s_x, s_y)    |D^2| <= W^2 / h + W^2 / h^2    h = |(s_x, s_y)| >= h(q) - r W; gradient 1/h, curvature 1/h^2;
//                                                                         what it counts against likewise
// All are bounds of the bilinear form: for every pair of directions, not only for d = e.

namespace axlewright {

/// Coordinates measured by one Euclidean norm.
struct Block {
  int first = 0, count = 0;
  bool turns = false;  ///< [rad], else [m]
  int tree = 0;        ///< index of its tree joint
};

/// The blocks of a system, in the order of its coordinates.
std::vector<Block> blocks_of(const System& system);

/// How far two poses are apart in a block: angle of the relative rotation [rad], or way [m].
double distance_in_block(const Block& block, const State& from, const State& to);

/// The bounds above, for the rows of a square system. Ways through the tree are laid down once, reaches are taken once a
/// pose. A value: it keeps no reference to the system.
class CurvatureBounds {
 public:
  /// `rows`: indices into the system's equations, in the order wanted.
  CurvatureBounds(const System& system, const Design& design, const std::vector<int>& rows);

  const std::vector<Block>& blocks() const { return blocks_; }

  /// Takes a pose as the centre q.
  void centre_on(const State& state, const Kinematics& kin);

  /// By row: the bound of |D^2 Phi_row [d, e]| for all |d_j|, |e_j| <= weights[j], at all poses |x_j| <= radius * weights[j] about
  /// the centre; `weights` by block. Infinite where a heading's direction could stand upright.
  void evaluate(const std::vector<double>& weights, double radius,
                std::vector<double>& bounds) const;

 private:
  enum class Motion { shift, turn_about_axis, turn_about_point };
  struct Lever {
    int block;
    Motion motion;
    double reach;  ///< l at the centre
  };
  using Way = std::vector<Lever>;
  struct Place {
    int body = 0;
    Vec3 at = Vec3::Zero();
  };
  struct Heading {
    Way way;
    int body = 0;
    Vec3 direction = Vec3::UnitY();
    double share = 1;  ///< of the mean; 1 of what the mean counts against
    double level = 1;  ///< h at the centre
  };
  struct Row {
    EquationKind kind;
    Place a, b;
    double length = 1;
    Way shared, to_a, to_b;  ///< of a cosine `shared` alone
    double apart = 0;        ///< |r| at the centre
    std::vector<Heading> headings;
  };
  /// What a tree joint turns about; frame axes, at the centre.
  struct Pivot {
    TreeKind kind;
    int parent;
    Vec3 at, axis;  ///< as measured; `at` of a free body its centre
    Vec3 at_here = Vec3::Zero(), axis_here = Vec3::Zero();
  };
  /// V and S of a place.
  struct Bend {
    double first = 0, second = 0;
  };

  Row lay_down(const System& system, const Design& design, const Equation& e) const;
  Way way_between(const System& system, BodyId root, BodyId body) const;
  void take_reaches(const Vec3& place, Way& way) const;
  static double turns_of(const Way& way, const std::vector<double>& weights);
  static Bend bend_of(const Way& way, double inner_turns, const std::vector<double>& weights,
                      double radius);
  static double bound_of(const Row& row, const std::vector<double>& weights, double radius);

  std::vector<Block> blocks_;
  std::vector<int> first_block_;  ///< by tree joint
  std::vector<Pivot> pivots_;     ///< by tree joint
  std::vector<Row> rows_;
};

}  // namespace axlewright
