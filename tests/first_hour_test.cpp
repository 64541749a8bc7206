// What a practitioner tries in the first hour: the geometric rows of the first-hour checks, each by its number and with what it
// rests on. Row 8 and the first half of row 10 stand in engine/solve/follower_test.cpp; row 9 is about forces.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/guided_bar.h"
#include "tests/support/guided_steering.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::CrossBar;
using testing::guided_steering;
using testing::GuidedBarAlone;
using testing::GuidedSteering;
using testing::GuidedSteeringShape;
using testing::GuideEnd;
using testing::place_of;
using testing::StraightAxle;
using testing::truck_of;

constexpr double kPrinted = 6e-7;     // [m] half of the last digit where mm are printed to 0.001
constexpr double kPrintedDeg = 6e-4;  // [deg] the same for degrees
constexpr double kExact =
    1e-12;  // [m] where the closed form is a straight line: the solve stops at 1e-10 and converges squarely

/// Through-link of 900 at a drop of H: sin(angle) = H / 900.
double near_end_across_mm(GuidedBarAlone& bar, double drop, double guide_above) {
  return to_mm(bar.near_end(drop + guide_above).y());
}

// Row 1, derived here: near end on the line, guide end at sqrt(900^2 - H^2).
TEST(FirstHour, Row1NearEndStaysOnItsLine) {
  GuidedBarAlone bar({});
  for (const double drop : {0.090, 0.240, 0.390}) {
    EXPECT_NEAR(bar.near_end(drop).y(), 0, kExact);
  }
  bar.near_end(0.090);
  EXPECT_NEAR(bar.guide_end_across(), 0.895489, kPrinted);
  bar.near_end(0.240);
  EXPECT_NEAR(bar.guide_end_across(), 0.867410, kPrinted);
  bar.near_end(0.390);
  EXPECT_NEAR(bar.guide_end_across(), 0.811110, kPrinted);
}

// Row 2, derived here: guide's line 3 above the pivot. The spread over the range is 6.4 deg of steering wheel at 16:1 and a
// pitman arm of 165.
TEST(FirstHour, Row2GuideAboveThePivotTiltsThePath) {
  GuidedBarAlone bar({.guide_above = 0.003});
  const double low = near_end_across_mm(bar, 0.090, 0.003);
  const double high = near_end_across_mm(bar, 0.390, 0.003);
  EXPECT_NEAR(low, -0.312, 6e-4);
  EXPECT_NEAR(near_end_across_mm(bar, 0.240, 0.003), -0.841, 6e-4);
  EXPECT_NEAR(high, -1.456, 6e-4);
  EXPECT_NEAR(low - high, 1.14, 6e-3);
  EXPECT_NEAR(16 * to_deg(std::asin((low - high) / 165)), 6.4, 0.06);
}

// Row 3, derived here: middle pin 1 off the line of the ends; half a turn of the link puts it on the other side.
TEST(FirstHour, Row3MiddlePinOffTheLineIsPlay) {
  GuidedBarAlone below({.pin_off = -0.001});
  GuidedBarAlone above({.pin_off = 0.001});
  EXPECT_NEAR(to_mm(below.near_end(0.390).y()), 0.865, 6e-4);
  EXPECT_NEAR(to_mm(above.near_end(0.390).y()), -0.868, 6e-4);
}

// Definition 5: a rear axle that drives the truck to one side is steered against; off centre is still told from the aligned height.
TEST(FirstHour, AThrustAngleIsSteeredAlong) {
  Truck truck = truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{.drop = 0.2}});
  Rig without(truck);
  truck.thrust_angle = from_deg(0.5);
  Rig with(truck);
  for (const double height : {0.0, 0.150}) {
    PoseRequest request;
    request.height = height;
    const PoseResult rolling = with.solve(request);
    EXPECT_NEAR(rolling.values[kMeanSteer], from_deg(0.5), 1e-12);
    request.steer_by = SteerBy::road_wheels;
    request.steer = from_deg(0.5);
    EXPECT_NEAR(rolling.values[kSteeringWheel], without.solve(request).values[kSteeringWheel],
                1e-9);
    if (height == 0) {
      EXPECT_NEAR(rolling.values[kSteeringWheelOffCentre], 0, 1e-12);
    }
  }
}

