#include "engine/solve/follower.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

/// Guided steering on an axle that stands still: tie-rod balls 170 ahead of upright or inclined kingpins, 1415 apart;
/// half-link pivot in the middle of the balls' line, near end straight above it, pitman arm 165 pointing rear.
struct GuidedSteering {
  Mechanism m;
  InputId pitman;
  PerSide<AxisId> stub;
  BodyId tie_rod;
};

struct Shape {
  double drop = 0.270;
  double kpi_deg = 9;
  double caster_deg = 5;
  double outboard = 0;
};

GuidedSteering guided_steering(const Shape& shape) {
  GuidedSteering g;
  Mechanism& m = g.m;
  const double half = 1.415 / 2;
  const Vec3 up_left =
      Vec3(-std::tan(from_deg(shape.caster_deg)), -std::tan(from_deg(shape.kpi_deg)), 1)
          .normalized();
  PerSide<BodyId> knuckle;
  g.tie_rod = m.add_body("tie rod");
  const auto side = [&](const char* name, double y, AxisId& stub, BodyId& body) {
    body = m.add_body(name);
    const Vec3 pivot(-0.170, y * (half - shape.outboard), 0);
    Vec3 axis = up_left;
    axis.y() *= y;
    m.add_pin(std::string(name) + " kingpin", kFrame, body, pivot, axis);
    stub = m.add_axis("stub", body, Vec3::UnitY());
  };
  side("left knuckle", 1, g.stub.left, knuckle.left);
  side("right knuckle", -1, g.stub.right, knuckle.right);
  m.add_ball("tie rod ball, left", knuckle.left, g.tie_rod, Vec3(0, half, 0));
  m.add_ball("tie rod ball, right", knuckle.right, g.tie_rod, Vec3(0, -half, 0));

  const BodyId arm = m.add_body("pitman");
  const Vec3 near(0, 0, shape.drop);
  const Vec3 shaft = near + Vec3(0.165, 0, 0);
  const JointId shaft_pin = m.add_pin("sector shaft", kFrame, arm, shaft, Vec3::UnitZ());
  g.pitman = m.add_input({.name = "pitman", .kind = InputKind::turn, .joint = shaft_pin});

  // Through-link 900 from B down to the guide, which is the balls' line; half-link 450 from O to its middle.
  const double reach = std::sqrt(0.9 * 0.9 - shape.drop * shape.drop);
  const Vec3 guide_end(0, -reach, 0);
  const BodyId through = m.add_body("through-link");
  m.add_ball("near end", arm, through, near);
  m.add_bar("half-link", g.tie_rod, Vec3::Zero(), through, 0.5 * (near + guide_end));
  Joint guide{
      .name = "guide", .kind = JointKind::point_on_line, .body_a = g.tie_rod, .body_b = through};
  guide.a = m.add_anchor("guide", g.tie_rod, Vec3::Zero());
  guide.b = m.add_anchor("A", through, guide_end);
  guide.axis_a = m.add_axis("guide", g.tie_rod, Vec3::UnitY());
  m.add_joint(guide);
  return g;
}

double steer_deg(const GuidedSteering& g, const PathFollower& f, AxisId stub) {
  const Pose& pose = f.kinematics().pose[static_cast<std::size_t>(g.m.axis(stub).body.value)];
  return to_deg(heading_of<double>(pose.turn(Vec3::UnitY())));
}

double mean_steer_deg(const Shape& shape, double pitman_deg) {
  const GuidedSteering g = guided_steering(shape);
  PathFollower f(assemble(g.m, {g.pitman}));
  // Pitman 30 to the left steers left: the arm points rear, so the shaft turns clockwise and its ball goes left.
  const SolveReport& report = f.go_to({from_deg(-pitman_deg)});
  EXPECT_TRUE(report.usable()) << report.message;
  return 0.5 * (steer_deg(g, f, g.stub.left) + steer_deg(g, f, g.stub.right));
}

// first-hour check, row 8, confirmed there by two independent solvers; printed to 0.001 deg.
TEST(GuidedSteering, TallerDropSteersFurtherForTheSamePitmanTurn) {
  EXPECT_NEAR(mean_steer_deg({.drop = 0.120}, 30), 29.979, 6e-4);
  EXPECT_NEAR(mean_steer_deg({.drop = 0.270}, 30), 31.177, 6e-4);
  EXPECT_NEAR(mean_steer_deg({.drop = 0.390}, 30), 32.213, 6e-4);
}

TEST(GuidedSteering, SteeringArmBallsOutboardLessenIt) {
  EXPECT_NEAR(mean_steer_deg({.drop = 0.120, .outboard = 0.025}, 30), 29.609, 6e-4);
  EXPECT_NEAR(mean_steer_deg({.drop = 0.390, .outboard = 0.025}, 30), 31.531, 6e-4);
}

// Closed form, first-hour check, row 8: with upright kingpins the tie rod only shifts, asin(82.5 / 170).
TEST(GuidedSteering, UprightKingpinsSteerByTheArmsAlone) {
  for (const double drop : {0.120, 0.270, 0.390}) {
    EXPECT_NEAR(mean_steer_deg({.drop = drop, .kpi_deg = 0, .caster_deg = 0}, 30),
                to_deg(std::asin(82.5 / 170)), 1e-9);
  }
}

// first-hour check, row 10: 42 - 15 - 18 - 5 with the half-link a body; here it is a distance, so the steering and the two
// spins of through-link and tie rod are left: 3. With the steering held, two.
TEST(GuidedSteering, HoldingThePitmanLeavesTwoSpins) {
  const GuidedSteering g = guided_steering({});
  const Assembly a = assemble(g.m, {g.pitman});
  EXPECT_EQ(a.mobility, 2);
  ASSERT_EQ(a.loose.size(), 2u);
  EXPECT_TRUE(a.loose[0].spin && a.loose[1].spin);
  EXPECT_EQ(a.soundness, Soundness::sound);
}

}  // namespace
}  // namespace axlewright
