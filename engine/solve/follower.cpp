#include "engine/solve/follower.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/invariant.h"
#include "engine/base/units.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr double kSlowChord = 0.02;    // a chord step that contracts less has the Jacobian renewed
constexpr double kNoise = 1e-9;        // [m] corrections below it say nothing about contraction
constexpr double kSteepTangent = 300;  // |dq/du| above it: look at the singular values
constexpr int kMostCorrections = 12;
constexpr int kMostRounds = 8;  // seeming ends on one path that are none

double input_scale(const Input& input) {
  return input.kind == InputKind::coordinate ? 1.0 : kAngleLength;
}

}  // namespace

PathFollower::PathFollower(Assembly assembly) : assembly_(std::move(assembly)) {
  const System& system = assembly_.system;
  design_ = design_of(system.mechanism);
  // Of a mechanism that is not held fewer equations are active than there are coordinates.
  scale_ = Vector::Ones(std::max(size(), system.coordinates));
  scale_.head(system.coordinates) = coordinate_scales(system);
  // A balance is a force: that on an angle is a moment, which is told as the force at kAngleLength.
  residual_scale_.setOnes(size());
  if (is_elastic())
    residual_scale_.tail(system.coordinates) = scale_.head(system.coordinates).cwiseInverse();
  for (std::size_t row = 0; row < assembly_.active.size(); ++row) {
    residual_scale_[static_cast<int>(row)] =
        residual_scale(system.equations[index(assembly_.active[row])]);
  }
  state_ = as_measured(system);
  update_kinematics(system, design_, state_, kin_);
  measured_inputs_ = input_values(system, design_, state_, kin_);
  inputs_ = measured_inputs_;
  for (Vector* v :
       {&residual_, &rhs_, &step_, &first_step_, &tangent_, &last_tangent_, &next_tangent_})
    v->setZero(size());
  multipliers_.setZero(is_elastic() ? static_cast<int>(assembly_.active.size()) : 0);
  report_.outcome = Outcome::converged;
  if (assembly_.soundness == Soundness::sound &&
      (is_elastic() || static_cast<int>(assembly_.active.size()) == system.coordinates)) {
    ready_ = prepare_elimination();
  }
  if (ready_) {
    correct(inputs_);  // given lengths may miss the points by the file's tolerance
    ready_ = report_.usable();
    if (!ready_) put(as_measured(system), inputs_);
    measured_inputs_ = inputs();
  }
  if (!ready_) report_ = report_of_none();
  measured_state_ = state_;
  measured_multipliers_ = multipliers_;
}

int PathFollower::size() const {
  return static_cast<int>(assembly_.active.size()) +
         (is_elastic() ? assembly_.system.coordinates : 0);
}

/// Why there is no pose to start from.
SolveReport PathFollower::report_of_none() {
  SolveReport report;
  report.path_reached = 0;
  report.message = assembly_.message;
  switch (assembly_.soundness) {
    case Soundness::under_held:
      report.outcome = Outcome::under_held;
      return report;
    case Soundness::over_held:
      report.outcome = Outcome::over_held;
      return report;
    case Soundness::singular:
      report.outcome = Outcome::singular;
      return report;
    case Soundness::sound:
      break;
  }
  // Held well enough, but no search from the points ends in a pose.
  report.outcome = Outcome::unassembled;
  const Vector misses =
      scaled_residuals().head(static_cast<int>(assembly_.active.size())).cwiseAbs();
  int worst = 0;
  report.residual = misses.size() > 0 ? misses.maxCoeff(&worst) : 0;
  if (report.residual > kResidualTolerance) {
    report.what_ran_out = assembly_.system.equations[index(assembly_.active[index(worst)])].name;
    report.how_it_ran_out = "does not fit the points";
    report.message =
        fmt::format("the parts do not go together: {} misses the points as measured by {:.1f} mm",
                    report.what_ran_out, to_mm(report.residual));
  } else {
    report.what_ran_out = "the bushes and springs";
    report.how_it_ran_out = "find no place of rest";
    report.message = "the bushes and springs find no place of rest as measured";
  }
  return report;
}

