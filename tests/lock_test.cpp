// Locks: which stop comes first, what is asked where none does, and the circle that follows.

#include "engine/study/lock.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/study/margin.h"
#include "engine/study/sweep.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::CrossBar;
using testing::StraightAxle;
using testing::truck_of;

constexpr double kAngle = 1e-8;  // [rad] of the stop's search

Truck plain() {
  return truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
}

void remove_part(Truck& truck, const std::string& name) {
  truck.parts.erase(std::remove_if(truck.parts.begin(), truck.parts.end(),
                                   [&](const Part& part) { return part.name == name; }),
                    truck.parts.end());
}

void remove_point(Truck& truck, const std::string& name) {
  truck.points.erase(std::remove_if(truck.points.begin(), truck.points.end(),
                                    [&](const Point& point) { return point.name == name; }),
                     truck.points.end());
}

TEST(Lock, IsTheGearsStopWhereThatComesFirst) {
  Truck truck = plain();
  truck.gear.stop_left = from_deg(480);
  truck.gear.stop_right = from_deg(400);
  Rig rig(truck);
  const Lock lock = find_lock(rig, {});
  ASSERT_TRUE(lock.left.reached && lock.right.reached);
  EXPECT_EQ(lock.left.stop, "gear stop");
  EXPECT_NEAR(lock.left.steering_wheel, from_deg(480), 16 * kAngle);
  EXPECT_NEAR(lock.right.steering_wheel, from_deg(-400), 16 * kAngle);
  EXPECT_NEAR(lock.turns(), 880.0 / 360, 1e-7);
  EXPECT_EQ(lock.left.asked, lock.left.steering_wheel);
}

// Where the linkage runs out before any stop, the stop is still what the file asks for.
TEST(Lock, AsksForTheGearsStopThoughTheLinkageRunsOut) {
  Truck truck = plain();
  truck.gear.stop_left = truck.gear.stop_right = from_deg(16 * 90.0);
  Rig rig(truck);
  const LockSide left = find_lock(rig, {}).left;
  EXPECT_FALSE(left.reached);
  EXPECT_TRUE(left.solved);
  EXPECT_NEAR(left.asked, from_deg(16 * 90.0), 1e-12);
  EXPECT_LT(left.steering_wheel, left.asked);
  EXPECT_NE(left.stop, "");
  for (const Margin& margin : find_margins(rig)) {
    if (margin.input != "steering wheel, to the left") continue;
    EXPECT_EQ(margin.asked, left.asked);
    EXPECT_LT(margin.margin(), 0);
  }
}

TEST(Lock, AsksForTheFilesSteeringWithoutAnyStop) {
  Truck truck = plain();
  truck.steering = from_deg(16 * 90.0);
  Rig rig(truck);
  const Lock lock = find_lock(rig, {});
  EXPECT_FALSE(lock.left.reached);
  EXPECT_NEAR(lock.left.asked, from_deg(16 * 90.0), 1e-12);
  EXPECT_NEAR(lock.right.asked, from_deg(-16 * 90.0), 1e-12);
}

// Then the pose asked for is one that cannot be had, and the limit `reach` says so.
TEST(Lock, AsksJustBeyondTheLinkageWithoutStopOrSteering) {
  Truck truck = plain();
  truck.axle_stops.turn_left = truck.axle_stops.turn_right = from_deg(89);
  Limit reach;
  reach.name = reach.quantity = "reach";
  reach.over_grid = true;
  truck.limits = {reach};
  Rig rig(truck);
  const LockSide left = find_lock(rig, {}).left;
  ASSERT_FALSE(left.reached);
  EXPECT_GT(left.asked, left.steering_wheel);
  SweepPlan plan = sweep_plan(truck, 2);
  plan.travels = plan.leans = {0};
  const Sweep sweep = run_sweep(rig, plan);
  ASSERT_EQ(sweep.limits.size(), 1u);
  EXPECT_EQ(sweep.limits[0].verdict, Verdict::broken);
  EXPECT_GT(sweep.refused, 0);
}

