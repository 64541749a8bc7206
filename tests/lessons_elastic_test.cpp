// What the example trucks on rubber and springs are there to show, held to closed forms of their own geometry.

#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/solve/fight.h"
#include "engine/study/sweep.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::place_of;
using testing::truck_of;

constexpr const char* kRadiusArm = "trucks/radius-arm.toml";
constexpr const char* kLeaf = "trucks/leaf.toml";

PoseResult straight_at(Rig& rig, double height, double rear_height = 0) {
  PoseRequest request;
  request.height = height;
  request.rear_height = rear_height;
  PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose;
}

double top_of(const Rig& rig) {
  return rig.truck().height_range[1];
}

Vec3 middle_of(Rig& rig, const std::string& a, const std::string& b) {
  return 0.5 * (place_of(rig, a) + place_of(rig, b));
}

// An arm of R bolted to the axle turns it by asin((v + h)/R) - asin(v/R) as the frame rises by h, v its drop as measured
// (kinematics reference 8.2); the rear raised alike, so that the truck does not tip.
TEST(RadiusArms, TurnTheAxleByTheirArcSoTheCasterGoes) {
  // The arms' bushes stretch a little against the track bar, which wants the axle elsewhere.
  constexpr double kGivenByBushes = 0.15;  // [deg]
  Rig rig(truck_of(kRadiusArm));
  const double caster_low = straight_at(rig, 0).values[kCasterLeft];
  const Vec3 arm =
      middle_of(rig, "arm_front_left", "arm_rear_left") - place_of(rig, "arm_frame_left");
  const double drop = -arm.z(), length = std::hypot(arm.x(), arm.z());
  const double top = top_of(rig);
  const double lost = caster_low - straight_at(rig, top, top).values[kCasterLeft];
  const double arc = std::asin((drop + top) / length) - std::asin(drop / length);
  EXPECT_GT(to_deg(arc), 13);
  EXPECT_NEAR(to_deg(lost), to_deg(arc), kGivenByBushes);
  // So much that the truck stands on caster of the wrong sign.
  EXPECT_LT(straight_at(rig, top).values[kCasterLeft], 0);
}

// Leaned by a, one arm's axle end rises by half the arms' distance times a, the other sinks: they turn against each other by twice that
// over the arm's length, and with the axle stiff between them a bolt at the end of one misses by that angle times the distance of the two
// bolts.
TEST(RadiusArms, PartInALeanByTheTwistBetweenThem) {
  constexpr double kFlat = 0.03;  // the arms are taken as level and straight
  Rig rig(truck_of(kRadiusArm));
  ASSERT_TRUE(rig.solve({}).report.usable());
  const Expansion& x = rig.expansion();
  PoseRequest lean;
  lean.lean = from_deg(1);
  lean.steer_by = SteerBy::pitman;
  const Fight fight = find_fight(
      rigid_of(x.mechanism), {x.height.left, x.height.right, x.pitman_turn}, rig.inputs_for(lean));
  EXPECT_TRUE(fight.one_opens);
  ASSERT_GE(fight.gaps.size(), 4u);
  const double apart = 2 * place_of(rig, "arm_rear_left").y();
  const double bolts = (place_of(rig, "arm_front_left") - place_of(rig, "arm_rear_left")).norm();
  // Opened at its rear bolt an arm still turns about the front one, and the other way round.
  const double arm = place_of(rig, "arm_front_left").x() - place_of(rig, "arm_frame_left").x();
  const double expected = apart * std::sin(lean.lean) / arm * bolts;
  EXPECT_NEAR(fight.gaps.front().gap, expected, kFlat * expected);
}

TEST(RadiusArms, LeanAllTheSameOnTheirRubber) {
  Rig rig(truck_of(kRadiusArm));
  EXPECT_FALSE(rig.held().assembly().bushes.empty());
  PoseRequest lean;
  lean.lean = rig.truck().lean;
  EXPECT_TRUE(rig.solve(lean).report.usable());
}

// Springs alike on both sides carry the axle straight up and down.
TEST(LeafSprings, KeepTheAxleWhereItIsSideways) {
  Rig rig(truck_of(kLeaf));
  // The drag link pulls on nothing: with wheels free to steer nothing pushes the axle sideways.
  EXPECT_NEAR(straight_at(rig, top_of(rig)).values[kAxleWalkSide], 0, 1e-9);
}

// So all of the drag link's arc goes into the steering: the ball on the knuckle is drawn in by sqrt(L^2 - v^2) - sqrt(L^2 - (v + h)^2), and
// the pitman arm follows it (kinematics reference 5.1).
TEST(LeafSprings, GiveAllOfTheDragLinksArcToTheSteeringWheel) {
  constexpr double kFlat =
      0.06;  // the axle also goes fore-aft and pitches, and the arm is not square to the link
  Rig rig(truck_of(kLeaf));
  straight_at(rig, 0);
  const Vec3 link = place_of(rig, "pitman_ball") - place_of(rig, "drag_link_knuckle");
  const Vec3 arm = place_of(rig, "pitman_ball") - place_of(rig, "sector_shaft_low");
  const double top = top_of(rig);
  const double length = link.norm(), drop = link.z();
  const double arc = std::sqrt(length * length - drop * drop) -
                     std::sqrt(length * length - (drop + top) * (drop + top));
  const double wheel =
      rig.truck().gear.ratio.front().ratio * std::asin(arc / std::hypot(arm.x(), arm.y()));
  const double off_centre = straight_at(rig, top).values[kSteeringWheelOffCentre];
  EXPECT_GT(to_deg(wheel), 100);
  EXPECT_NEAR(std::abs(off_centre), wheel, kFlat * wheel);
}

// The same spring in six pieces a half: the three-link equivalent carries the axle to the same place within a few millimetres.
TEST(LeafSprings, ThreeLinksAreNearlyWhatPiecesAre) {
  constexpr double kPlace = 0.004;  // [m]
  constexpr double kPitch = from_deg(0.5);
  Truck pieces = truck_of(kLeaf);
  for (Part& part : pieces.parts) {
    if (auto* leaf = std::get_if<LeafSpring>(&part.what)) leaf->pieces = 6;
  }
  Rig three(truck_of(kLeaf)), six(pieces);
  for (const double share : {0.5, 1.0}) {
    const PoseResult a = straight_at(three, share * top_of(three));
    const PoseResult b = straight_at(six, share * top_of(six));
    EXPECT_NEAR(a.values[kAxleWalkForward], b.values[kAxleWalkForward], kPlace);
    EXPECT_NEAR(a.values[kCasterLeft], b.values[kCasterLeft], kPitch);
    EXPECT_NEAR(a.values[kSteeringWheelOffCentre], b.values[kSteeringWheelOffCentre],
                0.05 * std::abs(a.values[kSteeringWheelOffCentre]));
  }
}

}  // namespace
}  // namespace axlewright
