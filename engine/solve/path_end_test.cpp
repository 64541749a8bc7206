#include <cmath>
#include <utility>

#include <gtest/gtest.h>

#include "engine/solve/follower.h"

namespace axlewright {
namespace {

/// An arm that turns about z at the origin against a twist, its end at (length, 0) pulled by a spring without a length of its own to a block
/// that two slides carry in the plane. For the arm at theta and the block at (x, y) the energy is
///   E = c theta^2 / 2 - k length (x cos theta + y sin theta) + what theta does not change.
struct PulledArm {
  static constexpr double kLength = 0.2, kTwist = 500, kPull = 1e5;  // [m], [N m/rad], [N/m]
  Mechanism m;
  InputId x, y;
  BodyId arm;

  PulledArm() {
    arm = m.add_body("arm");
    const BodyId cross_slide = m.add_body("cross slide"), block = m.add_body("block");
    m.add_pin("pin", kFrame, arm, Vec3::Zero(), Vec3::UnitZ());
    m.add_bush("twist", kFrame, arm, Vec3::Zero(), Vec3::UnitZ(),
               {.along = Vec3::Zero(), .about = Vec3(0, 0, kTwist)});
    const Vec3 end(kLength, 0, 0);
    m.add_slide("cross slide", kFrame, cross_slide, Vec3::UnitX());
    m.add_slide("block", cross_slide, block, Vec3::UnitY());
    m.add_bush("pull", arm, block, end, Vec3::UnitZ(),
               {.along = Vec3::Constant(kPull), .about = Vec3::Zero()});
    const auto input = [&](const char* name, const Vec3& way) {
      return m.add_input({.name = name,
                          .kind = InputKind::coordinate,
                          .anchor = m.add_anchor(name, block, end),
                          .axis = m.add_axis(name, kFrame, way)});
    };
    x = input("x", Vec3::UnitX());
    y = input("y", Vec3::UnitY());
  }

  /// Where the block has to be lengthwise for balance at theta: dE/dtheta = 0 solved for x, and how that changes with theta.
  static double x_for(double theta, double y) {
    return (y * std::cos(theta) - kTwist / (kPull * kLength) * theta) / std::sin(theta);
  }
  static double x_slope(double theta, double y) {
    return -(kTwist / (kPull * kLength) + x_for(theta, y) * std::cos(theta) + y * std::sin(theta)) /
           std::sin(theta);
  }
};

/// What the last steps may leave between the place reached and the end of the path [m].
constexpr double kNearTheEnd = 10 * kShortestStep;

// Pulled straight through its pin the arm stays where it is, until the pull has more of a lever than the twist: c = k length d.
TEST(PathEnd, AnArmPulledThroughItsPinGivesWayWhereTheTwistIsUsedUp) {
  const PulledArm a;
  PathFollower f(assemble(a.m, {a.x, a.y}));
  const double way = 0.5;
  const SolveReport& report = f.go_to({PulledArm::kLength - way, 0});
  EXPECT_EQ(report.outcome, Outcome::unstable) << report.message;
  const double last = PulledArm::kTwist / (PulledArm::kPull * PulledArm::kLength);
  EXPECT_NEAR(report.path_reached * way, PulledArm::kLength + last, kNearTheEnd);
}

// Led round to the far side the arm is wound up; as the block comes back to the pin, balance ends where dx/dtheta = 0, and the arm flies back.
// Just before that the least stiffness may be anything yet.
TEST(PathEnd, AWoundUpArmFliesBackWhereItsBalanceTurns) {
  const PulledArm a;
  PathFollower f(assemble(a.m, {a.x, a.y}));
  const double y = -0.05, from = -0.3, way = 0.5;
  for (const auto& [x_on, y_on] : {std::pair(PulledArm::kLength, 0.3), {from, 0.3}, {from, y}})
    ASSERT_TRUE(f.go_to({x_on, y_on}).usable()) << f.report().message;
  // The turn by bisection, between places of the arm on either side of it.
  double before = 2.8, behind = 1.6;
  ASSERT_LT(PulledArm::x_slope(before, y), 0);
  ASSERT_GT(PulledArm::x_slope(behind, y), 0);
  for (int k = 0; k < 60; ++k) {
    const double middle = (before + behind) / 2;
    (PulledArm::x_slope(middle, y) < 0 ? before : behind) = middle;
  }
  const SolveReport& report = f.go_to({from + way, y});
  EXPECT_EQ(report.outcome, Outcome::unstable) << report.message;
  EXPECT_NEAR(from + way * report.path_reached, PulledArm::x_for(before, y), kNearTheEnd);
}

// A crank of 100 and a rod of 300 in one line: the slider held, the crank may turn either way, and nothing has a rate.
TEST(PathEnd, WhatIsHeldAtItsDeadCentreHasNoRates) {
  Mechanism m;
  const BodyId crank = m.add_body("crank"), slider = m.add_body("slider");
  const double theta = 0.5;
  const Vec3 ball(0.1 * std::cos(theta), 0.1 * std::sin(theta), 0);
  const Vec3 end(ball.x() + std::sqrt(0.09 - ball.y() * ball.y()), 0, 0);
  const JointId pin = m.add_pin("pin", kFrame, crank, Vec3::Zero(), Vec3::UnitZ());
  m.add_slide("slide", kFrame, slider, Vec3::UnitX());
  m.add_bar("rod", crank, ball, slider, end);
  const InputId turn = m.add_input({.name = "turn", .kind = InputKind::turn, .joint = pin});
  const InputId way = m.add_input({.name = "way",
                                   .kind = InputKind::coordinate,
                                   .anchor = m.add_anchor("end", slider, end),
                                   .axis = m.add_axis("forward", kFrame, Vec3::UnitX())});
  PathFollower by_crank(assemble(m, {turn})), by_slider(assemble(m, {way}));
  std::vector<double> stretched = by_crank.as_measured_inputs();
  stretched[0] -= theta;
  ASSERT_TRUE(by_crank.go_to(stretched).usable()) << by_crank.report().message;
  by_slider.start_from(by_crank.state(), by_crank.inputs());
  const std::vector<Vector> none = by_slider.rates_for({way});
  for (const double rate : none[0]) EXPECT_TRUE(std::isnan(rate));
  const Vector load = Vector::Ones(by_slider.system().coordinates);
  for (const double force : by_slider.multipliers(load)) EXPECT_TRUE(std::isnan(force));
  // By the crank all is well there: the slider stands still for a moment.
  const std::vector<Vector> rates = by_crank.rates_for({turn});
  for (const double rate : rates[0]) EXPECT_FALSE(std::isnan(rate));
}

}  // namespace
}  // namespace axlewright
