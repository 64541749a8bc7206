// Proofs over areas: an arm of two bars in the plane whose tip is set, so that its angles follow from the law of cosines. The tip reaches a ring.

#include "engine/solve/area_covering.h"

#include <cmath>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

struct Arm {
  static constexpr double kUpper = 0.30, kFore = 0.20;  // [m]
  static constexpr double kX = 0.35, kY = 0.10;         // of the tip as measured [m]
  Mechanism m;
  BodyId upper, fore;
  InputId x, y;

  struct Angles {
    double upper, fore;
  };

  /// Angles of the bars with the elbow on the right of the line to the tip.
  static Angles angles_at(double tip_x, double tip_y) {
    const double d = std::hypot(tip_x, tip_y);
    const double at_shoulder =
        std::acos((d * d + kUpper * kUpper - kFore * kFore) / (2 * d * kUpper));
    const double upper = std::atan2(tip_y, tip_x) - at_shoulder;
    return {upper, std::atan2(tip_y - kUpper * std::sin(upper), tip_x - kUpper * std::cos(upper))};
  }

  Arm() {
    upper = m.add_body("upper bar");
    fore = m.add_body("fore bar");
    const Angles start = angles_at(kX, kY);
    const Vec3 elbow = kUpper * Vec3(std::cos(start.upper), std::sin(start.upper), 0);
    add_pin("shoulder", kFrame, upper, Vec3::Zero());
    add_pin("elbow", upper, fore, elbow);
    x = add_place("x", Vec3::UnitX());
    y = add_place("y", Vec3::UnitY());
  }

  void add_pin(const std::string& name, BodyId a, BodyId b, const Vec3& place) {
    m.add_pin(name, a, b, place, Vec3::UnitZ());
  }

  InputId add_place(const std::string& name, const Vec3& way) {
    return m.add_input({.name = name,
                        .kind = InputKind::coordinate,
                        .anchor = m.add_anchor("tip", fore, Vec3(kX, kY, 0)),
                        .axis = m.add_axis(name, kFrame, way)});
  }

  BranchProof proof() const { return BranchProof(assemble(m, {x, y})); }

  /// The rectangle between two corners of the tip; the spine runs where it is as measured.
  static InputArea area(double x0, double y0, double x1, double y1) {
    return {.origin = {x0, y0},
            .along = {x1 - x0, 0},
            .across = {0, y1 - y0},
            .spine = (kX - x0) / (x1 - x0)};
  }
};

double norm_of(double a, double b) {
  return std::hypot(a, b);
}

constexpr double kPose = 1e-9;  // [rad] the follower stops at 1e-10 m

TEST(AreaProof, CoversWhatAnArmReaches) {
  const Arm arm;
  const AreaCovering covering = cover_area(arm.proof(), Arm::area(0.2, 0.0, 0.4, 0.25));
  EXPECT_TRUE(covering.complete) << covering.stopped_by;
  EXPECT_EQ(covering.stopped_by, "");
  EXPECT_GT(covering.strips, 1);
  EXPECT_LE(covering.largest_h, 0.5);
  EXPECT_GT(covering.smallest_radius, 0);
  EXPECT_LT(covering.steps, 3000);
}

// Within an area that is covered the way taken does not matter: each corner has its one pose.
TEST(AreaProof, EachWayRoundLeadsToTheSamePose) {
  const Arm arm;
  ASSERT_TRUE(cover_area(arm.proof(), Arm::area(0.2, 0.0, 0.4, 0.25)).complete);
  const Arm::Angles start = Arm::angles_at(Arm::kX, Arm::kY), end = Arm::angles_at(0.2, 0.25);
  for (const std::vector<double>& by : {std::vector<double>{0.2, 0.0}, {0.4, 0.25}, {0.2, 0.25}}) {
    BranchProof way = arm.proof();
    way.extend_to(by);
    ASSERT_TRUE(way.extend_to({0.2, 0.25}).complete);
    const State& state = way.place().state();
    EXPECT_NEAR(state[0].x, end.upper - start.upper, kPose);
    EXPECT_NEAR(state[0].x + state[1].x, end.fore - start.fore, kPose);
  }
}

