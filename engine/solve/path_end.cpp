// Where no step of a path leads on: what kind of an end that is, and the words for it.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/solve/follower.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

constexpr double kRegular = 0.05;  // scaled singular value: from there on nothing runs out
/// Cosine of a bush's second turn: half a degree short of square. Ends that have to do with it are at 2e-4 and less.
constexpr double kSquare = 0.01;
constexpr double kFirstMove = 1e-5;  // [m] of the leading coordinate, going round the end of a path
constexpr double kLeastMove = 1e-8;  // [m]
constexpr double kWellOn = 1e-5;     // [m] of the inputs: so far on the path has not ended
constexpr int kMostMoves = 60;
constexpr int kMostCorrections = 12;
constexpr double kRoundTolerance = 1e-9;  // [m] no pose comes of it

/// Cosine of the second of the turns that tell how a bush is turned, by one of its equations; 1 of what tells no turn. It is square to
/// the lines that the first and the third turn go about, which lie in one when it is 90 deg: then only their sum can be told.
double cosine_of_second_turn(const System& system, const Equation& e, const Design& design,
                             const Kinematics& kin) {
  const auto direction = [&](AxisId id) -> Vec3 {
    return kin.pose[index(system.mechanism.axis(id).body.value)].turn(
        design.directions[index(id.value)]);
  };
  if (e.kind == EquationKind::angle) {
    const Vec3 u = direction(e.u);
    return std::hypot(u.dot(direction(e.v)), u.dot(direction(e.w)));
  }
  return e.kind == EquationKind::tilt ? cross(direction(e.u), direction(e.v)).norm() : 1;
}

}  // namespace

void PathFollower::explain_failure(const std::vector<double>& wanted, double reached,
                                   double remaining, bool rest_lost) {
  update_kinematics(assembly_.system, design_, state_, kin_);
  const bool regular = smallest_singular_value() >= kRegular;
  report_.outcome = regular                         ? Outcome::iteration_limit
                    : remaining < 2 * kShortestStep ? Outcome::bound
                                                    : Outcome::out_of_reach;
  report_.certificate = Certificate::none;
  report_.path_reached = reached;
  report_.residual = report_.last_step = 0;  // of what was tried last, no pose
  has_last_tangent_ = false;
  if (is_elastic()) {
    factor_here();
    if (balance_.least_stiffness() <= 0) return tell_unstable();
    if (regular && (tell_square_bush() || tell_closures_run_out(wanted))) return;
    if (regular && rest_lost) return tell_unstable();
  }
  name_run_out(wanted);
}

void PathFollower::tell_unstable() {
  report_.outcome = Outcome::unstable;
  report_.certificate = Certificate::none;
  report_.what_ran_out = "the bushes and springs";
  report_.how_it_ran_out = "would snap over";
  report_.message =
      fmt::format("unstable: at {:.1f} % of the way the bushes and springs would snap over",
                  100 * report_.path_reached);
}

/// The bush whose second turn has come to 90 deg, if one has: it has no first and third one any more, so no forces either.
const Equation* PathFollower::square_bush() const {
  const Equation* square = nullptr;
  double least = kSquare;
  for (const int row : assembly_.bushes) {
    const Equation& e = assembly_.system.equations[index(row)];
    const double cosine = cosine_of_second_turn(assembly_.system, e, design_, kin_);
    if (cosine >= least) continue;
    least = cosine;
    square = &e;
  }
  return square;
}

bool PathFollower::tell_square_bush() {
  const Equation* square = square_bush();
  if (square == nullptr) return false;
  report_.what_ran_out = assembly_.system.mechanism.joint(square->joint).name;
  report_.outcome = Outcome::out_of_reach;
  report_.how_it_ran_out = "is tilted to 90 deg";
  report_.message = fmt::format(
      "out of reach: {} is tilted to 90 deg at {:.1f} % of the way, where how far a bush is turned "
      "can no longer be told",
      report_.what_ran_out, 100 * report_.path_reached);
  return true;
}

