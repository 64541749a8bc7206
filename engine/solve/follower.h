#pragma once

#include <string>
#include <vector>

#include "engine/solve/assembly.h"
#include "engine/solve/balance.h"
#include "engine/solve/flat_equations.h"
#include "engine/solve/report.h"
#include "engine/solve/run_out.h"
#include "engine/solve/sparse_lu.h"

namespace axlewright {

/// The rules of the path: what `followed` means.
inline constexpr double kContraction = 0.25;  ///< second correction over first
inline constexpr double kTangentTurn = 0.5;   ///< |change of tangent| / |tangent| over one step
inline constexpr double kLargestStep = 0.06;  ///< [m] no coordinate moves by more at once
inline constexpr double kShortestStep =
    1e-6;  ///< [m] of the inputs (angles at kAngleLength): below it the path has ended
inline constexpr double kStepTolerance = 1e-10;  ///< [m] the last correction is smaller than this
inline constexpr double kResidualTolerance = 1e-11;  ///< [m]
inline constexpr double kBound =
    1e-4;  ///< scaled singular value below which a pose counts as bound
inline constexpr double kSetAsideTolerance = 1e-7;  ///< [m] redundant closures may miss by this

/// Follows the branch of the as-measured assembly from pose to pose: tangent predictor (second order where the last step
/// allows), Newton corrector on a static sparse elimination, step control on the path of the inputs.
/// Holds its place and its scratch; copies are independent. One per thread.
class PathFollower {
 public:
  /// The assembly is copied. If it is not sound every go_to() reports that and no pose is given.
  explicit PathFollower(Assembly assembly);

  /// Back to the as-measured pose.
  void restart();

  /// Follows the path to the given values of all inputs of the mechanism (those not held are not looked at), in a straight
  /// line of input space. On failure the place is the last good pose, and report().path_reached tells how far.
  const SolveReport& go_to(const std::vector<double>& inputs);

  /// Takes the place of another follower over the same tree (held and rolling assemblies share it).
  void start_from(const State& state, const std::vector<double>& inputs);

  const Assembly& assembly() const { return assembly_; }
  const System& system() const { return assembly_.system; }
  const Design& design() const { return design_; }
  const SolveReport& report() const { return report_; }
  const State& state() const { return state_; }
  const Kinematics& kinematics() const { return kin_; }
  /// Inputs at the present place; those not held are what they came to.
  std::vector<double> inputs() const;
  /// Inputs at the as-measured pose.
  const std::vector<double>& as_measured_inputs() const { return measured_inputs_; }

  /// Derivatives of the tree coordinates to held inputs, at the present pose; factorises there once. NaN where there are none: a
  /// place taken from another follower may be a dead centre of this one.
  std::vector<Vector> rates_for(const std::vector<InputId>& inputs);

  /// Multipliers of holding_rows() that balance a generalised load (one entry per coordinate): J^T lambda = -load. A load on bushes
  /// moves the pose: then they are how the multipliers of a closure and the force of a bush begin to change, per unit of the load.
  /// NaN as rates are.
  Vector multipliers(const Vector& load);

  /// Factorises the Jacobian at the present pose, for solve_linear().
  void factor_here();

  /// The solution of J x = rhs (see size()) with the factors of the last factor_here().
  Vector solve_linear(const Vector& rhs) const;

  /// Smallest singular value of the scaled Jacobian at the present pose.
  double smallest_singular_value() const;

  /// Equations that are solved, as many as unknowns: the active closures, and where bushes hold the mechanism the balance of each
  /// coordinate behind them (balance.h). Right-hand sides have as many entries; solutions begin with the coordinates.
  int size() const;

  /// What the equations miss by at the present place (see size()), in ways [m]; and by what their own residuals are multiplied to become ways.
  Vector scaled_residuals();
  const Vector& residual_scales() const { return residual_scale_; }

  /// Of the active closures, in the units of balance.h; empty without bushes.
  const Vector& closure_multipliers() const { return multipliers_; }

  /// What runs out near the present pose on the way to the given inputs, if anything does: for a pose near a limit point.
  RunOut run_out_towards(const std::vector<double>& inputs) const;

 private:
  bool prepare_elimination();
  SolveReport report_of_none();
  /// Twists are only left out between Newton steps: who looks at kinematics() finds them.
  void evaluate(bool with_jacobian, const double* inputs, bool with_twists = false);
  bool is_elastic() const { return !assembly_.bushes.empty(); }
  void advance(const Vector& step);
  void put(const State& state, const std::vector<double>& inputs);
  void check_rest();
  bool factor();
  bool is_regular_here();
  double correct(const std::vector<double>& inputs);
  bool step_along(const std::vector<double>& from, const std::vector<double>& to, double s0,
                  double s1);
  void tangent_into(const std::vector<double>& direction, Vector& tangent);
  double largest_residual() const;
  double scaled_size(const Vector& step) const;
  void check_set_aside();
  double direction_into(const std::vector<double>& from, const std::vector<double>& to,
                        std::vector<double>& direction) const;

  // path_end.cpp: where no step of the inputs leads on
  struct RoundTheEnd {
    double on = 0;           ///< [m] by which the inputs went on, and the place with them
    bool rest_lost = false;  ///< beyond it balance is no rest any more
  };
  RoundTheEnd go_round_end(const std::vector<double>& wanted, double remaining);
  bool step_round(const std::vector<double>& from, const std::vector<double>& direction,
                  int leading, double move, double& on);
  void explain_failure(const std::vector<double>& wanted, double reached, double remaining,
                       bool rest_lost);
  void name_run_out(const std::vector<double>& wanted);
  void tell_run_out(const RunOut& run_out);
  void tell_unstable();
  const Equation* square_bush() const;
  bool tell_square_bush();
  bool tell_closures_run_out(const std::vector<double>& wanted);
  Matrix scaled_jacobian_of(const std::vector<int>& rows) const;

  Assembly assembly_;
  Design design_;
  State state_;
  Kinematics kin_;
  std::vector<double> inputs_;
  std::vector<double> measured_inputs_;
  State measured_state_;
  SolveReport report_;
  SparseLu lu_;
  bool ready_ = false;
  bool factored_here_ = false;
  int reference_sign_ = 0;

  FlatEquations flat_;  ///< without bushes
  Balance balance_;     ///< with bushes
  Vector multipliers_;
  Vector measured_multipliers_;

  // Scratch, sized once.
  std::vector<double> values_;
  State saved_state_;
  Vector saved_multipliers_;
  std::vector<double> saved_inputs_, from_;
  Vector residual_, rhs_, step_, first_step_, tangent_, last_tangent_, next_tangent_;
  Vector scale_;
  Vector residual_scale_;
  std::vector<double> last_direction_;
  bool has_last_tangent_ = false;
  double last_length_ = 0;
  std::vector<double> target_;
};

}  // namespace axlewright
