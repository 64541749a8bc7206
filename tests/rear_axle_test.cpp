// A rear axle of its own: where the heights put it, where it drives the truck, and what that does to straight ahead.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/study/lock.h"
#include "engine/study/sweep.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::add_point;
using testing::place_of;
using testing::truck_of;

constexpr double kSolved = 1e-10;  // two solutions to 1e-11 m each

constexpr const char* kLinked = "tests/layouts/rear_axle.toml";
constexpr const char* kAsMeasured = "tests/layouts/rear_axle_as_measured.toml";

Direction fixed(const Vec3& v) {
  Direction direction;
  direction.fixed = v;
  return direction;
}

void add_joint(Truck& truck, const std::string& name, PlainJointKind kind, const Vec3& first,
               const Vec3& second = Vec3::Zero()) {
  PlainJoint joint;
  joint.name = joint.words = name;
  joint.kind = kind;
  joint.between = {"frame", "rear_axle"};
  if (kind == PlainJointKind::held_coordinate) joint.point = "rear_middle";
  joint.first = fixed(first);
  joint.second = fixed(second);
  truck.joints.push_back(joint);
}

constexpr double kBarLength = 0.850, kBarDrop = 0.120;

/// A rear axle that only rises, leans and swings on its track bar, behind a front axle that goes nowhere.
Truck straight_rear() {
  Truck truck = truck_of(testing::StraightAxle{});
  truck.lean = from_deg(3);
  add_point(truck, "rear_left", "rear_axle", {-4.0, 0.850, 0.460});
  add_point(truck, "rear_right", "rear_axle", {-4.0, -0.850, 0.460});
  add_point(truck, "rear_middle", "rear_axle", {-4.0, 0, 0.460});
  add_joint(truck, "fore-aft", PlainJointKind::held_coordinate, Vec3::UnitX());
  add_joint(truck, "yaw", PlainJointKind::perpendicular, Vec3::UnitY(), Vec3::UnitX());
  add_joint(truck, "pitch", PlainJointKind::perpendicular, Vec3::UnitZ(), Vec3::UnitX());
  const double across = std::sqrt(kBarLength * kBarLength - kBarDrop * kBarDrop);
  add_point(truck, "rear_bar_frame", "frame", {-4.1, 0.420, 0.620});
  add_point(truck, "rear_bar_axle", "rear_axle", {-4.1, 0.420 - across, 0.620 - kBarDrop});
  Part bar;
  bar.name = bar.words = "rear track bar";
  bar.what = Bar{BarKind::track_bar, {"rear_bar_frame", "rear_bar_axle"}, {}, {}, false};
  truck.parts.push_back(bar);
  truck.rear_wheels = RearWheels{"rear_left", "rear_right", 0.460, 0.315, true};
  return truck;
}

PoseResult pose_at(Rig& rig, const PoseRequest& request) {
  PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose;
}

PoseRequest raised(double front, double rear) {
  PoseRequest request;
  request.height = front;
  request.rear_height = rear;
  return request;
}

// Definition 1, for the rear: heights and lean put both wheel centres where they say, and the front's travel does not.
TEST(RearAxle, StandsOnTheRoadAtItsOwnHeight) {
  Rig rig(truck_of(kLinked));
  const double left = 0.455, half = 0.865;
  for (const double lean_deg : {-2.0, 0.0, 3.0}) {
    PoseRequest request = raised(0.050, 0.120);
    request.lean = from_deg(lean_deg);
    request.travel = 0.030;
    request.travel_left = -0.010;
    pose_at(rig, request);
    const double side = half * std::sin(request.lean);
    EXPECT_NEAR(place_of(rig, "rear_wheel_left").z(), left - 0.120 - side, kSolved);
    EXPECT_NEAR(place_of(rig, "rear_wheel_right").z(), left - 0.120 + side, kSolved);
  }
}