/// Parts that do not give have run out among themselves, and no bush yields there: its force grows without bound. The loose motion is the
/// way the path goes.
bool PathFollower::tell_closures_run_out(const std::vector<double>& wanted) {
  if (assembly_.active.empty()) return false;
  const Svd s = svd(scaled_jacobian_of(assembly_.active));
  const int last = static_cast<int>(s.values.size()) - 1;
  if (s.values[last] >= kRegular) return false;
  std::vector<double> direction;
  direction_into(inputs_, wanted, direction);
  tangent_into(direction, tangent_);
  const int closures = static_cast<int>(assembly_.active.size());
  report_.outcome = Outcome::out_of_reach;
  tell_run_out(find_run_out(assembly_.system, design_, kin_, assembly_.active,
                            tangent_.head(assembly_.system.coordinates),
                            s.left.col(last).cwiseProduct(residual_scale_.head(closures))));
  return true;
}

/// What comes just beyond a place of rest from which no step of the inputs leads on. Near the end of a path of rest the least stiffness falls as
/// the root of the way left, and may be anything yet at the shortest step; and where it comes to next to nothing and rises again no step may lead on
/// though the path does. So the curve of balances is followed by a coordinate in place of the inputs (Rheinboldt, W. C., SIAM J. Numer.
/// Anal. 17 (1980), from memory), by the rules of the path. Where the inputs go on the place goes with them, else it stays.
PathFollower::RoundTheEnd PathFollower::go_round_end(const std::vector<double>& wanted,
                                                     double remaining) {
  RoundTheEnd beyond;
  update_kinematics(assembly_.system, design_, state_, kin_);
  if (!is_elastic() || square_bush() != nullptr || !is_regular_here()) return beyond;
  std::vector<double> direction;
  direction_into(inputs_, wanted, direction);
  tangent_into(direction, tangent_);
  int leading = 0;
  tangent_.cwiseProduct(scale_).head(assembly_.system.coordinates).cwiseAbs().maxCoeff(&leading);
  double move = std::copysign(kFirstMove / scale_[leading], tangent_[leading]);
  const State end = state_;
  const std::vector<double> from = inputs_;
  const Vector multipliers = multipliers_;
  const double far_enough = std::min(kWellOn, remaining / 2);
  double on = 0;  // [m] of the inputs, from the end
  for (int k = 0; k < kMostMoves && !beyond.rest_lost && on < far_enough; ++k) {
    const State before = state_;
    const Vector multipliers_before = multipliers_;
    const double on_before = on;
    if (step_round(from, direction, leading, move, on) && on < remaining) {
      beyond.rest_lost = balance_.least_stiffness() <= 0;
      move *= 2;
      continue;
    }
    state_ = before;
    multipliers_ = multipliers_before;
    on = on_before;
    move /= 4;
    if (std::abs(move) * scale_[leading] < kLeastMove) break;
  }
  if (!beyond.rest_lost && on >= far_enough) {
    beyond.on = on;
    put(State(state_), std::vector<double>(inputs_));
  } else {
    put(end, from);
    multipliers_ = multipliers;
  }
  return beyond;
}

