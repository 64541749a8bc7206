#include "engine/solve/covering.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/base/index.h"

namespace axlewright {
namespace {

constexpr double kResidualRounding = 1e-12;  // [m, rad] allowed for each residual
constexpr double kSlipRounding = 1e-9;
constexpr double kCurvatureRounding = 1e-9;  // share of it
constexpr double kSamePose = 1e-8;           // [m]
constexpr double kFill = 0.9;  // curvature * radius that is aimed at: large room, still alone
constexpr double kUse = 0.98;  // share of the room that a step uses
constexpr double kLargestRadius = 0.1;    // [m] turns stay far below half a turn, where charts end
constexpr double kFirstRadius = 1e-3;     // [m] for fitting weights, before one is known
constexpr double kSmallestRadius = 1e-6;  // [m] below it the path has come to its end
constexpr double kLeastWeight = 1e-4;
constexpr double kLeftForTheWay = 0.3;  // share of the room that the width of a strip must leave
constexpr int kMostSteps = 5000;        // of a leg
constexpr int kFirstRounds = 20;        // of fitting weights, where nothing is known of them
constexpr int kRounds = 1;

double scale_of(const Block& block) {
  return block.turns ? kAngleLength : 1.0;
}

/// Why the follower did not get there, without where.
std::string reason(const SolveReport& report) {
  if (report.what_ran_out.empty() || report.how_it_ran_out.empty()) return report.message;
  return report.what_ran_out + " " + report.how_it_ran_out;
}

}  // namespace

BranchProof::BranchProof(Assembly assembly)
    : follower_(std::move(assembly)),
      bounds_(follower_.system(), follower_.design(), follower_.assembly().active),
      inputs_(follower_.as_measured_inputs()) {
  flat_.lay_down(follower_.system(), follower_.design(), follower_.assembly().active);
}

bool BranchProof::stop(std::string why, double reached) {
  covering_.complete = false;
  covering_.stopped_by = std::move(why);
  covering_.reached = reached;
  return false;
}

const Covering& BranchProof::extend_to(const std::vector<double>& inputs) {
  return extend(inputs, {});
}

const Covering& BranchProof::extend_strip_to(const std::vector<double>& inputs,
                                             const std::vector<double>& half_width) {
  return extend(inputs, half_width);
}

void BranchProof::recount() {
  const Covering before = std::move(covering_);
  covering_ = Covering{};
  covering_.complete = before.complete;
  covering_.stopped_by = before.stopped_by;
}

const Covering& BranchProof::extend(const std::vector<double>& to,
                                    const std::vector<double>& half_width) {
  if (!covering_.stopped_by.empty()) return covering_;
  // Where the follower stands, once more: also what is set aside is looked at, and an assembly that is not sound refused.
  const SolveReport& start = follower_.go_to(inputs_);
  if (!start.usable()) {
    stop(reason(start), 0);
  } else {
    covering_.complete = cover_leg(to, half_width);
    if (covering_.complete) ++covering_.legs;
  }
  return covering_;
}

bool BranchProof::cover_leg(const std::vector<double>& to, const std::vector<double>& half_width) {
  const std::vector<double> from = inputs_;
  std::vector<double> direction(to.size());
  for (std::size_t k = 0; k < to.size(); ++k) direction[k] = to[k] - from[k];
  // The weights suit a direction: a new one starts from none.
  weights_.clear();
  double s = 0;
  for (int steps = 1;; ++steps) {
    Ball ball = ball_here(direction, half_width);
    ++covering_.steps;
    covering_.reached = s;
    const double step = stride(ball, 1 - s);
    const bool fits = ball.has_one_pose_at_most() && ball.radius >= kSmallestRadius;
    // A strip may only be too wide.
    if (fits && step < 0 && !half_width.empty()) return false;
    if (!fits || step < 0) return stop(follower_.run_out_towards(to).sentence(), s);
    if (steps > kMostSteps) return stop("the proof would take too many steps", s);
    if (ball_.radius > 0 && !holds_pose_of(ball))
      return stop("the pose found is not the one that the step before proves", s);
    ball_ = std::move(ball);
    if (covering_.smallest_radius == 0 || ball_.radius < covering_.smallest_radius)
      covering_.smallest_radius = ball_.radius;
    if (s >= 1) return true;
    const bool there = step >= 1 - s;
    covering_.largest_h = std::max(covering_.largest_h, ball_.h(used(ball_, step)));
    s = there ? 1 : s + step;
    for (std::size_t k = 0; k < to.size(); ++k)
      inputs_[k] = there ? to[k] : from[k] + s * direction[k];
    const double before = there ? 1 - step : s - step;
    const SolveReport& report = follower_.go_to(inputs_);
    if (!report.usable()) return stop(reason(report), before);
  }
}

/// A times a change of the inputs: how the pose answers.
Vector BranchProof::answer_to(const std::vector<double>& input_change) const {
  const Assembly& assembly = follower_.assembly();
  Vector rates = Vector::Zero(inverse_.rows());
  for (std::size_t row = 0; row < assembly.active.size(); ++row) {
    const int input = assembly.system.equations[index(assembly.active[row])].input;
    if (input >= 0 && !input_change.empty())
      rates[static_cast<int>(row)] = input_change[index(input)];
  }
  return inverse_ * rates;
}

/// How far along the leg the ball serves the whole width, at most `left`; negative if not even where it stands.
/// For block j: |step along_j + t across_j| <= w_j (room - start) for t = 1 and -1.
double BranchProof::stride(const Ball& ball, double left) const {
  const double room = kUse * ball.room() - ball.start;
  if (!(room > 0)) return -1;
  double step = left;
  for (std::size_t b = 0; b < ball.weights.size(); ++b) {
    const Block& block = bounds_.blocks()[b];
    const auto along = ball.along.segment(block.first, block.count);
    const auto across = ball.across.segment(block.first, block.count);
    const double way = ball.weights[b] * room;
    const double spare = way * way - across.squaredNorm();
    if (!(spare > 0)) return -1;
    const double aa = along.squaredNorm(), ac = std::abs(along.dot(across));
    const double root = std::sqrt(ac * ac + aa * spare);
    if (spare < step * (root + ac)) step = spare / (root + ac);
  }
  // Where the width leaves little for the way, two strips of half the width are cheaper.
  const bool too_wide = step < left && step * norm(ball.along) < kLeftForTheWay * room;
  return too_wide ? -1 : step;
}

/// What a step and the width use of the room.
double BranchProof::used(const Ball& ball, double step) const {
  return ball.start +
         std::max(norm(step * ball.along + ball.across), norm(step * ball.along - ball.across));
}

double BranchProof::share_covered_here(const std::vector<double>& direction) {
  if (!covering_.stopped_by.empty() || !follower_.go_to(inputs_).usable()) return 0;
  weights_.clear();
  return std::max(0.0, stride(ball_here(direction, {}), 1.0));
}

BranchProof::Ball BranchProof::ball_here(const std::vector<double>& direction,
                                         const std::vector<double>& half_width) {
  invert_here();
  bounds_.centre_on(follower_.state(), follower_.kinematics());
  Vector residuals(inverse_.rows());
  std::vector<double> entries(flat_.entry_rows().size());
  flat_.evaluate(follower_.state(), follower_.kinematics(), inputs_.data(), residuals.data(),
                 entries.data());
  Ball ball;
  ball.centre = follower_.state();
  ball.along = answer_to(direction);
  ball.across = answer_to(half_width);
  const bool new_direction = weights_.empty();
  if (new_direction) {
    for (const Block& block : bounds_.blocks()) weights_.push_back(1 / scale_of(block));
    radius_ = kFirstRadius;
  }
  fit_weights(ball, new_direction ? kFirstRounds : kRounds);
  ball.weights = weights_;
  ball.slip = slip_here(entries);
  ball.start = norm(inverse_ * residuals) + rounding();
  fit_radius(ball);
  return ball;
}

void BranchProof::invert_here() {
  follower_.factor_here();
  const int n = follower_.system().coordinates;
  const std::vector<Block>& blocks = bounds_.blocks();
  inverse_.resize(n, n);
  inverse_norms_.resize(blocks.size() * index(n));
  for (int e = 0; e < n; ++e) {
    inverse_.col(e) = follower_.solve_linear(Vector::Unit(n, e));
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      inverse_norms_[b * index(n) + index(e)] =
          inverse_.col(e).segment(blocks[b].first, blocks[b].count).norm();
    }
  }
}