bool PathFollower::prepare_elimination() {
  const System& system = assembly_.system;
  if (is_elastic()) {
    balance_.lay_down(assembly_, design_);
  } else {
    flat_.lay_down(system, design_, assembly_.active);
  }
  const std::vector<int>& rows = is_elastic() ? balance_.entry_rows() : flat_.entry_rows();
  const std::vector<int>& columns = is_elastic() ? balance_.entry_columns() : flat_.entry_columns();
  values_.assign(rows.size(), 0.0);
  evaluate(true, inputs_.data());
  std::vector<double> sample(values_);
  for (std::size_t k = 0; k < sample.size(); ++k)
    sample[k] *= residual_scale_[rows[k]] / scale_[columns[k]];
  if (!lu_.analyse(size(), rows, columns, sample)) return false;
  if (!factor()) return false;
  reference_sign_ = lu_.determinant_sign();
  return true;
}

void PathFollower::restart() {
  put(measured_state_, measured_inputs_);
  multipliers_ = measured_multipliers_;
}

void PathFollower::start_from(const State& state, const std::vector<double>& inputs) {
  AXLEWRIGHT_INVARIANT(state.size() == state_.size());
  put(state, inputs);
  if (is_elastic() && ready_) multipliers_ = balance_.multipliers_at(state_, kin_, inputs_.data());
}

void PathFollower::put(const State& state, const std::vector<double>& inputs) {
  state_ = state;
  inputs_ = inputs;
  has_last_tangent_ = false;
  factored_here_ = false;
  balance_.settle_forces();
  update_kinematics(assembly_.system, design_, state_, kin_);
}

/// Moves on by a step of all unknowns: coordinates, and behind them multipliers if there are any.
void PathFollower::advance(const Vector& step) {
  if (is_elastic()) balance_.carry_forces(step);
  move(assembly_.system, step.data(), state_);
  multipliers_ += step.tail(multipliers_.size());
}

std::vector<double> PathFollower::inputs() const {
  return input_values(assembly_.system, design_, state_, kin_);
}

void PathFollower::evaluate(bool with_jacobian, const double* inputs, bool with_twists) {
  double* entries = with_jacobian ? values_.data() : nullptr;
  update_kinematics(assembly_.system, design_, state_, kin_,
                    with_jacobian || with_twists || is_elastic());
  if (is_elastic()) {
    balance_.evaluate(assembly_.system, state_, kin_, multipliers_, inputs, residual_.data(),
                      entries);
  } else {
    flat_.evaluate(state_, kin_, inputs, residual_.data(), entries);
  }
}

bool PathFollower::factor() {
  return lu_.factor(values_.data());
}

double PathFollower::scaled_size(const Vector& step) const {
  return step.cwiseProduct(scale_).cwiseAbs().maxCoeff();
}

double PathFollower::largest_residual() const {
  return residual_.cwiseProduct(residual_scale_).cwiseAbs().maxCoeff();
}

Vector PathFollower::scaled_residuals() {
  evaluate(false, inputs_.data(), true);
  return residual_.cwiseProduct(residual_scale_);
}

/// Newton, then chord steps on the same factors; the Jacobian is renewed when they contract too slowly.
/// Returns |second correction| / |first| (0 where both are noise), infinity where it does not settle.
double PathFollower::correct(const std::vector<double>& inputs) {
  report_.outcome = Outcome::iteration_limit;
  double contraction = 0;
  double before = 0;
  bool renew = true;
  for (int k = 0; k < kMostCorrections; ++k) {
    evaluate(renew, inputs.data());
    if (renew && !factor()) return INFINITY;
    rhs_ = -residual_;
    if (is_elastic() && !renew && k > 0)
      rhs_.tail(assembly_.system.coordinates) -= balance_.lag_of_forces();
    lu_.solve(rhs_.data(), step_.data());
    const double size = scaled_size(step_);
    if (!(size < 1.0)) return INFINITY;
    if (k == 1 && before > kNoise) contraction = size / before;
    if (k == 1 && contraction > kContraction) return contraction;
    advance(step_);
    ++report_.iterations;
    report_.last_step = size;
    if (size <= kStepTolerance) break;
    renew = k > 0 && size > kSlowChord * before;
    before = size;
  }
  if (is_elastic()) balance_.settle_forces();
  evaluate(false, inputs.data(), true);
  report_.residual = largest_residual();
  if (report_.last_step <= kStepTolerance && report_.residual <= kResidualTolerance)
    report_.outcome = Outcome::converged;
  return report_.usable() ? contraction : INFINITY;
}