// Raised, plain bars turn the wheel by more than this gear's stops allow.
TEST(Lock, StraightAheadMayAlreadyBePastAStop) {
  Truck truck =
      truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{.drop = 0.200}});
  truck.gear.stop_left = truck.gear.stop_right = from_deg(5);
  Rig rig(truck);
  PoseRequest raised;
  raised.height = 0.270;
  const PoseResult straight = rig.solve(raised);
  ASSERT_TRUE(straight.report.usable());
  ASSERT_GT(std::abs(to_deg(straight.values[kSteeringWheel])), 5);
  const Lock lock = find_lock(rig, raised);
  const LockSide& past = straight.values[kSteeringWheel] > 0 ? lock.left : lock.right;
  const LockSide& free = straight.values[kSteeringWheel] > 0 ? lock.right : lock.left;
  EXPECT_FALSE(past.solved);
  EXPECT_FALSE(past.reached);
  EXPECT_EQ(past.stop, "past the gear stop already when going straight");
  EXPECT_TRUE(free.reached);
  EXPECT_NEAR(std::abs(past.asked), from_deg(5), 16 * kAngle);
}

TEST(Lock, AckermannErrorAt20NeedsTheOuterWheelToGetThere) {
  for (const double stop : {19.9, 20.1}) {
    Truck truck = plain();
    // Turning left, the outer wheel is the right one, and turns towards the middle.
    truck.axle_stops.turn_left = from_deg(40);
    truck.axle_stops.turn_right = from_deg(stop);
    Rig rig(truck);
    const LockSide left = find_lock(rig, {}).left;
    ASSERT_TRUE(left.reached) << left.stop;
    EXPECT_NEAR(to_deg(left.outer), stop, 1e-6);
    EXPECT_EQ(std::isnan(left.ackermann_error_20), stop < 20);
  }
}

// Upright kingpins: the hub turns about its kingpin in the frame's level, and the road is tipped by r against it. All by hand.
TEST(Lock, TurningCircleLiesInTheRoad) {
  Truck truck = plain();
  truck.axle_stops.turn_left = truck.axle_stops.turn_right = from_deg(28);
  Rig rig(truck);
  PoseRequest raised;
  raised.height = 0.200;
  const LockSide left = find_lock(rig, raised).left;
  ASSERT_TRUE(left.reached);
  const double wheelbase = 4.0, radius = 0.460, hub_from_kingpin = 0.875 - 0.7075;
  const double r = std::atan(raised.height / wheelbase), outer = left.outer;
  const double sine = std::sin(outer);
  const double hub = wheelbase / std::cos(r) + hub_from_kingpin * sine * std::cos(r);
  const double contact = radius * sine * std::cos(r) * sine * std::sin(r) /
                         std::sqrt(1 - std::pow(sine * std::sin(r), 2));
  const double road_sine = sine * std::cos(r) / std::hypot(sine * std::cos(r), std::cos(outer));
  EXPECT_NEAR(left.turning_circle, 2 * (hub + contact) / road_sine, 1e-9);
}

TEST(Lock, KnowsHowHighTheRearIs) {
  Truck truck = plain();
  truck.axle_stops.turn_left = truck.axle_stops.turn_right = from_deg(28);
  Rig rig(truck);
  PoseRequest front_alone, level;
  front_alone.height = level.height = level.rear_height = 0.200;
  const double as_measured = find_lock(rig, {}).left.turning_circle;
  EXPECT_NEAR(find_lock(rig, level).left.turning_circle, as_measured, 1e-9);
  EXPECT_GT(find_lock(rig, front_alone).left.turning_circle, as_measured + 1e-3);
}

// Found from the lock beside it or from straight ahead, a stop is where it is.
TEST(Lock, BesideAKnownOneIsThatOfTheWholeSearch) {
  for (const char* file : {"trucks/half-converted.toml", "trucks/plain-mismatched.toml"}) {
    Rig rig(truck_of(std::string(file)));
    PoseRequest level;
    level.height = rig.truck().height_range[1];
    const Lock known = find_lock(rig, level);
    for (const double travel : {-0.110, 0.060}) {
      for (const double lean_deg : {-4.0, 4.0}) {
        PoseRequest there = level;
        there.travel = travel;
        there.lean = from_deg(lean_deg);
        const SteeringRange beside = steering_range_beside(rig, there, known);
        const Lock whole = find_lock(rig, there);
        EXPECT_NEAR(beside.left, whole.left.asked, 1e-6) << file << travel << lean_deg;
        EXPECT_NEAR(beside.right, whole.right.asked, 1e-6) << file << travel << lean_deg;
      }
    }
  }
}