double BranchProof::part_of(const Vector& x, std::size_t block) const {
  const Block& b = bounds_.blocks()[block];
  return x.segment(b.first, b.count).norm() / weights_[block];
}

double BranchProof::norm(const Vector& x) const {
  double largest = 0;
  for (std::size_t b = 0; b < weights_.size(); ++b) largest = std::max(largest, part_of(x, b));
  return largest;
}

double BranchProof::curvature_of(const std::vector<double>& weights, double radius) {
  bounds_.evaluate(weights, radius, row_bounds_);
  const std::size_t rows = row_bounds_.size();
  block_curvature_.assign(weights.size(), 0.0);
  double largest = 0;
  for (std::size_t b = 0; b < weights.size(); ++b) {
    double& sum = block_curvature_[b];
    for (std::size_t e = 0; e < rows; ++e) sum += inverse_norms_[b * rows + e] * row_bounds_[e];
    sum *= (1 + kCurvatureRounding) / weights[b];
    largest = std::max(largest, sum);
  }
  return largest;
}

/// Lessens the weight of each block that neither moves nor bends as much, for its weight, as the worst does. Bounds grow with
/// every weight, so neither speed nor curvature gets larger, and the steps get longer: several times, for a front end.
void BranchProof::fit_weights(const Ball& ball, int rounds) {
  const std::vector<Block>& blocks = bounds_.blocks();
  for (int k = 0; k < rounds; ++k) {
    const double curvature = curvature_of(weights_, radius_);
    const double speed = norm(ball.along), width = norm(ball.across);
    if (!std::isfinite(curvature)) {
      radius_ /= 2;
      continue;
    }
    double largest = 0;
    for (std::size_t b = 0; b < weights_.size(); ++b) {
      const double bends = curvature > 0 ? block_curvature_[b] / curvature : 0.0;
      const double moves = std::max(speed > 0 ? part_of(ball.along, b) / speed : 0.0,
                                    width > 0 ? part_of(ball.across, b) / width : 0.0);
      weights_[b] *= std::sqrt(std::max(bends, moves));
      largest = std::max(largest, weights_[b] * scale_of(blocks[b]));
    }
    for (std::size_t b = 0; b < weights_.size(); ++b)
      weights_[b] = std::max(weights_[b] / largest, kLeastWeight / scale_of(blocks[b]));
  }
}