// Both axles stand along one road: the line through either pair of wheel centres is square to its normal, rake or not.
TEST(RearAxle, LiesAlongTheSameRoadAsTheFrontOne) {
  Rig rig(straight_rear());
  PoseRequest request = raised(0.080, 0.190);
  request.lean = from_deg(2.5);
  pose_at(rig, request);
  QuantityContext context;
  context.height = request.height;
  context.rear_height = request.rear_height;
  context.lean = request.lean;
  const Vec3 normal = road_normal(rig.truck(), context);
  EXPECT_NEAR(normal.dot(place_of(rig, "rear_left") - place_of(rig, "rear_right")), 0, kSolved);
  EXPECT_NEAR(normal.dot(place_of(rig, "wheel_centre_left") - place_of(rig, "wheel_centre_right")),
              0, kSolved);
}

// A track bar's end swings on an arc about the other: sideways by what is left of its length.
TEST(RearAxle, WalksOnItsTrackBarsArc) {
  Rig rig(straight_rear());
  const double level = std::sqrt(kBarLength * kBarLength - kBarDrop * kBarDrop);
  for (const double rear : {-0.060, 0.040, 0.160}) {
    const PoseResult pose = pose_at(rig, raised(0, rear));
    const double drop = kBarDrop + rear;
    EXPECT_NEAR(pose.values[kRearWalkSide],
                level - std::sqrt(kBarLength * kBarLength - drop * drop), kSolved);
    EXPECT_NEAR(pose.values[kRearWalkForward], 0, kSolved);
    EXPECT_NEAR(pose.values[kThrustAngle], 0, kSolved);
    // It only walks, so straight ahead stays where it was, and so does the front end.
    EXPECT_NEAR(pose.values[kSteeringWheelOffCentre], 0, 1e-8);
    EXPECT_NEAR(pose.values[kAxleWalkSide], 0, kSolved);
  }
}

// Held alike in a lean at every height: the line through the wheel centres leans and does not turn.
TEST(RearAxle, HeldSquareDoesNotSteerInALean) {
  Rig rig(straight_rear());
  PoseRequest request = raised(0, 0.100);
  request.lean = from_deg(2);
  EXPECT_NEAR(pose_at(rig, request).values[kRearLeanSteer], 0, kSolved);
}

TEST(RearAxle, DrivesSquareToItsWheelCentres) {
  Rig rig(truck_of(kLinked));
  for (const double rear : {0.0, 0.070, 0.150}) {
    const PoseResult pose = pose_at(rig, raised(0.040, rear));
    const Vec3 across = place_of(rig, "rear_wheel_left") - place_of(rig, "rear_wheel_right");
    EXPECT_NEAR(pose.values[kThrustAngle], std::atan2(-across.x(), across.y()), kSolved);
  }
}

// A thrust angle that is given counts, not the points; from there on it turns as the axle does.
TEST(RearAxle, DrivesAsGivenWhereItIsGiven) {
  Rig rig(truck_of(kAsMeasured));
  EXPECT_NEAR(to_deg(pose_at(rig, {}).values[kThrustAngle]), 0.4, 1e-9);
  const auto heading = [&] {
    const Vec3 across = place_of(rig, "rear_wheel_left") - place_of(rig, "rear_wheel_right");
    return std::atan2(-across.x(), across.y());
  };
  const double before = heading();
  const double thrust = pose_at(rig, raised(0, 0.120)).values[kThrustAngle];
  // The axle rolls a little as well, and the two directions are not the same one: not to the last digit.
  EXPECT_NEAR(thrust - from_deg(0.4), heading() - before, 1e-5);
  EXPECT_GT(std::abs(heading() - before), from_deg(0.1));
}

TEST(RearAxle, LeanSteerIsTheSlopeOfItsThrustAngle) {
  Rig rig(truck_of(kLinked));
  constexpr double kStep = 1e-4;  // [rad]
  PoseRequest request = raised(0.040, 0.120);
  request.lean = from_deg(1);
  const double slope = pose_at(rig, request).values[kRearLeanSteer];
  request.lean += kStep;
  const double over = pose_at(rig, request).values[kThrustAngle];
  request.lean -= 2 * kStep;
  const double under = pose_at(rig, request).values[kThrustAngle];
  EXPECT_NEAR(slope, (over - under) / (2 * kStep), 1e-7);
  EXPECT_GT(std::abs(slope), 0.05);
}

