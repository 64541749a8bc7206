// What the examples with further layouts are there to show, as tests/lessons_test.cpp does for the first five: a lateral four-bar, and rockers
// in place of guides.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/raised_example.h"

namespace axlewright {
namespace {

using testing::largest;
using testing::over_heights;
using testing::raised;
using testing::verdict_on;

constexpr const char* kFourBar = "four-bar";
constexpr const char* kRocker = "rocker-guided";
constexpr const char* kGuided = "guided";
constexpr const char* kMismatched = "plain-mismatched";

double span(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low;
}

TEST(LayoutLessons, EveryPoseWithinTheStopsCanBeHad) {
  for (const char* example : {kFourBar, kRocker}) {
    const Sweep& sweep = raised(example);
    ASSERT_EQ(sweep.rows.size(), 11u) << example;
    for (const HeightRow& row : sweep.rows)
      EXPECT_TRUE(row.rolling.report.usable()) << example << " at " << to_mm(row.height);
    EXPECT_EQ(sweep.refused, 0) << example;
  }
}

// --- four-bar: a straight axle alone makes the steering worse ---

TEST(LayoutLessons, FourBarWalksLittleWhereATrackBarWalksFar) {
  const double walk = span(over_heights(kFourBar, kAxleWalkSide));
  EXPECT_LT(to_mm(walk), 2);
  EXPECT_LT(20 * walk, span(over_heights(kMismatched, kAxleWalkSide)));
  EXPECT_EQ(verdict_on(kFourBar, "walk"), Verdict::met);
}

/// How far a way is from turning over about its middle, as a share of its span: 0 for an S.
double uneven(const std::vector<double>& values) {
  const double middle = values[values.size() / 2];
  double most = 0;
  for (std::size_t k = 0; k < values.size(); ++k)
    most = std::max(most, std::abs(values[k] + values[values.size() - 1 - k] - 2 * middle));
  return most / span(values);
}

// Measured from the middle of the heights, where the arms are level: up and down the axle goes to opposite sides by as much. A track
// bar's arc bends to one side.
TEST(LayoutLessons, FourBarWalksAlongAnS) {
  EXPECT_LT(uneven(over_heights(kFourBar, kAxleWalkSide)), 0.05);
  EXPECT_GT(uneven(over_heights(kMismatched, kAxleWalkSide)), 0.3);
  std::vector<double> walk = over_heights(kFourBar, kAxleWalkSide);
  for (double& way : walk) way -= over_heights(kFourBar, kAxleWalkSide)[5];
  EXPECT_LT(to_mm(largest(walk)), 1);
}

TEST(LayoutLessons, AllOfTheDragLinksArcGoesIntoTheSteeringWheel) {
  const std::vector<double> wheel = over_heights(kFourBar, kSteeringWheelOffCentre);
  EXPECT_GT(largest(wheel), 2 * largest(over_heights(kMismatched, kSteeringWheelOffCentre)));
  EXPECT_GT(to_deg(largest(wheel)), 90);
  EXPECT_EQ(verdict_on(kFourBar, "wheel_off_centre"), Verdict::broken);
  EXPECT_EQ(verdict_on(kFourBar, "bump_steer"), Verdict::broken);
}

// --- rocker-guided: nothing slides, and what that costs ---

TEST(LayoutLessons, RockersTurnWhereCarriagesSlide) {
  // The guide end goes the same way, but on a pin.
  EXPECT_NEAR(span(over_heights(kRocker, "slide.locator")),
              span(over_heights(kGuided, "slide.locator")),
              0.01 * span(over_heights(kGuided, "slide.locator")));
  EXPECT_GT(to_mm(span(over_heights(kRocker, "slide.locator"))), 50);
  for (const char* turn : {"turn.locator_rocker", "turn.guided_steering_rocker"})
    EXPECT_LT(to_deg(largest(over_heights(kRocker, turn))), 25) << turn;
}

TEST(LayoutLessons, RockersLeaveTheLineByAboutAMillimetre) {
  for (const char* offset : {"near_end_offset.locator", "near_end_offset.guided_steering"}) {
    const double leaves = to_mm(span(over_heights(kRocker, offset)));
    EXPECT_GT(leaves, 0.5) << offset;
    EXPECT_LT(leaves, 1.5) << offset;
    EXPECT_LT(to_mm(span(over_heights(kGuided, offset))), 1e-4) << offset;
  }
  EXPECT_NEAR(largest(over_heights(kRocker, kAxleWalkSide)),
              span(over_heights(kRocker, "near_end_offset.locator")), 0.1e-3);
  EXPECT_EQ(verdict_on(kRocker, "walk"), Verdict::met);
}

// At bottom and top the guide end is on the line that a guide would have.
TEST(LayoutLessons, RockersAreExactAtBottomAndTop) {
  const std::vector<double> walk = over_heights(kRocker, kAxleWalkSide);
  EXPECT_LT(std::abs(to_mm(walk.back())), 0.1);
  EXPECT_GT(std::abs(to_mm(walk[walk.size() / 2])), 0.5);
}

TEST(LayoutLessons, RockersThatErrAlikeKeepTheWheel) {
  EXPECT_LT(to_deg(largest(over_heights(kRocker, kSteeringWheelOffCentre))), 0.5);
  EXPECT_EQ(verdict_on(kRocker, "wheel_off_centre"), Verdict::met);
  EXPECT_EQ(verdict_on(kRocker, "bump_steer"), Verdict::met);
}

}  // namespace
}  // namespace axlewright
