#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/solve/follower.h"
#include "tests/oracle/compare.h"

// Mechanisms whose answer is published, put to both solvers.

namespace axlewright::oracle {
namespace {

void expect_same(PathFollower& follower, const std::vector<InputId>& held) {
  const Difference d = compare_here(follower, held, 1);
  ASSERT_TRUE(d.closed);
  // 1e-7 mm and 1e-8 deg: both solvers stop at 1e-12 m and these linkages are far from their limits.
  EXPECT_LT(d.place, 1e-10);
  EXPECT_LT(d.turn, from_deg(1e-8));
  EXPECT_GT(d.reactions, 0);
  EXPECT_LT(d.force, 1e-4) << d.worst_joint << " of " << d.largest_reaction;
}

/// A bar pinned to the frame at `pivot` about `axis`.
JointId pin_to_frame(Mechanism& m, BodyId body, const Vec3& pivot, const Vec3& axis) {
  return m.add_pin(m.body(body).name + " pin", kFrame, body, pivot, axis);
}

// Planar four-bar, crank 40, coupler 120, rocker 80, ground 100 (Norton, Design of Machinery, Example 4.1; kinematics reference 3.1):
// at a crank of 40 deg the rocker stands at 57.324880 deg.
TEST(MechanismOracle, FourBar) {
  const auto at = [](const Vec3& from, double length, double angle_deg) {
    return Vec3(from +
                length * Vec3(std::cos(from_deg(angle_deg)), std::sin(from_deg(angle_deg)), 0));
  };
  // As measured at 30 deg, in decimetres to be metres of a size that forces are judged at.
  const Vec3 ground(1.0, 0, 0);
  const Vec3 crank_end = at(Vec3::Zero(), 0.4, 30);
  const Vec3 rocker_end = at(ground, 0.8, 55.267777);
  Mechanism m;
  const BodyId crank = m.add_body("crank"), coupler = m.add_body("coupler"),
               rocker = m.add_body("rocker");
  const JointId shaft = pin_to_frame(m, crank, Vec3::Zero(), Vec3::UnitZ());
  pin_to_frame(m, rocker, ground, Vec3::UnitZ());
  m.add_pin("crank pin", crank, coupler, crank_end, Vec3::UnitZ());
  // In space a fourth pin would hold the loop three times over: a point on a line holds the plane's two ways.
  m.add_joint({.name = "rocker pin",
               .kind = JointKind::point_on_line,
               .body_a = rocker,
               .body_b = coupler,
               .a = m.add_anchor("rocker pin", rocker, rocker_end),
               .b = m.add_anchor("rocker pin", coupler, rocker_end),
               .axis_a = m.add_axis("rocker pin", rocker, Vec3::UnitZ())});
  const InputId turn = m.add_input({.name = "crank", .kind = InputKind::turn, .joint = shaft});

  PathFollower follower(assemble(m, {turn}));
  ASSERT_TRUE(follower.go_to({from_deg(10)}).usable()) << follower.report().message;

  const Mat3& R = follower.kinematics().pose[static_cast<std::size_t>(rocker.value)].R;
  const double turned = to_deg(std::atan2(R(1, 0), R(0, 0)));
  // Printed to 1e-6 deg.
  EXPECT_NEAR(55.267777 + turned, 57.324880, 2e-6);
  expect_same(follower, {turn});
}

struct Rssr {
  Mechanism m;
  InputId pitman{};
  BodyId knuckle{};
  Vec3 kingpin = Vec3::Zero();
};

// kinematics reference 3.5 check b, in inches there.
Rssr rssr() {
  const auto inch = [](double x, double y, double z) {
    return Vec3(from_inch(x), from_inch(y), from_inch(z));
  };
  Rssr r;
  Mechanism& m = r.m;
  const BodyId arm = m.add_body("pitman");
  r.knuckle = m.add_body("knuckle");
  const Vec3 shaft(std::sin(from_deg(10)), 0, std::cos(from_deg(10)));
  // 6.5 rearward, square to the shaft; the page prints the ball as (13.598750, 16, 9.128713).
  const Vec3 ball =
      inch(20, 16, 8) + from_inch(6.5) * Vec3(-std::cos(from_deg(10)), 0, std::sin(from_deg(10)));
  const Vec3 lower = inch(0, -28, -4);
  r.kingpin = (inch(-0.8, -26.5, 4) - lower).normalized();
  const JointId pin = pin_to_frame(m, arm, inch(20, 16, 8), shaft);
  pin_to_frame(m, r.knuckle, lower, r.kingpin);
  const AnchorId from = m.add_anchor("pitman ball", arm, ball);
  const AnchorId to = m.add_anchor("steering arm ball", r.knuckle, inch(8, -27, 1));
  m.add_joint({.name = "drag link",
               .kind = JointKind::distance,
               .body_a = arm,
               .body_b = r.knuckle,
               .a = from,
               .b = to,
               .length = m.add_length("drag link", from, to)});
  r.pitman = m.add_input({.name = "pitman", .kind = InputKind::turn, .joint = pin});
  return r;
}

TEST(MechanismOracle, Rssr) {
  const Rssr r = rssr();
  PathFollower follower(assemble(r.m, {r.pitman}));
  // Pitman turn, knuckle turn, degrees, as printed.
  const double table[][2] = {{-30, 26.094644}, {-20, 16.934054}, {-10, 8.285897}, {0, 0},
                             {10, -7.924631},  {20, -15.388621}, {30, -22.211798}};
  for (const auto& row : table) {
    ASSERT_TRUE(follower.go_to({from_deg(row[0])}).usable());
    const Mat3& R = follower.kinematics().pose[static_cast<std::size_t>(r.knuckle.value)].R;
    const Vec3 twice_sine(R(2, 1) - R(1, 2), R(0, 2) - R(2, 0), R(1, 0) - R(0, 1));
    const double turn = std::atan2(twice_sine.dot(r.kingpin), R.trace() - 1);
    EXPECT_NEAR(to_deg(turn), row[1], 1e-6) << "pitman " << row[0];
    expect_same(follower, {r.pitman});
  }
}

}  // namespace
}  // namespace axlewright::oracle
