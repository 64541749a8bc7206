// Every kind of part and joint that a truck file can spell, as small trucks in tests/layouts. Each file opens with its count by
// hand of what is held and what is loose; this table repeats the outcome of that count, and the engine has to find it by rank and
// null space.

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::place_of;
using testing::truck_of;

struct Layout {
  const char* file;
  std::vector<const char*> loose;  ///< with height, lean and pitman arm held
};

void PrintTo(const Layout& layout, std::ostream* out) {
  *out << layout.file;
}

constexpr const char* kDragLinkTurns = "drag link: turns about its own line";
constexpr const char* kTieRodTurns = "tie rod: turns about its own line";
constexpr const char* kLocatorTurns = "locator through-link: turns about its own line";
constexpr const char* kLocatorHalfTurns = "locator half-link: turns about its own line";
constexpr const char* kSteeringTurns = "guided steering through-link: turns about its own line";
constexpr const char* kSteeringHalfTurns = "guided steering half-link: turns about its own line";

const std::vector<Layout>& layouts() {
  static const std::vector<Layout> list = {
      {"three_links", {}},
      {"kingpins_two_balls", {}},
      {"track_bar", {}},
      {"drag_link_knuckle", {kDragLinkTurns}},
      {"drag_link_tie_rod_axis", {kTieRodTurns}},
      {"drag_link_tie_rod_bracket", {kTieRodTurns}},
      {"push_pull_drag_link", {}},
      {"tie_rod_front", {kTieRodTurns}},
      {"tie_rod_rear", {}},
      {"guided_axle_guide_on_frame", {kLocatorTurns}},
      {"guided_axle_guide_on_axle", {kLocatorTurns}},
      {"guided_steering_guide_on_tie_rod", {kTieRodTurns, kSteeringTurns}},
      {"guided_steering_guide_on_pitman", {kTieRodTurns, kSteeringTurns}},
      {"guided_distance_point", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"guided_distance_slide", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"guided_pinned_point", {kTieRodTurns}},
      {"guided_pinned_slide", {kTieRodTurns}},
      {"guided_ball_point",
       {kTieRodTurns, kLocatorTurns, kLocatorHalfTurns, kSteeringTurns, kSteeringHalfTurns}},
      {"guided_ball_slide",
       {kTieRodTurns, kLocatorTurns, kLocatorHalfTurns, kSteeringTurns, kSteeringHalfTurns}},
      {"guided_keeper", {kLocatorTurns, kSteeringTurns}},
      {"guided_keepers", {}},
      {"guided_bracket", {kTieRodTurns, kSteeringTurns}},
      {"guided_middle_off_the_middle", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"guided_middle_off_the_line", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"guided_pivot_off_the_line", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"guided_guide_tilted", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"four_bar_crank_on_axle", {}},
      {"four_bar_crank_on_frame", {}},
      {"four_bar_unequal_arms", {}},
      {"four_bar_tilted_pivot", {}},
      {"guided_rocker", {kTieRodTurns, kLocatorTurns, kSteeringTurns}},
      {"guided_rocker_pinned", {}},
      {"guided_unequal_arms", {kLocatorTurns}},
      {"guided_unequal_arms_wrong", {kLocatorTurns}},
      {"inverted_y", {kDragLinkTurns}},
      {"inverted_y_boss", {kDragLinkTurns}},
      {"relay_two_arms", {}},
      {"relay_centre", {}},
      {"relay_idler", {"centre link: turns about its own line"}},
      {"right_hand_drive", {}},
      {"plain_joints", {}},
      {"studs", {kTieRodTurns}},
      {"guided_plain_joints", {kLocatorTurns, kSteeringTurns}},
      {"radius_arms", {}},
      {"four_links_bushed", {}},
      {"leaf_springs", {}},
      {"leaf_pieces", {}},
      {"rear_axle", {}},
      {"rear_axle_as_measured", {"rear lower link: turns about its own line"}},
  };
  return list;
}

Rig rig_of(const Layout& layout) {
  return Rig(truck_of(std::string("tests/layouts/") + layout.file + ".toml"));
}

class EveryLayout : public ::testing::TestWithParam<Layout> {};

TEST_P(EveryLayout, IsHeldAndLooseAsCountedByHand) {
  const Rig rig = rig_of(GetParam());
  const Assembly& held = rig.held().assembly();
  EXPECT_EQ(held.soundness, Soundness::sound) << held.message;
  EXPECT_EQ(held.mobility, static_cast<int>(GetParam().loose.size()));
  std::vector<std::string> found;
  for (const LooseMotion& motion : held.loose) found.push_back(motion.name);
  std::vector<std::string> expected(GetParam().loose.begin(), GetParam().loose.end());
  std::sort(found.begin(), found.end());
  std::sort(expected.begin(), expected.end());
  EXPECT_EQ(found, expected);
}

