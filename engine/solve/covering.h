#pragma once

#include <string>
#include <vector>

#include "engine/solve/curvature.h"
#include "engine/solve/follower.h"

// A proof that poses lie on the as-measured assembly's branch (definition 16, `proved`): a path of inputs is covered by balls in each
// of which the linkage has, at the inputs that the ball stands for, one pose and no other.
//
// One ball. Centre q, a pose found by the follower; chart x and blocks j as in curvature.h; norm |x| = max_j |x_j| / w_j [m] with
// weights w_j of our choice (largest 1, turns counted at kAngleLength); Phi(x, u) the square set of equations, A a fixed matrix, the
// computed inverse of their Jacobian J at q. Three numbers:
//   start      |A Phi(0, u)|
//   slip       |1 - A J|: what the computed inverse misses
//   curvature  |A D^2 Phi(x, u) [d, e]| <= curvature |d| |e| wherever |x| <= radius: max_j sum_e |A_je| M_e / w_j,
//              |A_je| the norm of column e of A in block j, M_e the bound of curvature.h
// Let G(x) = x - A Phi(x, u), whose fixed points are the poses: A is regular, since |1 - A J| < 1. For |x| <= radius
//   |D G(x)| <= slip + curvature |x| <= slip + curvature radius =: c,    |G(x)| <= start + slip |x| + curvature |x|^2 / 2.
// If c < 1 there is *at most one* pose in the ball. If start <= radius (1 - slip - curvature radius / 2) =: room, G also takes the ball
// into itself, and there is *exactly one*; it is within start / (1 - slip - curvature radius / 2) of q. D Phi is regular all
// over the ball, so the pose goes smoothly with u. With the best radius this is Kantorovich's condition
//   h = curvature start / (1 - slip)^2 <= 1/2
// in its affine covariant form: h does not change if the equations are combined or scaled otherwise.
//
// One step. The equations are affine in the inputs, so along a straight line of them |A Phi(0, u(s))| <= start + (s - s_k) speed, speed
// = |A dPhi/ds|: the ball serves from s_k until that has used up the room. There, at s_k+1, the follower offers a new centre with a
// ball of its own. The pose in the new ball is within start / (...) of its centre; if it lies in the old ball too, it is the pose
// of the old ball at s_k+1, since that is alone there. Distances of poses obey the triangle inequality (curvature.h), so
//   |x_j(new centre from old)| + w_j' start' / (...)' <= radius w_j     for every block j
// shows it. So, step by step, the poses make one smooth curve from as measured on, and a jump of the follower is found out.
//
// One strip. A line with a half-width of inputs to both sides of it: a ball serves all inputs u(s) + t across, |t| <= 1, that are
// within its room, |A ((s - s_k) du/ds + t across)| <= room - start. For one block that is largest at t = 1 or -1, and a quadratic of s
// - s_k tells how far it goes. At s_k+1 two balls serve the whole width. Both give a pose that moves smoothly across it, the two are the
// same at t = 0 as above, and where they are the same they stay so, since poses are regular: the set of such t is open and
// closed. So the poses of a strip make one smooth sheet, and each path of inputs within it leads to its poses.
//
// What is proved: the *active* equations (assembly.h) have exactly one pose in a ball about each centre at each input of the path or strip,
// and these poses join to one curve or sheet that starts at the pose which Newton's method finds from the points as measured. Of
// other assemblies it says that none is in a ball: that none differs from the centre by less than radius w_j in *every* block.
// What is not:
// - Redundant closures set aside are checked at each centre (kSetAsideTolerance), not between.
// - Numbers are plain doubles, not intervals. In place of enclosing their rounding an allowance is added: 1e-12 (m or rad) on each
//   residual, 1e-9 on slip, a share of 1e-9 on curvature. Rounding of places of a few metres is below 1e-15 m an operation, of
//   residuals below 1e-14 m; rotations updated some hundred times are off orthonormal by less than 1e-13.
// - It rests on the Jacobian of flat_equations.h being that of the equations, and on the bounds of curvature.h; tests hold both against
//   derivatives taken otherwise.
// - It is a proof about the truck file's rigid mechanism.
//
// Sources, from memory: L. V. Kantorovich and G. P. Akilov, Functional Analysis, 2nd ed., Pergamon 1982, ch. XVIII (Newton's method and its
// simplified form); P. Deuflhard, Newton Methods for Nonlinear Problems, Springer 2004, section 2.1 (affine covariance). Nothing rests
// on them: the argument above is complete.

