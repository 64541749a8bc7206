#include "engine/study/sweep.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace axlewright {
namespace {

std::size_t index(int k) {
  return static_cast<std::size_t>(k);
}

double travel_at(const Truck& truck, double height, double share) {
  const TravelRange range = travel_range(truck, height);
  return share >= 0 ? share * range.bump : share * range.droop;
}

/// How the steering wheel stands in a pose of the grid.
enum class Wheel { rolling, held, turned };

/// What the steering wheel is at going straight is no finding where the wheel itself was set.
bool is_told_of(Wheel wheel, int quantity) {
  switch (quantity) {
    case kSteeringWheel:
    case kSteeringWheelOffCentre:
    case kPitmanAngle:
      return wheel == Wheel::rolling;
    case kMeanSteer:
    case kSteerLeft:
    case kSteerRight:
    case kToe:
      return wheel != Wheel::turned;
    default:
      return true;
  }
}

/// What is told of a lock rather than of a pose; nothing if the key is none of those.
std::optional<double> lock_quantity(const Lock& lock, const std::string& key) {
  const bool left = lock.left.reached, right = lock.right.reached;
  if (key == "lock_to_lock_turns" && left && right) return lock.turns();
  if (key == "turning_circle_left" && left) return lock.left.turning_circle;
  if (key == "turning_circle_right" && right) return lock.right.turning_circle;
  if (key == "ackermann_error_left" && lock.left.solved) return lock.left.ackermann_error_20;
  if (key == "ackermann_error_right" && lock.right.solved) return lock.right.ackermann_error_20;
  return {};
}

int quantity_of(const std::vector<QuantityInfo>& infos, const std::string& key) {
  for (std::size_t k = 0; k < infos.size(); ++k) {
    if (infos[k].key == key) return static_cast<int>(k);
  }
  return -1;
}

class LimitBoard {
 public:
  LimitBoard(const Truck& truck, const std::vector<QuantityInfo>& infos) {
    for (const Limit& limit : truck.limits) {
      LimitResult result;
      result.limit = limit;
      result.quantity = quantity_of(infos, limit.quantity);
      result.margin = std::numeric_limits<double>::infinity();
      results_.push_back(std::move(result));
    }
  }

  /// A turned pose counts for every limit over the grid, a straight one for those of its own kind.
  void take(const PoseResult& pose, bool on_height_line, Wheel wheel) {
    for (LimitResult& result : results_) {
      const bool of_its_kind =
          wheel == Wheel::turned || result.limit.held == (wheel == Wheel::held);
      if (!of_its_kind || !(result.limit.over_grid || on_height_line)) continue;
      if (!is_told_of(wheel, result.quantity)) continue;
      if (result.limit.quantity == kReach) {
        judge_reach(result, pose);
      } else if (result.quantity >= 0 && pose.report.usable()) {
        judge(result, pose.values[index(result.quantity)], pose.request);
      } else if (result.quantity >= 0 && result.verdict != Verdict::not_reached) {
        result.verdict = Verdict::not_reached;
        result.where = pose.request;
      }
    }
  }

  /// Limits on what a lock tells, at one height.
  void take(const Lock& lock, const PoseRequest& at_height) {
    for (LimitResult& result : results_) {
      const std::optional<double> value = lock_quantity(lock, result.limit.quantity);
      if (value) judge(result, *value, at_height);
    }
  }

  std::vector<LimitResult> results() && { return std::move(results_); }

 private:
  static constexpr const char* kReach = "reach";

  static void judge_reach(LimitResult& result, const PoseResult& pose) {
    if (result.verdict == Verdict::broken) return;
    result.verdict = pose.report.usable() ? Verdict::met : Verdict::broken;
    result.where = pose.request;
  }

  static void judge(LimitResult& result, double value, const PoseRequest& where) {
    if (result.verdict == Verdict::not_reached || std::isnan(value)) return;
    const double above =
        result.limit.max ? *result.limit.max - value : std::numeric_limits<double>::infinity();
    const double below =
        result.limit.min ? value - *result.limit.min : std::numeric_limits<double>::infinity();
    const double margin = std::min(above, below);
    if (margin >= result.margin) return;
    result.margin = margin;
    result.worst = value;
    result.where = where;
    result.verdict = margin < 0 ? Verdict::broken : Verdict::met;
  }

  std::vector<LimitResult> results_;
};

class Sweeper {
 public:
  Sweeper(Rig& rig, SweepPlan plan) : rig_(rig), board_(rig.truck(), rig.quantities()) {
    sweep_.truck = rig.truck().name;
    sweep_.plan = std::move(plan);
    sweep_.infos = rig.quantities();
    sweep_.aligned_wheel = rig.aligned_wheel();
    sweep_.lowest.resize(sweep_.infos.size());
    sweep_.highest.resize(sweep_.infos.size());
  }

  Sweep run(const Progress& progress) {
    const SweepPlan& plan = sweep_.plan;
    // All heights first, one after the other: a warm path.
    for (const double height : plan.heights) sweep_.rows.push_back(look_at_height(height));
    for (std::size_t k = 0; k < plan.heights.size(); ++k) {
      if (progress &&
          !progress(static_cast<double>(k) / static_cast<double>(plan.heights.size()))) {
        sweep_.cancelled = true;
        return std::move(sweep_);
      }
      sweep_height(plan.heights[k]);
    }
    if (plan.heights.size() > 1) {
      sweep_.lock_low = find_lock(rig_, plan.heights.front());
      sweep_.lock_high = find_lock(rig_, plan.heights.back());
      sweep_.margins = find_margins(rig_);
      board_.take(sweep_.lock_low, at(plan.heights.front()));
      board_.take(sweep_.lock_high, at(plan.heights.back()));
    }
    sweep_.limits = std::move(board_).results();
    return std::move(sweep_);
  }

