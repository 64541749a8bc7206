#include "engine/solve/reactions.h"
#include "engine/base/index.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

// Rounding of forces of some kN in mechanisms of good condition.
constexpr double kForce = 1e-7;   // [N]
constexpr double kMoment = 1e-7;  // [N m]

/// A through-link of length 2 L from B, at height h over O, down to A on a line through O along y; a half-link of length L from
/// O to its middle M. B's height and fore-aft place are inputs.
struct GuidedBar {
  Mechanism m;
  BodyId through{};
  JointId half_link{}, guide{};
  InputId height{}, forward{};
  Vec3 a, b, middle;
};

GuidedBar guided_bar(double half_length, double height) {
  GuidedBar g;
  Mechanism& m = g.m;
  g.b = Vec3(0, 0, height);
  g.a = Vec3(0, std::sqrt(4 * half_length * half_length - height * height), 0);
  g.middle = 0.5 * (g.a + g.b);
  g.through = m.add_body("through-link");
  const AnchorId o = m.add_anchor("O", kFrame, Vec3::Zero());
  const AnchorId middle = m.add_anchor("M", g.through, g.middle);
  g.half_link = m.add_joint({.name = "half-link",
                             .kind = JointKind::distance,
                             .body_a = kFrame,
                             .body_b = g.through,
                             .a = o,
                             .b = middle,
                             .length = m.add_length("half-link", o, middle)});
  g.guide = m.add_joint({.name = "guide",
                         .kind = JointKind::point_on_line,
                         .body_a = kFrame,
                         .body_b = g.through,
                         .a = o,
                         .b = m.add_anchor("A", g.through, g.a),
                         .axis_a = m.add_axis("guide", kFrame, Vec3::UnitY())});
  const AnchorId near_end = m.add_anchor("B", g.through, g.b);
  const auto hold = [&](const char* name, const Vec3& way) {
    return m.add_input({.name = name,
                        .kind = InputKind::coordinate,
                        .anchor = near_end,
                        .axis = m.add_axis(name, kFrame, way)});
  };
  g.height = hold("height of B", Vec3::UnitZ());
  g.forward = hold("place of B fore-aft", Vec3::UnitX());
  // Nothing else would stop its turn about the line of A and B.
  m.add_joint({.name = "keeper",
               .kind = JointKind::spin_keeper,
               .body_a = g.through,
               .body_b = kFrame,
               .axis_a = m.add_axis("keeper", g.through, Vec3::UnitX()),
               .axis_b = m.add_axis("keeper", kFrame, Vec3::UnitZ())});
  return g;
}

struct GuidedBarForces {
  double half_link, guide, middle_moment, jacking;
};

GuidedBarForces guided_bar_forces(double half_length, double height, double side_force) {
  const GuidedBar g = guided_bar(half_length, height);
  PathFollower f(assemble(g.m, {g.height, g.forward}));
  EXPECT_TRUE(f.go_to({height, 0.0}).usable()) << f.report().message;
  const Reactions r = reactions(f, {{g.through, Vec3(0, side_force, 0), g.b, Vec3::Zero()}});
  EXPECT_TRUE(r.balanced());
  const Vec3 guide = *r.joints[index(g.guide.value)].force;
  return {*r.axial[index(g.half_link.value)], guide.z(), cross(Vec3(g.a - g.middle), guide).norm(),
          *r.efforts[index(g.height.value)]};
}

// kinematics reference 1.6: F / cos, F tan, F h / 2 at L = 18, F = 4000, lengths in inches there; printed to 0.001.
TEST(Reactions, GuidedBarAsPrinted) {
  const GuidedBarForces low = guided_bar_forces(from_inch(18), from_inch(6), 4000);
  EXPECT_NEAR(low.half_link, 4056.740, 5e-4);
  EXPECT_NEAR(low.guide, 676.123, 5e-4);
  EXPECT_NEAR(low.middle_moment, from_inch(12000.0), 1e-6);
  const GuidedBarForces high = guided_bar_forces(from_inch(18), from_inch(12), 4000);
  EXPECT_NEAR(high.half_link, 4242.641, 5e-4);
  EXPECT_NEAR(high.guide, 1414.214, 5e-4);
  EXPECT_NEAR(high.middle_moment, from_inch(24000.0), 1e-6);
  // A side force at B lifts nothing there.
  EXPECT_NEAR(high.jacking, 0, kForce);
}