struct Raised {
  double walk, wheel;  // [m], [rad], rolling
};

Raised raise(Rig& rig, double height) {
  PoseRequest request;
  request.height = height;
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  if (!pose.report.usable()) return {};
  return {pose.values[kAxleWalkSide], pose.values[kSteeringWheelOffCentre]};
}

// Row 4, derived here: equal and parallel bars. The axle goes to the side of its frame end, here the left, as the bar steepens.
TEST(FirstHour, Row4EqualParallelBarsWalkButDoNotSteer) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}}));
  for (const auto& [height, walk] : {std::pair{0.125, 0.017217}, std::pair{0.250, 0.053072}}) {
    const Raised raised = raise(rig, height);
    EXPECT_NEAR(raised.walk, walk, kPrinted);
    EXPECT_NEAR(raised.wheel, 0, 1e-10);  // exact parallelogram; 1e-12 m on 165 mm, times 16
  }
}

// Row 5, derived here: as row 4 with the drag link 1000. The shorter bar pulls further, so the pitman ball has to follow.
TEST(FirstHour, Row5LongerDragLinkTurnsTheWheel) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{.length = 1.000}}));
  EXPECT_NEAR(std::abs(to_deg(raise(rig, 0.125).wheel)), 9.762, kPrintedDeg);
  EXPECT_NEAR(std::abs(to_deg(raise(rig, 0.250).wheel)), 31.175, kPrintedDeg);
}

// Row 6, derived here: guided steering on a plain track bar puts the bar's whole walk into the steering.
TEST(FirstHour, Row6GuidedSteeringOnATrackBarIsWorst) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{.length = 0.850, .drop = 0.150}}));
  const Raised raised = raise(rig, 0.025);
  EXPECT_NEAR(raised.walk, 0.004870, kPrinted);
  EXPECT_NEAR(std::abs(to_deg(raised.wheel)), 27.06, 6e-3);
  PoseRequest held;
  held.height = 0.025;
  held.steer_by = SteerBy::held;
  const PoseResult pose = rig.solve(held);
  ASSERT_TRUE(pose.report.usable());
  EXPECT_NEAR(std::abs(to_deg(pose.values[kMeanSteer])), 1.641, kPrintedDeg);
}

/// The row tells steer against the axle; ours is about frame z (definition 7), larger by 1 / cos(lean) to first order.
struct Leaned {
  double rod_mm, steer_deg, frame_steer_deg;
};

Leaned lean(double kpi_deg, double caster_deg, double drop, double lean_deg) {
  Rig rig(truck_of(StraightAxle{.kpi_deg = kpi_deg,
                                .caster_deg = caster_deg,
                                .locator_below_pitman_ball = 0.150,
                                .steering_drop = drop}));
  PoseRequest request;
  request.lean = from_deg(lean_deg);
  request.steer_by = SteerBy::held;
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  if (!pose.report.usable()) return {};
  // The tie rod's middle, seen from the axle.
  const Expansion& x = rig.expansion();
  const Pose& axle = rig.follower().kinematics().pose[static_cast<std::size_t>(x.axle.value)];
  const Vec3 middle =
      0.5 * (place_of(rig, "tie_rod_ball_left") + place_of(rig, "tie_rod_ball_right"));
  const Vec3 in_axle = axle.R.transpose() * (middle - axle.t);
  const auto steer_in_axle = [&](AxisId stub) {
    const Axis& axis = x.mechanism.axis(stub);
    const Pose& knuckle =
        rig.follower().kinematics().pose[static_cast<std::size_t>(axis.body.value)];
    return heading_of<double>(axle.R.transpose() * knuckle.turn(axis.direction));
  };
  return {to_mm(in_axle.y()),
          to_deg(0.5 * (steer_in_axle(x.stub.left) + steer_in_axle(x.stub.right))),
          to_deg(pose.values[kMeanSteer])};
}