/// One step along the curve of balances, by which the leading coordinate moves by `move` and the inputs to whatever `on` that asks for. On
/// success the place is one of balance, last evaluated with its Jacobian.
bool PathFollower::step_round(const std::vector<double>& from, const std::vector<double>& direction,
                              int leading, double move, double& on) {
  const auto put_inputs = [&] {
    for (std::size_t k = 0; k < from.size(); ++k) inputs_[k] = from[k] + on * direction[k];
  };
  // The tangent of the curve, of size 1 and the way in which the leading coordinate moves.
  const auto along = [&]() -> Vector {
    tangent_into(direction, tangent_);
    const Vector scaled = tangent_.cwiseProduct(scale_);
    return scaled * (std::copysign(1.0, move * tangent_[leading]) / scaled.norm());
  };
  put_inputs();
  if (!is_regular_here()) return false;
  const Vector before = along();
  double shift = move / tangent_[leading];
  step_ = shift * tangent_;
  double last = 0;
  for (int k = 0; k <= kMostCorrections; ++k) {
    const double size = scaled_size(step_);
    if (!(size <= kLargestStep)) return false;
    if (k == 2 && last > kRoundTolerance && size > kContraction * last) return false;
    last = size;
    advance(step_);
    on += shift;
    put_inputs();
    if (k > 0 && size <= kRoundTolerance)
      return is_regular_here() && (along() - before).norm() <= kTangentTurn;
    evaluate(true, inputs_.data());
    if (!factor()) return false;
    rhs_ = -residual_;
    lu_.solve(rhs_.data(), step_.data());
    tangent_into(direction, tangent_);
    shift = -step_[leading] / tangent_[leading];
    step_ += shift * tangent_;
  }
  return false;
}

void PathFollower::name_run_out(const std::vector<double>& wanted) {
  tell_run_out(run_out_towards(wanted));
}

/// What ran out, and the message that goes with the outcome.
void PathFollower::tell_run_out(const RunOut& run_out) {
  report_.what_ran_out = run_out.subject();
  report_.how_it_ran_out = run_out.predicate();
  const double percent = 100 * report_.path_reached;
  switch (report_.outcome) {
    case Outcome::bound:
      report_.message = fmt::format("bound: {} here", run_out.sentence());
      break;
    case Outcome::out_of_reach:
      report_.message =
          fmt::format("out of reach: {} at {:.1f} % of the way", run_out.sentence(), percent);
      break;
    default:
      report_.message = fmt::format("the search did not settle at {:.1f} % of the way", percent);
  }
}

Matrix PathFollower::scaled_jacobian_of(const std::vector<int>& rows) const {
  const Matrix all = scaled_jacobian(assembly_.system, design_, state_, kin_, inputs_);
  Matrix chosen(static_cast<int>(rows.size()), all.cols());
  for (std::size_t k = 0; k < rows.size(); ++k) chosen.row(static_cast<int>(k)) = all.row(rows[k]);
  return chosen;
}

double PathFollower::smallest_singular_value() const {
  const Vector values = svd(scaled_jacobian_of(holding_rows(assembly_))).values;
  return values.size() > 0 ? values[values.size() - 1] : 0;
}

/// The loose motion is the way the path goes, which is all loose motion near a limit point; the forces are those that a load along it
/// asks for. So where several things get loose together it is the path that picks.
RunOut PathFollower::run_out_towards(const std::vector<double>& inputs) const {
  const std::vector<int> rows = holding_rows(assembly_);
  const Svd s = svd(scaled_jacobian_of(rows));
  if (s.values.size() == 0) return {};
  Vector scale(s.left.rows()), wanted(s.left.rows());
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const Equation& e = assembly_.system.equations[index(rows[k])];
    scale[static_cast<int>(k)] = residual_scale(e);
    wanted[static_cast<int>(k)] =
        e.input >= 0 ? residual_scale(e) * (inputs[index(e.input)] - inputs_[index(e.input)]) : 0.0;
  }
  const double least = 1e-12 * s.values[0];
  const Vector gains = s.values.cwiseMax(least).cwiseInverse();
  Vector shares = gains.cwiseProduct(s.left.leftCols(gains.size()).transpose() * wanted);
  if (!(shares.norm() > 0)) shares = Vector::Unit(shares.size(), shares.size() - 1);
  shares /= shares.norm();
  const Vector motion = (s.right * shares).cwiseQuotient(scale_.head(assembly_.system.coordinates));
  const Vector forces =
      (s.left.leftCols(gains.size()) * gains.cwiseProduct(shares)).cwiseProduct(scale);
  return find_run_out(assembly_.system, design_, kin_, rows, motion, forces);
}

}  // namespace axlewright