 private:
  PoseRequest at(double height) const {
    PoseRequest request;
    request.height = height;
    request.rear_height = sweep_.plan.rear_height;
    return request;
  }

  HeightRow look_at_height(double height) {
    HeightRow row;
    row.height = height;
    row.rolling = rig_.solve(at(height));
    if (row.rolling.report.usable())
      row.smallest_singular_value = rig_.follower().smallest_singular_value();
    note(row.rolling, true, Wheel::rolling);
    PoseRequest held = at(height);
    held.steer_by = SteerBy::held;
    const PoseResult pose = rig_.solve(held);
    note(pose, true, Wheel::held);
    if (pose.report.usable()) row.held_steer = pose.values[kMeanSteer];
    if (row.rolling.report.usable() && !std::isnan(row.rolling.values[kPitmanAngle]))
      row.bump_sweep = bump_deviation(row.rolling);
    return row;
  }

  /// Largest |mean steer| over the travel with the steering wheel held where the truck goes straight at this height.
  std::optional<double> bump_deviation(const PoseResult& straight) {
    static constexpr int kPlaces = 9;
    PoseRequest request = straight.request;
    request.steer_by = SteerBy::pitman;
    request.steer = straight.values[kPitmanAngle];
    double largest = 0;
    for (int k = 0; k < kPlaces; ++k) {
      request.travel = travel_at(rig_.truck(), request.height, -1 + 2.0 * k / (kPlaces - 1));
      const PoseResult pose = rig_.solve_place(request);
      if (!pose.report.usable()) return {};
      const double steer = pose.inputs[index(rig_.expansion().straight.value)];
      if (std::abs(steer) > std::abs(largest)) largest = steer;
    }
    return largest;
  }

  /// Travel x lean, rolling and held, and with the wheel turned.
  void sweep_height(double height) {
    const SweepPlan& plan = sweep_.plan;
    const Lock lock = plan.steerings.empty() ? Lock{} : find_lock(rig_, height);
    const double centre = rig_.aligned_wheel();
    for (const double travel : plan.travels) {
      for (const double lean : plan.leans) {
        PoseRequest request = at(height);
        request.travel = travel_at(rig_.truck(), height, travel);
        request.lean = lean;
        const bool on_line = request.travel == 0 && request.lean == 0;
        if (!on_line) {
          note(rig_.solve(request), false, Wheel::rolling);
          request.steer_by = SteerBy::held;
          note(rig_.solve(request), false, Wheel::held);
        }
        request.steer_by = SteerBy::steering_wheel;
        for (const double share : plan.steerings) {
          if (share == 0) continue;  // that is the held pose
          request.steer = centre + std::abs(share) * (end_of_steering(lock, share > 0) - centre);
          note(rig_.solve(request), false, Wheel::turned);
        }
      }
    }
  }

  /// The first stop, or the angle that the truck file wants looked at if that comes before it.
  double end_of_steering(const Lock& lock, bool left) const {
    const double stop = left ? lock.left.steering_wheel : lock.right.steering_wheel;
    const std::optional<double>& asked = rig_.truck().steering;
    if (!asked || std::abs(stop) < *asked) return stop;
    return left ? *asked : -*asked;
  }

  void note(const PoseResult& pose, bool on_height_line, Wheel wheel) {
    ++sweep_.poses;
    board_.take(pose, on_height_line, wheel);
    if (!pose.report.usable()) {
      ++sweep_.refused;
      if (sweep_.refusals.size() < kRefusalsKept)
        sweep_.refusals.push_back({pose.request, pose.report});
      return;
    }
    for (std::size_t k = 0; k < pose.values.size(); ++k) {
      const double value = pose.values[k];
      if (std::isnan(value) || !is_told_of(wheel, static_cast<int>(k))) continue;
      Extreme& low = sweep_.lowest[k];
      Extreme& high = sweep_.highest[k];
      if (!low.found || value < low.value) low = {value, pose.request, true};
      if (!high.found || value > high.value) high = {value, pose.request, true};
    }
  }

  Rig& rig_;
  LimitBoard board_;
  Sweep sweep_;
};

}  // namespace

TravelRange travel_range(const Truck& truck, double height) {
  const Travel& travel = truck.travel;
  if (!travel.fixed_in_truck) return {travel.bump, travel.droop};
  // Stop and strap sit in the truck: what raising adds to bump it takes from droop.
  const double raised = height - truck.aligned_height;
  return {std::max(0.0, travel.bump + raised), std::max(0.0, travel.droop - raised)};
}

SweepPlan sweep_plan(const Truck& truck, int count) {
  SweepPlan plan;
  const double low = truck.height_range[0], high = truck.height_range[1];
  for (int k = 0; k < count; ++k) plan.heights.push_back(low + (high - low) * k / (count - 1));
  plan.travels = {0, -0.5, -1, 0.5, 1};
  if (truck.travel.bump == 0 && truck.travel.droop == 0) plan.travels = {0};
  plan.leans = {0};
  if (truck.lean > 0) plan.leans = {0, -truck.lean / 2, -truck.lean, truck.lean / 2, truck.lean};
  plan.steerings = {0, -0.5, -1, 0.5, 1};
  return plan;
}

Sweep run_sweep(Rig& rig, SweepPlan plan, const Progress& progress) {
  return Sweeper(rig, std::move(plan)).run(progress);
}

}  // namespace axlewright