// Row 7, confirmed by two independent solvers. The frame's left side goes up, the tie rod to the right, the wheels steer right.
TEST(FirstHour, Row7LeanSteersByTheHeightBetweenTheFreeEnds) {
  const Leaned upright = lean(0, 0, 0.270, 3);
  EXPECT_NEAR(upright.rod_mm, -7.850, 6e-4);
  EXPECT_NEAR(upright.steer_deg, -2.647, kPrintedDeg);
  // Upright kingpins keep the stub in the axle's plane: in frame axes its sideways part alone shrinks, by cos 3.
  EXPECT_NEAR(std::tan(from_deg(upright.frame_steer_deg)),
              std::tan(from_deg(upright.steer_deg)) / std::cos(from_deg(3)), 1e-12);
  struct Row {
    double drop, rod_mm, steer_deg;
  };
  for (const Row& row :
       {Row{0.120, 8.067, 2.720}, Row{0.270, 8.355, 2.817}, Row{0.390, 8.602, 2.900}}) {
    const Leaned leaned = lean(9, 5, row.drop, 3);
    EXPECT_NEAR(leaned.rod_mm, -row.rod_mm, 6e-4) << row.drop;
    EXPECT_NEAR(leaned.steer_deg, -row.steer_deg, kPrintedDeg) << row.drop;
    const double closed =
        to_deg(std::asin(0.150 * std::sin(from_deg(3)) /
                         (1 - 2 * row.drop * std::tan(from_deg(9)) / 1.415) / 0.170));
    EXPECT_NEAR(leaned.steer_deg, -closed, 1e-3) << row.drop;
    const Leaned mirrored = lean(9, 5, row.drop, -3);
    EXPECT_NEAR(mirrored.rod_mm, -leaned.rod_mm, 1e-6) << row.drop;
    EXPECT_NEAR(mirrored.steer_deg, -leaned.steer_deg, 1e-6) << row.drop;
  }
}

/// Mobility with the steering free, as the row counts it, and the names of what is loose with it held.
struct Looseness {
  int mobility = 0;
  std::vector<std::string> names;
};

Looseness looseness(const GuidedSteeringShape& shape) {
  const GuidedSteering g = guided_steering(shape);
  const Assembly a = assemble(g.mechanism, {g.pitman});
  EXPECT_EQ(a.soundness, Soundness::sound) << a.message;
  Looseness found{a.mobility + 1, {}};
  for (const LooseMotion& motion : a.loose) found.names.push_back(motion.name);
  return found;
}

bool names_the_tie_rod(const Looseness& found) {
  return std::count(found.names.begin(), found.names.end(), "tie rod: turns about its own line") ==
         1;
}

// Row 10, confirmed by two independent solvers: 42 - 15 - 18 - 5 = 4, steering and three spins.
TEST(FirstHour, Row10MobilityOfGuidedSteering) {
  const Looseness balls = looseness({});
  EXPECT_EQ(balls.mobility, 4);
  EXPECT_TRUE(names_the_tie_rod(balls));
  const Looseness distance = looseness({.half_link = HalfLink::distance});
  EXPECT_EQ(distance.mobility, 3);
  EXPECT_TRUE(names_the_tie_rod(distance));
  const Looseness turning = looseness({.guide_end = GuideEnd::slide_that_turns});
  EXPECT_EQ(turning.mobility, 5);
  EXPECT_TRUE(names_the_tie_rod(turning));
  const Looseness pinned = looseness({.half_link = HalfLink::pinned_body});
  EXPECT_EQ(pinned.mobility, 2);
  EXPECT_TRUE(names_the_tie_rod(pinned));
}

double mean_steer_deg(const GuidedSteeringShape& shape, double pitman_left_deg) {
  const GuidedSteering g = guided_steering(shape);
  PathFollower f(assemble(g.mechanism, {g.pitman}));
  const SolveReport& report = f.go_to({from_deg(-pitman_left_deg)});
  EXPECT_TRUE(report.usable()) << report.message;
  double mean = 0;
  for (const AxisId stub : {g.stub.left, g.stub.right}) {
    const Pose& knuckle =
        f.kinematics().pose[static_cast<std::size_t>(g.mechanism.axis(stub).body.value)];
    mean += 0.5 * to_deg(heading_of<double>(knuckle.turn(Vec3::UnitY())));
  }
  return mean;
}

