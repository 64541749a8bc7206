#include "engine/study/sweep.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/base/index.h"

namespace axlewright {
namespace {

/// Values that differ by less are the same (SI): a band may be a single value, and of several worst places the first one
/// counts, whatever a compiler's rounding makes of them.
constexpr double kRounding = 1e-9;

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

struct LockValue {
  double value;
  const LockSide* side;  ///< that it is told of
};

/// What is told of a lock rather than of a pose; nothing if the key is none of those.
std::optional<LockValue> lock_quantity(const Lock& lock, const std::string& key) {
  const LockSide &left = lock.left, &right = lock.right;
  if (key == "lock_to_lock_turns" && left.reached && right.reached)
    return LockValue{lock.turns(), &left};
  if (key == "turning_circle_left" && left.reached) return LockValue{left.turning_circle, &left};
  if (key == "turning_circle_right" && right.reached)
    return LockValue{right.turning_circle, &right};
  if (key == "ackermann_error_left" && left.solved)
    return LockValue{left.ackermann_error_20, &left};
  if (key == "ackermann_error_right" && right.solved)
    return LockValue{right.ackermann_error_20, &right};
  return {};
}

class LimitBoard {
 public:
  LimitBoard(const Truck& truck, const std::vector<QuantityInfo>& infos) {
    for (const Limit& limit : truck.limits) {
      Judged judged;
      judged.result.limit = limit;
      judged.quantities = quantities_of(infos, limit.quantity);
      if (!judged.quantities.empty()) judged.result.quantity = judged.quantities.front();
      judged.result.margin = std::numeric_limits<double>::infinity();
      judged_.push_back(std::move(judged));
    }
  }

  /// A turned pose counts for every limit over the grid, a straight one for those of its own kind.
  void take(const PoseResult& pose, bool on_height_line, Wheel wheel) {
    for (Judged& judged : judged_) {
      const Limit& limit = judged.result.limit;
      const bool of_its_kind = wheel == Wheel::turned || limit.held == (wheel == Wheel::held);
      if (!of_its_kind || !(limit.over_grid || on_height_line)) continue;
      if (limit.quantity == kReach) {
        judge_reach(judged.result, pose);
        continue;
      }
      for (const int quantity : judged.quantities) {
        if (!is_told_of(wheel, quantity)) continue;
        if (pose.report.usable()) {
          judge(judged, pose.values[index(quantity)], quantity, pose.request);
        } else if (!judged.missed) {
          judged.missed = pose.request;
        }
      }
    }
  }

  /// Limits on what a lock tells, at one height.
  void take(const Lock& lock, const PoseRequest& at_height) {
    for (Judged& judged : judged_) {
      const std::optional<LockValue> told = lock_quantity(lock, judged.result.limit.quantity);
      if (!told) continue;
      PoseRequest where = at_height;
      where.steer_by = SteerBy::steering_wheel;
      where.steer = told->side->steering_wheel;
      judge(judged, told->value, -1, where);
    }
  }

  std::vector<LimitResult> results() const {
    std::vector<LimitResult> results;
    for (const Judged& judged : judged_) {
      results.push_back(judged.result);
      // What is broken somewhere stays broken, whatever cannot be looked at elsewhere.
      if (!judged.missed || judged.result.verdict == Verdict::broken) continue;
      results.back().verdict = Verdict::not_reached;
      results.back().where = *judged.missed;
    }
    return results;
  }

 private:
  static constexpr const char* kReach = "reach";

  struct Judged {
    LimitResult result;
    std::vector<int> quantities;        ///< all that the key names: the worst counts
    std::optional<PoseRequest> missed;  ///< the first pose without its quantity
  };

  static void judge_reach(LimitResult& result, const PoseResult& pose) {
    if (result.verdict == Verdict::broken) return;
    result.verdict = pose.report.usable() ? Verdict::met : Verdict::broken;
    result.where = pose.request;
  }