// Straight ahead is where the rear axle drives. So the front end does at each pose what it does on a truck without a rear axle whose
// given thrust angle is that of the pose.
TEST(RearAxle, SetsStraightAheadAsAGivenThrustAngleDoes) {
  for (const char* file : {kLinked, kAsMeasured}) {
    Rig rig(truck_of(file));
    for (const double rear : {0.0, 0.090, 0.160}) {
      for (const double lean_deg : {0.0, -2.0}) {
        PoseRequest request = raised(0.060, rear);
        request.lean = from_deg(lean_deg);
        request.travel = 0.015;
        const PoseResult pose = pose_at(rig, request);
        Truck front = rig.truck();
        front.rear_wheels.reset();
        front.thrust_angle = pose.values[kThrustAngle];
        const auto is_rear = [](const auto& item) { return item.name.rfind("rear_", 0) == 0; };
        front.parts.erase(std::remove_if(front.parts.begin(), front.parts.end(), is_rear),
                          front.parts.end());
        front.points.erase(std::remove_if(front.points.begin(), front.points.end(), is_rear),
                           front.points.end());
        Rig other(front);
        const PoseResult same = pose_at(other, request);
        for (int q = 0; q < kFixedQuantities; ++q) {
          // Off centre and walk count from another aligned pose.
          if (q == kSteeringWheelOffCentre || q == kAxleWalkSide || q == kAxleWalkForward) continue;
          if (std::isnan(same.values[index(q)])) continue;
          EXPECT_NEAR(pose.values[index(q)], same.values[index(q)],
                      (q == kSteeringWheel ? 16 / 0.165 : 1) * kSolved)
              << rig.quantities()[index(q)].key;
        }
      }
    }
  }
}

TEST(RearAxle, LeavesTheRoadWheelsWhereTheyAreAsked) {
  Rig rig(truck_of(kLinked));
  PoseRequest request = raised(0.030, 0.140);
  request.steer_by = SteerBy::road_wheels;
  request.steer = from_deg(5);
  EXPECT_NEAR(to_deg(pose_at(rig, request).values[kMeanSteer]), 5, 1e-8);
  // And again straight ahead, by way of the other followers.
  request.steer_by = SteerBy::straight_ahead;
  const PoseResult straight = pose_at(rig, request);
  EXPECT_NEAR(straight.values[kMeanSteer], straight.values[kThrustAngle], kSolved);
}

// The shop centres the steering wheel with the rear where it says.
TEST(RearAxle, IsAlignedAtItsOwnHeight) {
  Truck truck = truck_of(kLinked);
  truck.aligned_height = 0.060;
  truck.aligned_rear_height = 0.110;
  Rig rig(truck);
  const PoseResult there = pose_at(rig, raised(0.060, 0.110));
  EXPECT_GT(std::abs(there.values[kSteeringWheel]), from_deg(1));
  EXPECT_NEAR(there.values[kSteeringWheelOffCentre], 0, 1e-8);
  EXPECT_NEAR(there.values[kRearWalkSide], 0, kSolved);
  EXPECT_GT(std::abs(pose_at(rig, raised(0.060, 0)).values[kRearWalkSide]), 1e-3);
}

// Definition 12, by hand on a level road: the wheel's axis line and the rear axle's meet where the law of sines says.
TEST(RearAxle, TurnsAboutItsOwnLine) {
  Truck truck = straight_rear();
  truck.axle_stops.turn_left = truck.axle_stops.turn_right = from_deg(28);
  truck.rear_wheels->square_to_centres = false;
  for (const double thrust_deg : {0.0, 1.5, -1.0}) {
    truck.thrust_angle = from_deg(thrust_deg);
    Rig rig(truck);
    const LockSide left = find_lock(rig, {}).left;
    ASSERT_TRUE(left.reached) << left.stop;
    // Upright kingpins and a level road: the contact stands below the hub, straight on from the wheel's heading.
    const Vec3 hub_to_kingpin(0, 0.875 - 0.7075, 0);
    const double turn = left.outer, thrust = truck.thrust_angle;
    const Vec3 contact(hub_to_kingpin.y() * std::sin(turn),
                       -0.7075 - hub_to_kingpin.y() * std::cos(turn), 0);
    const double ahead = (contact.x() + 4.0) * std::cos(thrust) + contact.y() * std::sin(thrust);
    EXPECT_NEAR(left.turning_circle, 2 * std::abs(ahead / std::sin(turn - thrust)), 1e-9);
  }
}