// first-hour check, row 9: side force 6000 at B, H 390, half-link 450; printed to 0.1.
TEST(Reactions, GuidedBarOfTheFirstHour) {
  const GuidedBarForces r = guided_bar_forces(0.450, 0.390, 6000);
  EXPECT_NEAR(r.half_link, 6657.5, 0.05);
  EXPECT_NEAR(r.guide, 2884.9, 0.05);
  EXPECT_NEAR(r.middle_moment, 1170.0, 0.05);
}

// kinematics reference 4.1: a track bar of length 32 and rise v under a side force F carries F / cos a and jacks with F tan a.
// The axle rides on a slide, which the tree holds: its reaction comes from equilibrium, not from a multiplier.
TEST(Reactions, TrackBarJacks) {
  const double rows[][3] = {{6, 4072.222, 763.542}, {10, 4210.891, 1315.903}};
  for (const auto& row : rows) {
    const double rise = row[0];
    Mechanism m;
    const BodyId axle = m.add_body("axle");
    const Vec3 end(0, -std::sqrt(32 * 32 - rise * rise), 0);
    const AnchorId on_frame = m.add_anchor("frame end", kFrame, Vec3(0, 0, from_inch(rise)));
    const AnchorId on_axle = m.add_anchor("axle end", axle, end * from_inch(1));
    const JointId bar = m.add_joint({.name = "track bar",
                                     .kind = JointKind::distance,
                                     .body_a = kFrame,
                                     .body_b = axle,
                                     .a = on_frame,
                                     .b = on_axle,
                                     .length = m.add_length("track bar", on_frame, on_axle)});
    const JointId slide = m.add_joint({.name = "slide",
                                       .kind = JointKind::slide,
                                       .body_a = kFrame,
                                       .body_b = axle,
                                       .a = m.add_anchor("slide", kFrame, Vec3::Zero()),
                                       .b = m.add_anchor("slide", axle, Vec3::Zero()),
                                       .axis_a = m.add_axis("slide", kFrame, Vec3::UnitY())});
    PathFollower f(assemble(m, {}));
    ASSERT_TRUE(f.go_to({}).usable());
    const Reactions r = reactions(f, {{axle, Vec3(0, -4000, 0), end * from_inch(1), Vec3::Zero()}});
    EXPECT_NEAR(*r.axial[index(bar.value)], row[1], 5e-4);
    // The bar pulls its axle end up, the slide holds it down.
    EXPECT_NEAR(r.joints[index(slide.value)].force->z(), -row[2], 5e-4);
    EXPECT_NEAR(r.joints[index(slide.value)].force->y(), 0, kForce);
  }
}

/// Pitman arm, drag link and knuckle (kinematics reference 3.5 check b) with a tie rod that is a body on a ball and a line: pins, a
/// ball in the tree, a distance, a line and a spin.
struct Steering {
  Mechanism m;
  BodyId pitman{}, knuckle{}, rod{};
  JointId shaft{}, kingpin{}, drag_link{}, rod_ball{}, rod_line{};
  InputId turn{};
};