TEST_P(EveryLayout, IsFollowedOverItsHeightsLeansAndSteering) {
  Rig rig = rig_of(GetParam());
  const Truck& truck = rig.truck();
  ASSERT_TRUE(rig.aligned_report().usable()) << rig.aligned_report().message;
  ASSERT_GT(truck.lean, 0);
  ASSERT_TRUE(truck.steering);
  constexpr int kHeights = 4;
  for (int step = 0; step <= kHeights; ++step) {
    for (const double lean : {-1.0, 0.0, 1.0}) {
      for (const double steer : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
        PoseRequest request;
        request.height = truck.height_range[0] +
                         step * (truck.height_range[1] - truck.height_range[0]) / kHeights;
        request.lean = lean * truck.lean;
        request.steer_by = SteerBy::steering_wheel;
        request.steer = steer * *truck.steering;
        const PoseResult pose = rig.solve(request);
        ASSERT_TRUE(pose.report.usable())
            << pose.report.message << " at height " << to_mm(request.height) << ", lean "
            << to_deg(request.lean) << ", wheel " << to_deg(request.steer);
        EXPECT_EQ(pose.report.certificate, Certificate::followed);
        EXPECT_LT(pose.report.residual, kResidualTolerance);
        // Redundant closures (two balls) agree with those that were solved.
        EXPECT_LT(pose.report.set_aside_miss, kResidualTolerance);
        // The wheel is turned to the left and the road wheels go there.
        EXPECT_GT(pose.values[kSteeringRatio], 0);
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Layouts, EveryLayout, ::testing::ValuesIn(layouts()),
                         [](const ::testing::TestParamInfo<Layout>& info) {
                           return info.param.file;
                         });

// The same linkage said twice: guided bars, links and keeper as parts, and as bodies and joints of a designer's own.
TEST(PlainJoints, WriteGuidedBarsAgainToTheLastDigit) {
  Rig parts(truck_of("trucks/guided.toml"));
  Rig plain(truck_of("tests/layouts/guided_plain_joints.toml"));
  // 1 pm: both stop at a correction below 1e-10 m that converges quadratically.
  constexpr double kPlace = 1e-12;
  for (const double height : {0.0, 0.060, 0.120, 0.180, 0.235}) {
    for (const double lean_deg : {-4.0, 0.0, 4.0}) {
      for (const double pitman_deg : {-25.0, 0.0, 25.0}) {
        PoseRequest request;
        request.height = height;
        request.lean = from_deg(lean_deg);
        request.steer_by = SteerBy::pitman;
        request.steer = from_deg(pitman_deg);
        ASSERT_TRUE(parts.solve(request).report.usable());
        ASSERT_TRUE(plain.solve(request).report.usable());
        for (const std::string& point : parts.expansion().point_names) {
          EXPECT_LT((place_of(parts, point) - place_of(plain, point)).norm(), kPlace) << point;
        }
      }
    }
  }
}

// A stud stands as measured, so its ball is not tilted there; what is largest is only remembered.
TEST(Studs, AreUntiltedAsMeasuredAndRememberTheirLargestTilt) {
  Rig rig(truck_of("tests/layouts/studs.toml"));
  const PoseResult pose = rig.solve({});
  ASSERT_TRUE(pose.report.usable());
  int limited = 0;
  for (const BallPlace& ball : rig.expansion().balls) limited += ball.largest_tilt > 0 ? 1 : 0;
  // Pitman ball, both tie rod balls, the track bar's frame end.
  EXPECT_EQ(limited, 4);
  for (std::size_t k = 0; k < pose.values.size(); ++k) {
    const std::string& key = rig.quantities()[k].key;
    if (key != "tilt.tie_rod_ball_left" && key != "tilt.track_bar_frame") continue;
    EXPECT_NEAR(pose.values[k], 0, 1e-12) << key;
  }
}

// The track bar's bolt lies fore-aft, so the eye turns on it in heave and is tilted by what the bar swings fore-aft alone: the
// angle between bar and the plane square to the bolt.
TEST(Studs, TiltIsTheAngleOutOfThePlaneSquareToTheStud) {
  Rig rig(truck_of("tests/layouts/studs.toml"));
  PoseRequest raised;
  raised.height = 0.180;
  const PoseResult pose = rig.solve(raised);
  ASSERT_TRUE(pose.report.usable());
  const Vec3 bar = place_of(rig, "track_bar_axle") - place_of(rig, "track_bar_frame");
  for (std::size_t k = 0; k < pose.values.size(); ++k) {
    if (rig.quantities()[k].key == "tilt.track_bar_frame") {
      // 90 deg less the angle to the bolt, by the arc cosine.
      EXPECT_NEAR(pose.values[k], std::abs(from_deg(90) - std::acos(bar.x() / bar.norm())), 1e-9);
    }
  }
}

// Definition 3: a length that is given wins over the points. Moving nothing, the bar closes at that length.
TEST(TrackBar, GivenLengthWins) {
  Rig rig(truck_of("tests/layouts/track_bar.toml"));
  ASSERT_TRUE(rig.solve({}).report.usable());
  EXPECT_NEAR((place_of(rig, "track_bar_axle") - place_of(rig, "track_bar_frame")).norm(),
              0.9711545, 1e-10);
}

}  // namespace
}  // namespace axlewright