TEST(RearAxle, GoesUpWithTheFrontWhereAsked) {
  Rig rig(truck_of(kLinked));
  SweepPlan plan = sweep_plan(rig.truck(), 4);
  plan.rear_with_front = true;
  const Sweep sweep = run_sweep(rig, plan);
  ASSERT_EQ(sweep.rows.size(), 4u);
  for (const HeightRow& row : sweep.rows) {
    EXPECT_EQ(row.rolling.request.rear_height, row.height);
    Rig alone(truck_of(kLinked));
    const PoseResult pose = pose_at(alone, raised(row.height, row.height));
    EXPECT_NEAR(row.rolling.values[kThrustAngle], pose.values[kThrustAngle], kSolved);
  }
  EXPECT_EQ(sweep.refused, 0);
}

// ---- the lesson of tests/layouts/rear_axle.toml

// Raising the rear swings its track bar: the axle walks. Its lower links differ: it steers as well, and the steering wheel follows.
TEST(RearAxleLesson, UnequalLinksTurnTheSteeringWheelAsTheRearRises) {
  Rig rig(truck_of(kLinked));
  double before = 0;
  for (const double rear : {0.050, 0.100, 0.150}) {
    const PoseResult pose = pose_at(rig, raised(0, rear));
    // The left link slopes more and so draws its side forward faster: the axle turns to the right.
    EXPECT_LT(pose.values[kThrustAngle], 0);
    EXPECT_GT(pose.values[kRearWalkSide], before);
    before = pose.values[kRearWalkSide];
    // The wheel goes to the right by the steering ratio; the ratio changes little over so small an angle.
    EXPECT_NEAR(pose.values[kSteeringWheelOffCentre] /
                    (pose.values[kThrustAngle] * pose.values[kSteeringRatio]),
                1, 0.02);
  }
  EXPECT_GT(before, 0.030);
  EXPECT_GT(std::abs(pose_at(rig, raised(0, 0.100)).values[kSteeringWheelOffCentre]), from_deg(3));
}

// The same on trucks/two-axle.toml, whose front end keeps the steering wheel centred by itself.
TEST(RearAxleLesson, AGuidedFrontEndFollowsItsRearAxle) {
  Rig rig(truck_of("trucks/two-axle.toml"));
  const double top = rig.truck().height_range[1];
  EXPECT_LT(std::abs(pose_at(rig, raised(top, 0)).values[kSteeringWheelOffCentre]), from_deg(0.05));
  const PoseResult pose = pose_at(rig, raised(top, top));
  EXPECT_GT(std::abs(pose.values[kThrustAngle]), from_deg(0.2));
  EXPECT_GT(std::abs(pose.values[kSteeringWheelOffCentre]), from_deg(3));
  EXPECT_GT(std::abs(pose.values[kRearWalkSide]), 0.030);
  EXPECT_LT(std::abs(pose.values[kAxleWalkSide]), 1e-3);
}

// Cured: lower links alike on both sides. The axle still walks, and nothing steers.
TEST(RearAxleLesson, LinksAlikeOnBothSidesSteerNothing) {
  Truck truck = truck_of(kLinked);
  for (Point& point : truck.points) {
    if (point.name == "rear_lower_link_frame_right") point.at = {-2.960, -0.520, 0.470};
  }
  Rig rig(truck);
  const PoseResult pose = pose_at(rig, raised(0, 0.150));
  EXPECT_GT(pose.values[kRearWalkSide], 0.030);
  EXPECT_NEAR(pose.values[kThrustAngle], 0, kSolved);
  EXPECT_NEAR(pose.values[kSteeringWheelOffCentre], 0, 1e-8);
}

}  // namespace
}  // namespace axlewright
