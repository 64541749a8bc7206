#include "engine/study/height_notes.h"

#include <cmath>
#include <optional>
#include <utility>

#include "engine/base/index.h"

namespace axlewright {
namespace {

double travel_at(const Truck& truck, double height, double share) {
  const TravelRange range = travel_range(truck, height);
  return share >= 0 ? share * range.bump : share * range.droop;
}

bool has_pitman_arm(const Rig& rig) {
  return rig.expansion().pitman_turn.value >= 0;
}

/// Largest |mean steer| over the travel with the steering wheel held where the truck goes straight at this height.
std::optional<double> bump_deviation(Rig& rig, const PoseResult& straight) {
  static constexpr int kPlaces = 9;
  PoseRequest request = straight.request;
  request.steer_by = SteerBy::pitman;
  request.steer = straight.values[kPitmanAngle];
  double largest = 0;
  for (int k = 0; k < kPlaces; ++k) {
    request.travel = travel_at(rig.truck(), request.height, -1 + 2.0 * k / (kPlaces - 1));
    const PoseResult pose = rig.solve_place(request);
    if (!pose.report.usable()) return {};
    const double steer = pose.inputs[index(rig.expansion().straight.value)] - rig.straight_ahead();
    if (std::abs(steer) > std::abs(largest)) largest = steer;
  }
  return largest;
}

/// The first stop, or the angle that the truck file wants looked at if that comes before it.
double end_of_steering(const Truck& truck, const SteeringRange& range, bool left) {
  const double stop = left ? range.left : range.right;
  const std::optional<double>& asked = truck.steering;
  if (!asked || std::abs(stop) < *asked) return stop;
  return left ? *asked : -*asked;
}

/// The steering wheel turned by every share of the plan, at a pose.
void turn_wheel(Rig& rig, const SweepPlan& plan, PoseRequest request, const SteeringRange& range,
                std::vector<NotedPose>& notes) {
  const double centre = rig.aligned_wheel();
  request.steer_by = SteerBy::steering_wheel;
  for (const double share : plan.steerings) {
    if (share == 0) continue;  // that is the held pose
    const double end = end_of_steering(rig.truck(), range, share > 0);
    request.steer = centre + std::abs(share) * (end - centre);
    notes.push_back({rig.solve(request), false, Wheel::turned});
  }
}

}  // namespace

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

PoseRequest straight_at(const SweepPlan& plan, double height) {
  PoseRequest request;
  request.height = height;
  request.rear_height = rear_height_at(plan, height);
  return request;
}

HeightLineNotes look_along_line(Rig& rig, const SweepPlan& plan, double height) {
  HeightLineNotes notes;
  HeightRow& row = notes.row;
  row.height = height;
  row.rolling = rig.solve(straight_at(plan, height));
  if (row.rolling.report.usable())
    row.smallest_singular_value = rig.follower().smallest_singular_value();
  notes.poses.push_back({row.rolling, true, Wheel::rolling});
  if (!has_pitman_arm(rig)) return notes;
  PoseRequest held = straight_at(plan, height);
  held.steer_by = SteerBy::held;
  PoseResult pose = rig.solve(held);
  if (pose.report.usable()) row.held_steer = pose.values[kMeanSteer];
  notes.poses.push_back({std::move(pose), true, Wheel::held});
  if (row.rolling.report.usable()) row.bump_sweep = bump_deviation(rig, row.rolling);
  return notes;
}

HeightGridNotes look_over_grid(Rig& rig, const SweepPlan& plan, double height) {
  HeightGridNotes notes;
  notes.lock = find_lock(rig, straight_at(plan, height));
  for (const double travel : plan.travels) {
    for (const double lean : plan.leans) {
      PoseRequest request = straight_at(plan, height);
      request.travel = travel_at(rig.truck(), height, travel);
      request.lean = lean;
      const bool on_line = request.travel == 0 && request.lean == 0;
      if (!on_line) notes.poses.push_back({rig.solve(request), false, Wheel::rolling});
      if (!has_pitman_arm(rig)) continue;
      request.steer_by = SteerBy::held;
      if (!on_line) notes.poses.push_back({rig.solve(request), false, Wheel::held});
      const SteeringRange range = on_line
                                      ? SteeringRange{notes.lock.left.asked, notes.lock.right.asked}
                                      : steering_range_beside(rig, request, notes.lock);
      turn_wheel(rig, plan, request, range, notes.poses);
    }
  }
  return notes;
}

}  // namespace axlewright