namespace axlewright {

/// How far a proof went.
struct Covering {
  bool complete = false;  ///< all that was asked is covered
  int steps = 0;          ///< balls
  double smallest_radius =
      0;  ///< of a ball [m]: what the block with the largest weight may move, angles at 0.4 m; the others less
  double largest_h = 0;  ///< Kantorovich's number; at most 1/2
  int legs = 0;          ///< legs covered whole
  double reached = 0;    ///< share of the last leg that was begun, 1 = whole
  /// Empty if complete; else a clause, "rod and crank run straight", without where: legs and reached tell that.
  std::string stopped_by;
};

/// Covers a path of inputs leg by leg, from as measured. A value: copy it to cover several ways on from one place.
class BranchProof {
 public:
  /// The assembly is copied. Nothing is covered of one that is not sound.
  explicit BranchProof(Assembly assembly);

  /// Goes on in a straight line of inputs (those of all the mechanism's inputs, as PathFollower::go_to()). Once stopped it stays so.
  const Covering& extend_to(const std::vector<double>& inputs);

  /// The same for a strip: also all inputs up to `half_width` away from the line, to both sides. Where the strip becomes too wide for
  /// a ball it ends, incomplete but not stopped: what is slimmer may go on from there.
  const Covering& extend_strip_to(const std::vector<double>& inputs,
                                  const std::vector<double>& half_width);

  /// How much of a direction of inputs (0.5: half of it) could be covered to both sides of the place where the last leg ended, if
  /// nothing else were to be covered by the same ball.
  double share_covered_here(const std::vector<double>& direction);

  const Covering& covering() const { return covering_; }

  /// Begins to count anew, in a copy that is to tell of its own steps alone. What is stopped stays so.
  void recount();

  /// The last place proved, and a follower that stands there.
  const PathFollower& place() const { return follower_; }

  /// Whether a pose found otherwise at the inputs of that place is the proved one: within 1e-8 m, angles at 0.4 m, and within the ball,
  /// in which there is no other.
  bool is_at(const State& pose) const;

 private:
  /// Numbers of the comment above, about the follower's place.
  struct Ball {
    State centre;
    std::vector<double> weights;
    double radius = 0, curvature = 0, start = 0, slip = 0;
    Vector along, across;  ///< A du/ds, A across

    bool has_one_pose_at_most() const { return slip + curvature * radius < 1; }
    double room() const { return radius * (1 - slip - curvature * radius / 2); }
    double pose_within() const { return start / (1 - slip - curvature * radius / 2); }
    double h(double used) const { return curvature * used / ((1 - slip) * (1 - slip)); }
  };

  const Covering& extend(const std::vector<double>& to, const std::vector<double>& half_width);
  bool cover_leg(const std::vector<double>& to, const std::vector<double>& half_width);
  Ball ball_here(const std::vector<double>& direction, const std::vector<double>& half_width);
  void invert_here();
  Vector answer_to(const std::vector<double>& input_change) const;
  double stride(const Ball& ball, double left) const;
  double used(const Ball& ball, double step) const;
  void fit_weights(const Ball& ball, int rounds);
  void fit_radius(Ball& ball);
  double curvature_of(const std::vector<double>& weights, double radius);
  double slip_here(const std::vector<double>& entries) const;
  double rounding() const;
  double part_of(const Vector& x, std::size_t block) const;
  double norm(const Vector& x) const;
  bool holds_pose_of(const Ball& ball) const;
  bool stop(std::string why, double reached);

  PathFollower follower_;
  CurvatureBounds bounds_;
  FlatEquations flat_;
  std::vector<double> inputs_;  ///< of the follower's place
  Covering covering_;
  Ball ball_;  ///< the last one that is linked; radius 0 before the first
  std::vector<double> weights_;
  double radius_ = 0;

  // About the follower's place, and scratch.
  Matrix inverse_;
  std::vector<double> inverse_norms_;  ///< |A_je|, by block and row
  std::vector<double> row_bounds_, block_curvature_;
};

/// Covers a whole path: from as measured to each corner in turn. `places`, unless null, takes the proved pose at each corner reached.
Covering cover(const Assembly& assembly, const std::vector<std::vector<double>>& corners,
               std::vector<State>* places = nullptr);

}  // namespace axlewright
