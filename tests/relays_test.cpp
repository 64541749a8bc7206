// Steering that goes through relays, bars that end on bars, and the other hand: closed forms, symmetries, and what such layouts do.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "tests/support/changed_truck.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::mirrored;
using testing::place_of;
using testing::truck_of;

Rig rig_of(const std::string& layout) {
  return Rig(truck_of("tests/layouts/" + layout + ".toml"));
}

double value_of(const Rig& rig, const PoseResult& pose, const std::string& key) {
  for (std::size_t k = 0; k < pose.values.size(); ++k) {
    if (rig.quantities()[k].key == key) return pose.values[k];
  }
  ADD_FAILURE() << "no quantity " << key;
  return NAN;
}

PoseResult posed(Rig& rig, const PoseRequest& request) {
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose;
}

PoseRequest pitman_turned(double turn_deg) {
  PoseRequest request;
  request.steer_by = SteerBy::pitman;
  request.steer = from_deg(turn_deg);
  return request;
}

/// Turn of an output crank about `axis` through `centre` for the input ball at `input`, by the closed form of McCarthy & Soh, Geometric
/// Design of Linkages (2nd ed. 2011), Appendix A.1: A cos(psi) + B sin(psi) = C, with the coefficients of the kinematics references,
/// 3.5. `start`: the output ball at turn zero. Of the two turns the one nearest to zero.
double output_turn(const Vec3& input, const Vec3& centre, const Vec3& axis, const Vec3& start,
                   double rod) {
  const Vec3 foot = centre + axis * axis.dot(start - centre);
  const Vec3 arm = start - foot;
  const double radius = arm.norm();
  const Vec3 u = arm / radius, v = cross(axis, u), d = input - foot;
  const double a = 2 * radius * d.dot(u), b = 2 * radius * d.dot(v);
  const double c = radius * radius + d.squaredNorm() - rod * rod;
  const double middle = std::atan2(b, a), half = std::acos(c / std::hypot(a, b));
  const auto nearest = [](double angle) { return std::remainder(angle, 2 * from_deg(180)); };
  const double first = nearest(middle + half), second = nearest(middle - half);
  return std::abs(first) < std::abs(second) ? first : second;
}

// Pitman arm and relay both stand on the frame: whatever the axle does, the relay turns as the link between them says.
TEST(Relay, TurnsAsTheClosedFormOfItsLinkSays) {
  Rig rig = rig_of("relay_two_arms");
  posed(rig, {});
  const Vec3 start = place_of(rig, "relay_arm_in");
  const Vec3 low = place_of(rig, "relay_low"), high = place_of(rig, "relay_high");
  const double rod = (place_of(rig, "pitman_ball") - start).norm();
  for (const double turn : {-25.0, -10.0, 10.0, 25.0}) {
    for (const double height : {0.0, 0.150}) {
      PoseRequest request = pitman_turned(turn);
      request.height = height;
      const PoseResult pose = posed(rig, request);
      EXPECT_NEAR(
          value_of(rig, pose, "turn.relay"),
          output_turn(place_of(rig, "pitman_ball"), low, (high - low).normalized(), start, rod),
          1e-9)
          << turn;
    }
  }
}

// An idler whose arm is that of the pitman arm makes a parallelogram: the centre link keeps its direction and the idler turns with it.
TEST(Relay, IdlerTurnsWithThePitmanArm) {
  Rig rig = rig_of("relay_idler");
  for (const double turn : {-20.0, 15.0}) {
    const PoseResult pose = posed(rig, pitman_turned(turn));
    // The shaft points up and the arm turns clockwise as the wheel turns left.
    EXPECT_NEAR(value_of(rig, pose, "turn.idler"), from_deg(-turn), 1e-9);
    const Vec3 link = place_of(rig, "pitman_ball") - place_of(rig, "idler_ball");
    EXPECT_NEAR(link.x(), 0, 1e-10);
  }
}

