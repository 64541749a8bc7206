// A pose that cannot be had is reported as what it is. On one small linkage, whose answers are known by hand: a rider on
// an upright slide drives another on a level slide through a bar of length L, so z^2 + y^2 = L^2.

#include "engine/solve/report.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/solve/follower.h"

namespace axlewright {
namespace {

constexpr double kBarLength = 0.5;  // [m]

/// The bar starts at `start`: its angle to the level slide.
struct Ladder {
  Mechanism m;
  InputId height;
  BodyId upright, level;
};

Ladder ladder(double start, bool with_bar = true) {
  Ladder l;
  l.upright = l.m.add_body("upright rider");
  l.level = l.m.add_body("level rider");
  l.m.add_slide("upright slide", kFrame, l.upright, Vec3::UnitZ());
  l.m.add_slide("level slide", kFrame, l.level, Vec3::UnitY());
  const Vec3 top(0, 0, kBarLength * std::sin(start)), foot(0, kBarLength * std::cos(start), 0);
  if (with_bar) l.m.add_bar("bar", l.upright, top, l.level, foot);
  l.height = l.m.add_input({.name = "height",
                            .kind = InputKind::coordinate,
                            .anchor = l.m.add_anchor("top", l.upright, top),
                            .axis = l.m.add_axis("up", kFrame, Vec3::UnitZ())});
  return l;
}

SolveReport go(const Ladder& l, double height) {
  PathFollower follower(assemble(l.m, {l.height}));
  return follower.go_to({height});
}

TEST(Report, InReachIsFollowed) {
  const SolveReport report = go(ladder(0.6), 0.4);
  EXPECT_EQ(report.outcome, Outcome::converged);
  EXPECT_EQ(report.certificate, Certificate::followed);
}

// The bar is 0.5 long: no pose at 0.6, and the way there ends at 0.5.
TEST(Report, BeyondTheBarsLengthIsOutOfReach) {
  constexpr double kStart = 0.6, kHeight = 0.6;
  const SolveReport report = go(ladder(kStart), kHeight);
  EXPECT_EQ(report.outcome, Outcome::out_of_reach);
  EXPECT_EQ(report.certificate, Certificate::none);
  EXPECT_NE(report.what_ran_out.find("bar"), std::string::npos) << report.what_ran_out;
  const double from = kBarLength * std::sin(kStart);
  // The follower stops where its smallest stride no longer closes, a little before the limit point.
  EXPECT_NEAR(report.path_reached, (kBarLength - from) / (kHeight - from), 1e-3);
}

// Close to upright the bar holds the level rider by its lever y / L alone.
TEST(Report, NearUprightIsBound) {
  constexpr double kLever = 2e-5;
  const SolveReport report = go(ladder(0.6), kBarLength * std::cos(kLever));
  EXPECT_EQ(report.outcome, Outcome::bound) << report.message;
}

// Measured upright: the level rider is loose at that pose and at no other.
TEST(Report, MeasuredUprightIsSingular) {
  const SolveReport report = go(ladder(std::acos(-1.0) / 2), 0.45);
  EXPECT_EQ(report.outcome, Outcome::singular) << report.message;
}

TEST(Report, WithoutTheBarIsUnderHeld) {
  const SolveReport report = go(ladder(0.6, false), 0.3);
  EXPECT_EQ(report.outcome, Outcome::under_held);
  EXPECT_NE(report.message.find("level rider"), std::string::npos) << report.message;
}

// A second bar to a fixed point fits as measured and nowhere else.
TEST(Report, ASecondBarToTheFrameIsOverHeld) {
  Ladder l = ladder(0.6);
  l.m.add_bar("fixed bar", kFrame, Vec3(0, -0.3, 0.2), l.level,
              Vec3(0, kBarLength * std::cos(0.6), 0));
  const SolveReport report = go(l, 0.4);
  EXPECT_EQ(report.outcome, Outcome::over_held) << report.message;
  EXPECT_NE(report.message.find("bar"), std::string::npos) << report.message;
  EXPECT_NE(report.message.find("fight"), std::string::npos) << report.message;
}

TEST(Report, NotRunIsNoSuccess) {
  EXPECT_FALSE(SolveReport{}.usable());
}

}  // namespace
}  // namespace axlewright