Steering steering() {
  Steering s;
  Mechanism& m = s.m;
  s.pitman = m.add_body("pitman arm");
  s.knuckle = m.add_body("knuckle");
  s.rod = m.add_body("tie rod");
  const auto pin = [&](const char* name, BodyId body, const Vec3& at, const Vec3& axis) {
    return m.add_pin(name, kFrame, body, at, axis);
  };
  s.shaft = pin("sector shaft", s.pitman, Vec3(0.508, 0.4064, 0.2032), Vec3(0.17, 0, 0.98));
  s.kingpin = pin("kingpin", s.knuckle, Vec3(0, -0.7112, -0.1016), Vec3(-0.1, 0.18, 0.98));
  const AnchorId arm_ball = m.add_anchor("arm ball", s.pitman, Vec3(0.3454, 0.4064, 0.2319));
  const AnchorId knuckle_ball =
      m.add_anchor("knuckle ball", s.knuckle, Vec3(0.2032, -0.6858, 0.0254));
  s.drag_link = m.add_joint({.name = "drag link",
                             .kind = JointKind::distance,
                             .body_a = s.pitman,
                             .body_b = s.knuckle,
                             .a = arm_ball,
                             .b = knuckle_ball,
                             .length = m.add_length("drag link", arm_ball, knuckle_ball)});
  const Vec3 rod_near(0.18, -0.70, -0.05), rod_far(0.18, 0.70, -0.05);
  s.rod_ball = m.add_ball("tie rod ball", s.knuckle, s.rod, rod_near);
  s.rod_line = m.add_joint({.name = "tie rod guide",
                            .kind = JointKind::point_on_line,
                            .body_a = kFrame,
                            .body_b = s.rod,
                            .a = m.add_anchor("guide", kFrame, rod_far),
                            .b = m.add_anchor("guide", s.rod, rod_far),
                            .axis_a = m.add_axis("guide", kFrame, Vec3(0.2, 1, 0))});
  s.turn = m.add_input({.name = "pitman arm's turn", .kind = InputKind::turn, .joint = s.shaft});
  return s;
}

/// Loads at random places; that on the rod is a force on its line, since nothing would stop the rod's turn.
std::vector<BodyLoad> some_loads(const Steering& s, const Kinematics& kin) {
  const Vec3 on_rod = kin.pose[index(s.rod.value)].place(Vec3(0.18, 0.1, -0.05));
  return {{s.pitman, Vec3(120, -300, 50), Vec3(0.4, 0.3, 0.2), Vec3(5, 7, -11)},
          {s.knuckle, Vec3(-900, 400, 2000), Vec3(0.02, -0.9, -0.3), Vec3(0, 130, 40)},
          {s.rod, Vec3(60, 20, -150), on_rod, Vec3::Zero()}};
}

// Newton's third law and equilibrium: on each body loads, joints and input add up to nothing, about any place.
TEST(Reactions, EveryBodyIsInEquilibrium) {
  const Steering s = steering();
  PathFollower f(assemble(s.m, {s.turn}));
  ASSERT_TRUE(f.go_to({from_deg(14)}).usable()) << f.report().message;
  const std::vector<BodyLoad> loads = some_loads(s, f.kinematics());
  const Reactions r = reactions(f, loads);
  EXPECT_TRUE(r.balanced());
  const auto& pose = f.kinematics().pose;

  std::vector<Vec3> force(s.m.bodies.size(), Vec3::Zero()), moment(force);
  const auto act = [&](BodyId body, const Vec3& at, const Vec3& f_on, const Vec3& m_on) {
    force[index(body.value)] += f_on;
    moment[index(body.value)] += m_on + cross(at, f_on);
  };
  for (const BodyLoad& load : loads) act(load.body, load.place, load.force, load.moment);
  for (std::size_t j = 0; j < s.m.joints.size(); ++j) {
    const Joint& joint = s.m.joints[j];
    const Vec3 at = pose[index(joint.body_b.value)].place(s.m.anchor(joint.b).at);
    act(joint.body_b, at, *r.joints[j].force, *r.joints[j].moment);
    act(joint.body_a, at, -*r.joints[j].force, -*r.joints[j].moment);
  }
  const Vec3 shaft = s.m.axis(s.m.joint(s.shaft).axis_a).direction;
  act(s.pitman, Vec3::Zero(), Vec3::Zero(), shaft * *r.efforts[index(s.turn.value)]);
  for (std::size_t b = 1; b < force.size(); ++b) {
    EXPECT_LT(force[b].norm(), kForce) << s.m.bodies[b].name;
    EXPECT_LT(moment[b].norm(), kMoment) << s.m.bodies[b].name;
  }
  // A pin bears no moment about itself.
  const Vec3 kingpin = s.m.axis(s.m.joint(s.kingpin).axis_a).direction;
  EXPECT_NEAR(kingpin.dot(*r.joints[index(s.kingpin.value)].moment), 0, kMoment);
  EXPECT_NEAR(shaft.dot(*r.joints[index(s.shaft.value)].moment), 0, kMoment);
  EXPECT_LT(r.joints[index(s.rod_ball.value)].moment->norm(), kMoment);
}