// Halves of a tie rod that end on the axle move with it: whatever else a rise does, both wheels steer as the relay turns.
TEST(Relay, OnTheAxleKeepsTheToeAtEveryHeight) {
  Rig rig = rig_of("relay_centre");
  for (const double height : {0.0, 0.090, 0.180}) {
    PoseRequest request;
    request.height = height;
    const PoseResult pose = posed(rig, request);
    // As measured the halves are equal left and right, and going straight the relay stands in the middle.
    EXPECT_NEAR(value_of(rig, pose, "turn.centre_relay"), 0, 1e-9) << height;
    EXPECT_NEAR(pose.values[kToe], 0, 1e-9) << height;
  }
}

double toe_change(const std::string& layout) {
  Rig rig = rig_of(layout);
  PoseRequest top;
  top.height = rig.truck().height_range[1];
  const double low = posed(rig, {}).values[kToe];
  return posed(rig, top).values[kToe] - low;
}

// The tie rod hangs on the drag link, which slopes more as the truck rises: it steers one wheel against the other. Between the two
// knuckles it stays on the axle.
TEST(InvertedY, ChangesToeWithHeight) {
  EXPECT_LT(std::abs(to_deg(toe_change("three_links"))), 1e-6);
  EXPECT_GT(std::abs(to_deg(toe_change("inverted_y"))), 0.2);
  EXPECT_GT(std::abs(to_deg(toe_change("inverted_y_boss"))), 0.2);
}

// In a boss off the drag link's line the tie rod's ball goes up and down as the drag link rolls over, and then the toe is not held.
TEST(InvertedY, BossOffTheLineLetsTheDragLinkRollAndMoveTheTieRod) {
  for (const bool boss : {false, true}) {
    Rig rig = rig_of(boss ? "inverted_y_boss" : "inverted_y");
    PoseRequest turned;
    turned.height = 0.090;
    turned.steer_by = SteerBy::road_wheels;
    turned.steer = from_deg(15);
    posed(rig, turned);
    ASSERT_EQ(rig.follower().assembly().loose.size(), 1u);
    const double toe = rig.motion_effect(rig.follower().assembly().loose[0])[kToe];
    // Of an idle spin nothing is left but rounding over a solve to 1e-10 m.
    constexpr double kIdle = 1e-7, kSeen = 1e-3;
    EXPECT_EQ(std::abs(toe) > kSeen, boss);
    EXPECT_EQ(std::abs(toe) < kIdle, !boss);
  }
}

// A tie rod behind the axle has its balls inboard of the kingpins, so that in a turn the inner wheel is steered the more, as one ahead
// has them outboard.
TEST(TieRod, AheadOutboardAndBehindInboardTurnTheInnerWheelMore) {
  for (const char* layout : {"tie_rod_front", "tie_rod_rear"}) {
    Rig rig = rig_of(layout);
    PoseRequest left;
    left.steer_by = SteerBy::road_wheels;
    left.steer = from_deg(15);
    const PoseResult pose = posed(rig, left);
    EXPECT_GT(pose.values[kSteerLeft], pose.values[kSteerRight] + from_deg(0.2)) << layout;
  }
}

// The same truck with everything on the other side does the same to the other side.
TEST(RightHandDrive, IsLeftHandDriveInAMirror) {
  Rig right = rig_of("right_hand_drive"), left = rig_of("three_links");
  Rig mirror(mirrored(left.truck()));
  for (const double height : {0.0, 0.120}) {
    for (const double wheel : {-300.0, 0.0, 200.0}) {
      PoseRequest request;
      request.height = height;
      request.steer_by = SteerBy::steering_wheel;
      request.steer = from_deg(wheel);
      const PoseResult there = posed(right, request);
      const PoseResult same = posed(mirror, request);
      request.steer = -request.steer;
      const PoseResult other = posed(left, request);
      for (const int q : {kMeanSteer, kAxleWalkSide, kBumpSteer, kAxleYaw}) {
        EXPECT_NEAR(there.values[index(q)], same.values[index(q)], 1e-10);
        EXPECT_NEAR(there.values[index(q)], -other.values[index(q)], 1e-10);
      }
      EXPECT_NEAR(there.values[kSteeringRatio], other.values[kSteeringRatio], 1e-7);
      EXPECT_NEAR(there.values[kToe], other.values[kToe], 1e-10);
    }
  }
}

}  // namespace
}  // namespace axlewright