/// J t = direction, with the factors at hand.
void PathFollower::tangent_into(const std::vector<double>& direction, Vector& tangent) {
  rhs_.setZero();
  for (std::size_t row = 0; row < assembly_.active.size(); ++row) {
    const int input = assembly_.system.equations[index(assembly_.active[row])].input;
    rhs_[static_cast<int>(row)] = input >= 0 ? direction[index(input)] : 0.0;
  }
  lu_.solve(rhs_.data(), tangent.data());
}

/// The unit direction in which held inputs go, and how far they do [m] (angles at kAngleLength).
double PathFollower::direction_into(const std::vector<double>& from, const std::vector<double>& to,
                                    std::vector<double>& direction) const {
  const System& system = assembly_.system;
  double square = 0;
  direction.assign(from.size(), 0.0);
  for (const int row : assembly_.active) {
    const int k = system.equations[index(row)].input;
    if (k < 0) continue;
    direction[index(k)] = to[index(k)] - from[index(k)];
    const double way = direction[index(k)] * input_scale(system.mechanism.inputs[index(k)]);
    square += way * way;
  }
  const double length = std::sqrt(square);
  if (length > 0) {
    for (double& d : direction) d /= length;
  }
  return length;
}

bool PathFollower::step_along(const std::vector<double>& from, const std::vector<double>& to,
                              double s0, double s1) {
  if (!factored_here_) {
    if (is_elastic()) balance_.settle_forces();
    evaluate(true, inputs_.data());
    if (!factor()) return false;
    if (lu_.determinant_sign() != reference_sign_) return false;
    factored_here_ = true;
    has_last_tangent_ = false;
  }
  // One tangent per unit of input way, so that steps of different length and successive requests compare.
  std::vector<double>& direction = target_;
  const double length = direction_into(from, to, direction);
  bool same_direction = has_last_tangent_ && last_direction_.size() == direction.size();
  for (std::size_t k = 0; same_direction && k < direction.size(); ++k) {
    same_direction = std::abs(direction[k] - last_direction_[k]) < 1e-9;
  }
  if (!same_direction) {
    tangent_into(direction, tangent_);
    has_last_tangent_ = false;
    last_direction_ = direction;
  }
  const double way = (s1 - s0) * length;
  step_ = way * tangent_;
  if (has_last_tangent_) step_ += (0.5 * way * way / last_length_) * (tangent_ - last_tangent_);
  if (scaled_size(step_) > kLargestStep) return false;
  const double tangent_size = scaled_size(tangent_);
  factored_here_ = false;  // unless the step holds; one too long to try leaves everything as it is
  advance(step_);
  if (has_last_tangent_ && is_elastic()) balance_.carry_forces(way * tangent_);
  for (std::size_t k = 0; k < inputs_.size(); ++k) inputs_[k] = from[k] + s1 * (to[k] - from[k]);
  if (!(correct(inputs_) <= kContraction)) return false;
  if (lu_.determinant_sign() != reference_sign_) return false;
  tangent_into(last_direction_, next_tangent_);
  rhs_ = next_tangent_ - tangent_;
  if (scaled_size(rhs_) > kTangentTurn * std::max(tangent_size, 1.0)) return false;
  std::swap(last_tangent_, tangent_);
  std::swap(tangent_, next_tangent_);
  factored_here_ = true;
  has_last_tangent_ = true;
  last_length_ = way;
  return true;
}