  static void judge(Judged& judged, double value, int quantity, const PoseRequest& where) {
    LimitResult& result = judged.result;
    if (std::isnan(value)) return;
    const double above =
        result.limit.max ? *result.limit.max - value : std::numeric_limits<double>::infinity();
    const double below =
        result.limit.min ? value - *result.limit.min : std::numeric_limits<double>::infinity();
    const double margin = std::min(above, below);
    if (margin >= result.margin - kRounding) return;
    result.margin = margin;
    result.worst = value;
    result.quantity = quantity;
    result.where = where;
    result.verdict = margin < -kRounding ? Verdict::broken : Verdict::met;
  }

  std::vector<Judged> judged_;
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
    if (plan.heights.size() > 1) sweep_.margins = find_margins(rig_);
    sweep_.limits = board_.results();
    return std::move(sweep_);
  }

 private:
  PoseRequest at(double height) const {
    PoseRequest request;
    request.height = height;
    request.rear_height = rear_height_at(sweep_.plan, height);
    return request;
  }

  HeightRow look_at_height(double height) {
    HeightRow row;
    row.height = height;
    row.rolling = rig_.solve(at(height));
    if (row.rolling.report.usable())
      row.smallest_singular_value = rig_.follower().smallest_singular_value();
    note(row.rolling, true, Wheel::rolling);
    if (!steers_) return row;
    PoseRequest held = at(height);
    held.steer_by = SteerBy::held;
    const PoseResult pose = rig_.solve(held);
    note(pose, true, Wheel::held);
    if (pose.report.usable()) row.held_steer = pose.values[kMeanSteer];
    if (row.rolling.report.usable()) row.bump_sweep = bump_deviation(row.rolling);
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
      const double steer =
          pose.inputs[index(rig_.expansion().straight.value)] - rig_.straight_ahead();
      if (std::abs(steer) > std::abs(largest)) largest = steer;
    }
    return largest;
  }

  /// Both locks, kept for the ends of the heights.
  Lock lock_at(double height) {
    const Lock lock = find_lock(rig_, at(height));
    board_.take(lock, at(height));
    if (height == sweep_.plan.heights.front()) sweep_.lock_low = lock;
    if (height == sweep_.plan.heights.back()) sweep_.lock_high = lock;
    return lock;
  }

  /// Travel x lean, rolling and held, and with the wheel turned.
  void sweep_height(double height) {
    const SweepPlan& plan = sweep_.plan;
    const Lock lock = lock_at(height);
    const double centre = rig_.aligned_wheel();
    for (const double travel : plan.travels) {
      for (const double lean : plan.leans) {
        PoseRequest request = at(height);
        request.travel = travel_at(rig_.truck(), height, travel);
        request.lean = lean;
        const bool on_line = request.travel == 0 && request.lean == 0;
        if (!on_line) note(rig_.solve(request), false, Wheel::rolling);
        if (!steers_) continue;
        request.steer_by = SteerBy::held;
        if (!on_line) note(rig_.solve(request), false, Wheel::held);
        const SteeringRange range = on_line ? SteeringRange{lock.left.asked, lock.right.asked}
                                            : steering_range_beside(rig_, request, lock);
        request.steer_by = SteerBy::steering_wheel;
        for (const double share : plan.steerings) {
          if (share == 0) continue;  // that is the held pose
          request.steer = centre + std::abs(share) * (end_of_steering(range, share > 0) - centre);
          note(rig_.solve(request), false, Wheel::turned);
        }
      }
    }
  }

  /// The first stop, or the angle that the truck file wants looked at if that comes before it.
  double end_of_steering(const SteeringRange& range, bool left) const {
    const double stop = left ? range.left : range.right;
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
      if (!low.found || value < low.value - kRounding) low = {value, pose.request, true};
      if (!high.found || value > high.value + kRounding) high = {value, pose.request, true};
    }
  }

  Rig& rig_;
  bool steers_ = rig_.expansion().pitman_turn.value >= 0;  ///< it has a pitman arm
  LimitBoard board_;
  Sweep sweep_;
};

}  // namespace

double rear_height_at(const SweepPlan& plan, double height) {
  return plan.rear_with_front ? height : plan.rear_height;
}

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