// Virtual work: the input's effort does what the loads give back when it moves. Rates by central differences of poses.
TEST(Reactions, EffortDoesTheLoadsWork) {
  const Steering s = steering();
  PathFollower f(assemble(s.m, {s.turn}));
  ASSERT_TRUE(f.go_to({from_deg(14)}).usable());
  // Loads on what does not spin, forces only, at places fixed on their bodies.
  const Vec3 on_pitman(0.4, 0.3, 0.2), on_knuckle(0.02, -0.9, -0.3);
  const Vec3 f_pitman(120, -300, 50), f_knuckle(-900, 400, 2000);
  const auto place = [&](BodyId body, const Vec3& p) {
    return f.kinematics().pose[index(body.value)].place(p);
  };
  const Reactions r =
      reactions(f, {{s.pitman, f_pitman, place(s.pitman, on_pitman), Vec3::Zero()},
                    {s.knuckle, f_knuckle, place(s.knuckle, on_knuckle), Vec3::Zero()}});
  const auto potential = [&](double turn) {
    EXPECT_TRUE(f.go_to({turn}).usable());
    return f_pitman.dot(place(s.pitman, on_pitman)) + f_knuckle.dot(place(s.knuckle, on_knuckle));
  };
  constexpr double kStep = 1e-4;  // [rad]
  const double work =
      (potential(from_deg(14) + kStep) - potential(from_deg(14) - kStep)) / (2 * kStep);
  // Differences: 1e-8 of second order in kStep, 1e-10 m of pose over the step, times some kN.
  EXPECT_NEAR(*r.efforts[index(s.turn.value)] + work, 0, 1e-4);
}

// A moment along the rod's own line finds nothing that could hold it.
TEST(Reactions, MomentAlongAFreeRodIsAnUnbalancedSpin) {
  const Steering s = steering();
  PathFollower f(assemble(s.m, {s.turn}));
  ASSERT_TRUE(f.go_to({0.0}).usable());
  // As measured the rod lies along y; 0.5 m of offset times 10 N as a moment.
  const Reactions r = reactions(f, {{s.rod, Vec3::Zero(), Vec3::Zero(), Vec3(0, 5, 0)}});
  ASSERT_EQ(r.spins.size(), 1u);
  EXPECT_EQ(r.spins[0].body, s.rod);
  EXPECT_NEAR(std::abs(r.spins[0].moment), 5, kMoment);
}

// A door on two balls and a bar. The bar's force follows from moments about the hinge line; how the balls share what acts
// along that line is up to their elasticity.
TEST(Reactions, WhatTwoBallsShareIsNotTold) {
  Mechanism m;
  const BodyId door = m.add_body("door");
  const auto ball = [&](const char* name, double z) {
    const Vec3 at(0, 0, z);
    return m.add_ball(name, kFrame, door, at);
  };
  const JointId low = ball("lower ball", -0.2), high = ball("upper ball", 0.3);
  const Vec3 from(0.5, 0.4, 0), to(0.5, 0, 0);
  const AnchorId a = m.add_anchor("bar on frame", kFrame, from);
  const AnchorId b = m.add_anchor("bar on door", door, to);
  const JointId bar = m.add_joint({.name = "bar",
                                   .kind = JointKind::distance,
                                   .body_a = kFrame,
                                   .body_b = door,
                                   .a = a,
                                   .b = b,
                                   .length = m.add_length("bar", a, b)});
  PathFollower f(assemble(m, {}));
  ASSERT_TRUE(f.go_to({}).usable()) << f.report().message;
  ASSERT_EQ(f.assembly().set_aside.size(), 1u);
  const Reactions r = reactions(f, {{door, Vec3(0, -80, -100), Vec3(1, 0, 0.1), Vec3::Zero()}});
  EXPECT_NEAR(*r.axial[index(bar.value)], 80 * 1 / 0.5, kForce);
  EXPECT_FALSE(r.joints[index(low.value)].force.has_value());
  EXPECT_FALSE(r.joints[index(high.value)].force.has_value());
  EXPECT_TRUE(r.joints[index(high.value)].moment.has_value());
}

}  // namespace
}  // namespace axlewright