const SolveReport& PathFollower::go_to(const std::vector<double>& inputs) {
  if (!ready_) return report_;  // no pose ever: the constructor told why
  report_ = SolveReport{};
  from_ = inputs_;
  const double length = direction_into(from_, inputs, target_);
  if (length < 1e-12) {
    inputs_ = inputs;
    const double contraction = correct(inputs_);
    factored_here_ = true;
    if (!(contraction <= kContraction)) report_.outcome = Outcome::iteration_limit;
  } else {
    double s = 0;
    double ds = 1;
    int rounds = 0;
    while (s < 1) {
      const double next = s + ds >= 1 - 1e-12 ? 1.0 : s + ds;
      saved_state_ = state_;
      saved_inputs_ = inputs_;
      saved_multipliers_ = multipliers_;
      if (step_along(from_, inputs, s, next)) {
        s = next;
        ds *= 2;
        ++report_.path_steps;
        continue;
      }
      state_ = saved_state_;
      inputs_ = saved_inputs_;
      multipliers_ = saved_multipliers_;
      ds = (next - s) / 2;
      if (ds * length >= kShortestStep) continue;
      const RoundTheEnd round =
          rounds++ < kMostRounds ? go_round_end(inputs, (1 - s) * length) : RoundTheEnd{};
      if (round.on == 0) {
        explain_failure(inputs, s, (1 - s) * length, round.rest_lost);
        return report_;
      }
      ds = round.on / length;
      s += ds;
      ++report_.path_steps;
    }
    inputs_ = inputs;
  }
  if (report_.usable()) {
    report_.certificate = Certificate::followed;
    check_set_aside();
    if (report_.usable() && is_elastic()) check_rest();
    // Where nothing has moved there is no tangent, and the place was good before.
    if (report_.usable() && report_.path_steps > 0 && scaled_size(tangent_) > kSteepTangent) {
      if (smallest_singular_value() < kBound) {
        report_.outcome = Outcome::bound;
        report_.certificate = Certificate::none;
        name_run_out(inputs);
      }
    }
  }
  return report_;
}

void PathFollower::check_set_aside() {
  for (const int e : assembly_.set_aside) {
    const Equation& equation = assembly_.system.equations[index(e)];
    const auto value =
        evaluate_equation(assembly_.system, equation, design_, state_, kin_, inputs_.data());
    const double miss = std::abs(value.residual) * residual_scale(equation);
    report_.set_aside_miss = std::max(report_.set_aside_miss, miss);
    if (miss <= kSetAsideTolerance) continue;
    report_.outcome = Outcome::over_held;
    report_.certificate = Certificate::none;
    report_.what_ran_out = equation.name;
    report_.how_it_ran_out = "no longer fits";
    report_.message = fmt::format("{} no longer fits here: the closures fight", equation.name);
  }
}

/// A stationary point of the energy is a place of rest only if it is a minimum.
void PathFollower::check_rest() {
  factor_here();
  if (!(balance_.least_stiffness() > 0)) tell_unstable();
}

bool PathFollower::is_regular_here() {
  if (is_elastic()) balance_.settle_forces();
  evaluate(true, inputs_.data());
  return factor();
}

void PathFollower::factor_here() {
  const bool factored = is_regular_here();
  AXLEWRIGHT_INVARIANT(factored);  // a pose that was closed has a regular Jacobian
}

std::vector<Vector> PathFollower::rates_for(const std::vector<InputId>& inputs) {
  if (!is_regular_here())
    return std::vector<Vector>(inputs.size(), Vector::Constant(size(), kNone));
  std::vector<Vector> all;
  std::vector<double> direction(inputs_.size(), 0.0);
  for (const InputId input : inputs) {
    direction[index(input.value)] = 1;
    Vector rates(size());
    tangent_into(direction, rates);
    direction[index(input.value)] = 0;
    all.push_back(std::move(rates));
  }
  return all;
}

Vector PathFollower::multipliers(const Vector& load) {
  if (!is_regular_here())
    return Vector::Constant(static_cast<int>(holding_rows(assembly_).size()), kNone);
  if (is_elastic()) {
    Vector rhs = Vector::Zero(size());
    rhs.tail(load.size()) = -load / kForceScale;
    const Vector change = solve_linear(rhs);
    const Vector bushes = balance_.bush_forces(change.head(load.size()));
    Vector all(multipliers_.size() + bushes.size());
    all << change.tail(multipliers_.size()), bushes;
    return all * kForceScale;
  }
  Vector c = -load;
  Vector lambda(load.size());
  lu_.solve_transposed(c.data(), lambda.data());
  return lambda;
}

Vector PathFollower::solve_linear(const Vector& rhs) const {
  Vector b = rhs;
  Vector x(rhs.size());
  lu_.solve(b.data(), x.data());
  return x;
}

}  // namespace axlewright