/// The radius depends on the curvature bound, which grows a little with the radius.
void BranchProof::fit_radius(Ball& ball) {
  constexpr int kRadiusRounds = 30;
  for (int k = 0; k < kRadiusRounds; ++k) {
    ball.radius = radius_;
    ball.curvature = curvature_of(weights_, radius_);
    const double wanted = std::isfinite(ball.curvature)
                              ? std::min(kFill * (1 - ball.slip) / ball.curvature, kLargestRadius)
                              : radius_ / 2;
    if (0.8 * wanted <= radius_ && radius_ <= 1.05 * wanted) break;
    radius_ = wanted;
  }
}

double BranchProof::slip_here(const std::vector<double>& entries) const {
  const std::vector<Block>& blocks = bounds_.blocks();
  const auto n = inverse_.rows();
  Matrix miss = -Matrix::Identity(n, n);
  for (std::size_t k = 0; k < entries.size(); ++k)
    miss.col(flat_.entry_columns()[k]) += inverse_.col(flat_.entry_rows()[k]) * entries[k];
  double largest = 0;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    double sum = 0;
    for (std::size_t c = 0; c < blocks.size(); ++c) {
      sum += weights_[c] *
             miss.block(blocks[b].first, blocks[c].first, blocks[b].count, blocks[c].count).norm();
    }
    largest = std::max(largest, sum / weights_[b]);
  }
  return largest + kSlipRounding;
}

/// What the rounding of the residuals can add to |A Phi|.
double BranchProof::rounding() const {
  const std::size_t rows = index(static_cast<int>(inverse_.rows()));
  double largest = 0;
  for (std::size_t b = 0; b < weights_.size(); ++b) {
    double sum = 0;
    for (std::size_t e = 0; e < rows; ++e) sum += inverse_norms_[b * rows + e];
    largest = std::max(largest, sum * kResidualRounding / weights_[b]);
  }
  return largest;
}

/// Whether the pose in a ball lies in the last one too.
bool BranchProof::holds_pose_of(const Ball& ball) const {
  for (std::size_t b = 0; b < ball.weights.size(); ++b) {
    const double apart = distance_in_block(bounds_.blocks()[b], ball_.centre, ball.centre);
    if (!(apart + ball.pose_within() * ball.weights[b] <= ball_.radius * ball_.weights[b]))
      return false;
  }
  return true;
}

bool BranchProof::is_at(const State& pose) const {
  if (!covering_.complete || pose.size() != ball_.centre.size()) return false;
  const std::vector<Block>& blocks = bounds_.blocks();
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    const double apart = distance_in_block(blocks[b], ball_.centre, pose);
    if (!(apart * scale_of(blocks[b]) <= kSamePose && apart <= ball_.radius * ball_.weights[b]))
      return false;
  }
  return true;
}

Covering cover(const Assembly& assembly, const std::vector<std::vector<double>>& corners,
               std::vector<State>* places) {
  BranchProof proof(assembly);
  for (const std::vector<double>& corner : corners) {
    if (!proof.extend_to(corner).complete) break;
    if (places != nullptr) places->push_back(proof.place().state());
  }
  return proof.covering();
}

}  // namespace axlewright