// One corner is a little farther than the arm is long.
TEST(AreaProof, StopsWhereTheArmIsStretched) {
  const Arm arm;
  const AreaCovering covering = cover_area(arm.proof(), Arm::area(0.2, 0.0, 0.45, 0.22));
  EXPECT_FALSE(covering.complete);
  EXPECT_NE(covering.stopped_by.find("run straight"), std::string::npos) << covering.stopped_by;
  const double there = norm_of(0.2 + covering.stopped_along * 0.25, covering.stopped_across * 0.22);
  EXPECT_LT(there, Arm::kUpper + Arm::kFore);
  EXPECT_NEAR(there, Arm::kUpper + Arm::kFore, 1e-3);
}

// Nearer to the shoulder than the bars differ there is no pose: a hole in the ring, though the rectangle's rim is all reached.
TEST(AreaProof, AHoleInsideIsFound) {
  const Arm arm;
  const std::vector<std::vector<double>> rim = {
      {0.4, -0.15}, {-0.2, -0.15}, {-0.2, 0.15}, {0.4, 0.15}, {0.4, -0.15}};
  ASSERT_TRUE(cover(assemble(arm.m, {arm.x, arm.y}), rim).complete);
  const AreaCovering covering = cover_area(arm.proof(), Arm::area(-0.2, -0.15, 0.4, 0.15));
  EXPECT_FALSE(covering.complete);
  const double there =
      norm_of(-0.2 + covering.stopped_along * 0.6, -0.15 + covering.stopped_across * 0.3);
  EXPECT_GT(there, Arm::kUpper - Arm::kFore);
  EXPECT_NEAR(there, Arm::kUpper - Arm::kFore, 0.01);
}

// No lean, no travel: an area may be a line, or a place.
TEST(AreaProof, CoversALineAndAPlace) {
  const Arm arm;
  EXPECT_TRUE(cover_area(arm.proof(), Arm::area(0.2, 0.1, 0.4, 0.1)).complete);
  const InputArea place{.origin = {0.3, 0.1}, .along = {0, 0}, .across = {0, 0}, .spine = 0};
  EXPECT_TRUE(cover_area(arm.proof(), place).complete);
}

TEST(AreaProof, GoesNoFurtherFromAProofThatIsStopped) {
  const Arm arm;
  BranchProof stopped = arm.proof();
  ASSERT_FALSE(stopped.extend_to({0.6, 0}).complete);
  const AreaCovering covering = cover_area(stopped, Arm::area(0.2, 0.0, 0.4, 0.25));
  EXPECT_FALSE(covering.complete);
  EXPECT_EQ(covering.steps, 0);
  EXPECT_EQ(covering.stopped_by, stopped.covering().stopped_by);
}

// A strip far too wide for one ball ends at once, and what is slim goes on from there.
TEST(BranchProof, AStripTooWideIsIncompleteButNotStopped) {
  const Arm arm;
  BranchProof proof = arm.proof();
  const Covering wide = proof.extend_strip_to({0.3, 0.1}, {0, 0.1});
  EXPECT_FALSE(wide.complete);
  EXPECT_EQ(wide.stopped_by, "");
  EXPECT_EQ(wide.reached, 0);
  EXPECT_TRUE(proof.extend_strip_to({0.3, 0.1}, {0, 0.002}).complete);
}

// The line ends just before the arm is stretched, the strip's edge would lie beyond.
TEST(BranchProof, AStripEndsBeforeItsEdgeIsOutOfReach) {
  const Arm arm;
  BranchProof line = arm.proof();
  EXPECT_TRUE(line.extend_to({0.49, 0.09}).complete);
  const double width = 0.01;
  ASSERT_GT(norm_of(0.49, 0.09 + width), Arm::kUpper + Arm::kFore);
  BranchProof strip = arm.proof();
  const Covering covering = strip.extend_strip_to({0.49, 0.09}, {0, width});
  EXPECT_FALSE(covering.complete);
  const double x = Arm::kX + covering.reached * (0.49 - Arm::kX);
  const double y = Arm::kY + covering.reached * (0.09 - Arm::kY);
  EXPECT_LT(norm_of(x, y + width), Arm::kUpper + Arm::kFore);
}

}  // namespace
}  // namespace axlewright