/// Steer per degree of the tie rod's turn about its own line, by a degree either way; H 270, pitman 30 to the left, arm balls 25
/// outboard.
double steer_per_spin(double guide_toed_deg) {
  GuidedSteeringShape shape{
      .drop = 0.270, .balls_outboard = 0.025, .guide_toed_deg = guide_toed_deg};
  shape.rod_kept_at_deg = 1;
  const double over = mean_steer_deg(shape, 30);
  shape.rod_kept_at_deg = -1;
  return (over - mean_steer_deg(shape, 30)) / 2;
}

// Row 10, confirmed by two independent solvers: the tie rod's spin is idle while the guide is parallel to its balls' line; toed
// 1 deg in plan it steers.
TEST(FirstHour, Row10TieRodSpinIsIdleUntilTheGuideIsToed) {
  EXPECT_NEAR(steer_per_spin(0), 0, 1e-9);
  const double toed = std::abs(steer_per_spin(1));
  EXPECT_GT(toed, 0.03);
  EXPECT_LT(toed, 0.04);
}

// Row 11, confirmed: the left wheel alone in a bump of 100, at places 1750 apart fixed on the axle.
TEST(FirstHour, Row11OneWheelInABumpClosesLikeALean) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}}));
  PoseRequest bump;
  bump.travel_left = 0.100;
  const PoseResult pose = rig.solve(bump);
  ASSERT_TRUE(pose.report.usable());
  const Vec3 left = place_of(rig, "wheel_centre_left"), right = place_of(rig, "wheel_centre_right");
  EXPECT_NEAR(to_deg(std::asin((left - right).z() / (left - right).norm())), 3.276, kPrintedDeg);
  EXPECT_NEAR(0.5 * (left + right).z() - 0.460, 0.050, kExact);

  PoseRequest leaning;
  leaning.travel = 0.050;
  leaning.lean = -std::asin(0.100 / 1.750);
  EXPECT_NEAR(to_deg(leaning.lean), -3.276, kPrintedDeg);
  const PoseResult alike = rig.solve(leaning);
  ASSERT_TRUE(alike.report.usable());
  EXPECT_LT((place_of(rig, "wheel_centre_left") - left).norm(), kExact);
  EXPECT_LT((place_of(rig, "track_bar_axle") - place_of(rig, "track_bar_frame")).norm() - 0.9,
            kExact);
  EXPECT_NEAR(alike.values[kMeanSteer], pose.values[kMeanSteer], 1e-10);
  // Definition 2: the road stays level under a bump and leans with the frame, so camber to it differs by the lean.
  EXPECT_NEAR(to_deg(alike.values[kCamberLeft] - pose.values[kCamberLeft]), 3.276, kPrintedDeg);
}

// Row 12, derived here: the front alone goes up 250 on a wheelbase of 4000, the axle keeps its angle in the frame.
TEST(FirstHour, Row12RaisingTheFrontAloneAddsCaster) {
  Rig rig(truck_of(StraightAxle{.kpi_deg = 9,
                                .caster_deg = 5,
                                .wheelbase = 4.0,
                                .track_bar = CrossBar{},
                                .drag_link = CrossBar{}}));
  PoseRequest raised;
  raised.height = 0.250;
  const double low = rig.solve({}).values[kCasterLeft];
  const double high = rig.solve(raised).values[kCasterLeft];
  EXPECT_NEAR(to_deg(high - low), 3.576, kPrintedDeg);
  EXPECT_NEAR(high - low, std::atan(0.250 / 4.0), 1e-12);
  raised.rear_height = 0.250;
  EXPECT_NEAR(rig.solve(raised).values[kCasterLeft], low, 1e-12);
}

}  // namespace
}  // namespace axlewright