// An axle without any steering linkage but its tie rod can still be raised and leant.
TEST(Lock, ATruckWithoutAPitmanArmHasNone) {
  Truck truck = plain();
  remove_part(truck, "drag_link");
  remove_part(truck, "pitman_arm");
  for (const char* point :
       {"pitman_ball", "drag_link_knuckle", "sector_shaft_low", "sector_shaft_high"})
    remove_point(truck, point);
  Rig rig(truck);
  ASSERT_TRUE(rig.aligned_report().usable()) << rig.aligned_report().message;
  const Lock lock = find_lock(rig, {});
  EXPECT_FALSE(lock.left.solved || lock.left.reached);
  EXPECT_EQ(lock.left.stop, "no pitman arm");
  const Sweep sweep = run_sweep(rig, sweep_plan(truck, 3));
  EXPECT_EQ(sweep.refused, 0);
  EXPECT_FALSE(sweep.rows.back().held_steer && std::isnan(*sweep.rows.back().held_steer));
  for (const Margin& margin : sweep.margins)
    EXPECT_EQ(margin.input.find("steering"), std::string::npos) << margin.input;
}

// Two upper links too many by one: they agree as measured and in heave, and part as soon as it leans.
TEST(Margin, EndsWhereClosuresHeldTwicePart) {
  Truck truck = truck_of("trucks/plain-mismatched.toml");
  Point frame = *find_point(truck, "upper_link_frame"),
        axle = *find_point(truck, "upper_link_axle");
  for (Point* end : {&frame, &axle}) {
    end->name += "_2";
    end->at.y() = -end->at.y();
  }
  truck.points.push_back(frame);
  truck.points.push_back(axle);
  for (const Part& part : std::vector<Part>(truck.parts)) {
    if (part.name != "upper_link") continue;
    Part twin = part;
    twin.name = twin.words = "second upper link";
    std::get<Bar>(twin.what).ends = {"upper_link_frame_2", "upper_link_axle_2"};
    truck.parts.push_back(twin);
  }
  Rig rig(truck);
  ASSERT_EQ(rig.rolling().assembly().set_aside.size(), 1u);
  bool met = false;
  for (const Margin& margin : find_margins(rig)) {
    if (margin.input != "lean, left side up") continue;
    met = true;
    EXPECT_EQ(margin.how_it_ran_out, "no longer fits");
    EXPECT_LT(margin.margin(), 0);
    PoseRequest before, beyond;
    before.height = beyond.height = rig.truck().height_range[1];
    before.steer_by = beyond.steer_by = SteerBy::held;
    beyond.lean = margin.end + from_deg(0.1);
    EXPECT_TRUE(rig.solve(before).report.usable());
    EXPECT_EQ(rig.solve(beyond).report.outcome, Outcome::over_held);
  }
  EXPECT_TRUE(met);
}

// The margin is where the poses end: a millimetre before it there is one, a millimetre beyond there is none.
TEST(Margin, EndsWherePosesDo) {
  Rig rig(truck_of("trucks/plain-mismatched.toml"));
  const Margin up = find_margins(rig).front();
  ASSERT_EQ(up.input, "height, up");
  ASSERT_EQ(up.by, WayEnd::bind);
  EXPECT_NEAR(up.margin(), up.end - rig.truck().height_range[1], 1e-12);
  PoseRequest before, beyond;
  before.height = up.end - 1e-3;
  beyond.height = up.end + 1e-3;
  EXPECT_TRUE(rig.solve(before).report.usable());
  EXPECT_FALSE(rig.solve(beyond).report.usable());
}

}  // namespace
}  // namespace axlewright
