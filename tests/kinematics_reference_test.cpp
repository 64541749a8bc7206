// Values from outside: the kinematics references by section, each with its status there ("read in source" or "derived here": a
// closed form worked for that file and checked by another solution). Printed in inches where the table is; any length unit would do.

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/study/lock.h"
#include "tests/support/guided_bar.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::add_link;
using testing::add_point;
using testing::CrossBar;
using testing::GuidedBarAlone;
using testing::GuidedBarShape;
using testing::move_point;
using testing::release;
using testing::StraightAxle;
using testing::truck_of;

constexpr double kLast = 6e-7;  // half of the last digit where six are printed
Vec3 from_inch(const Vec3& p) {
  return p * kMetresPerInch;
}
using axlewright::from_inch;

// ---- 1. Exact straight line

/// Long link 36, short link 18.
GuidedBarShape bar_36() {
  const double half = from_inch(18.0);
  return {.half_link = half, .guide_to_pin = half, .pin_to_end = half};
}

// 1.1, derived here.
TEST(Section1, SliderTravelOfTheExactStraightLine) {
  GuidedBarAlone bar(bar_36());
  struct Row {
    double h, guide_end, tan_theta;
  };
  for (const Row& row : {Row{3, 35.874782, 0.083624}, Row{6, 35.496479, 0.169031},
                         Row{9, 34.856850, 0.258199}, Row{12, 33.941125, 0.353553}}) {
    constexpr double kStep = 1e-3;
    bar.near_end(from_inch(row.h - kStep));
    const double before = bar.guide_end_across();
    bar.near_end(from_inch(row.h + kStep));
    const double after = bar.guide_end_across();
    EXPECT_NEAR((after - before) / from_inch(2 * kStep), -row.tan_theta, kLast);
    EXPECT_NEAR(bar.near_end(from_inch(row.h)).y(), 0, 1e-12);
    EXPECT_NEAR(to_inch(bar.guide_end_across()), row.guide_end, kLast);
  }
}

// 1.2, derived here: with balls in space the near end is held sideways alone.
TEST(Section1, NearEndIsFreeForeAftInItsPlane) {
  GuidedBarAlone bar(bar_36());
  EXPECT_NEAR(bar.near_end(from_inch(6), from_inch(2)).y(), 0, 1e-12);
  EXPECT_NEAR(to_inch(bar.guide_end_across()), 35.440090, kLast);
  EXPECT_NEAR(bar.near_end(from_inch(12), from_inch(-3)).y(), 0, 1e-12);
  EXPECT_NEAR(to_inch(bar.guide_end_across()), 33.808283, kLast);
}

/// Offset of the near end with the through-link at `phi_deg`; 1.3's yB = s + (a + b) sin phi gives the height.
double near_end_at(GuidedBarAlone& bar, double guide_above, double length, double phi_deg) {
  return to_inch(bar.near_end(guide_above + length * std::sin(from_deg(phi_deg))).y());
}

// 1.3, derived here, exact path with each error.
TEST(Section1, PathWithErrors) {
  struct Row {
    double phi, across;
  };
  const double length = from_inch(36.0);
  const auto expect_path = [&](const GuidedBarShape& shape, const std::vector<Row>& rows) {
    GuidedBarAlone bar(shape);
    for (const Row& row : rows)
      EXPECT_NEAR(near_end_at(bar, shape.guide_above, length, row.phi), row.across, kLast)
          << row.phi;
  };
  GuidedBarShape longer = bar_36();
  longer.half_link += from_inch(0.05);
  expect_path(longer, {{0, 0.050000}, {10, 0.050769}, {20, 0.053199}});
  GuidedBarShape off_middle = bar_36();
  off_middle.guide_to_pin += from_inch(0.05);
  off_middle.pin_to_end -= from_inch(0.05);
  expect_path(off_middle, {{0, 0.050000}, {10, 0.047707}, {20, 0.040751}});
  GuidedBarShape guide_high = bar_36();
  guide_high.guide_above = from_inch(0.25);
  expect_path(guide_high, {{0, -0.001736}, {10, -0.045904}, {20, -0.093096}, {-20, 0.088911}});
  GuidedBarShape pin_off = bar_36();
  pin_off.pin_off = from_inch(0.05);
  expect_path(pin_off, {{0, -0.000069}, {10, -0.017435}, {20, -0.034276}, {-20, 0.034128}});
}

// 1.3, derived here: a tilted guide tilts the path by its own angle, exactly.
TEST(Section1, TiltedGuideTiltsThePathExactly) {
  GuidedBarShape shape = bar_36();
  shape.guide_tilt_deg = 1.5;
  GuidedBarAlone bar(shape);
  for (const double h : {3.0, 9.0, 12.0}) {
    EXPECT_NEAR(to_inch(bar.near_end(from_inch(h)).y()), -h * std::tan(from_deg(1.5)), 1e-10);
  }
}

// 1.4, derived here: unequal arms are straight to fourth order where r = a^2 / b, and not where r = sqrt(a b).
TEST(Section1, UnequalArmsAreStraightestAtTheMeanProportional) {
  const auto expect_bow = [](double r, const std::vector<std::pair<double, double>>& rows) {
    GuidedBarAlone bar(
        {.half_link = from_inch(r), .guide_to_pin = from_inch(10), .pin_to_end = from_inch(14.4)});
    const double middle = near_end_at(bar, 0, from_inch(24.4), 0);
    for (const auto& [phi, bow] : rows)
      EXPECT_NEAR(near_end_at(bar, 0, from_inch(24.4), phi) - middle, bow, kLast) << phi;
  };
  expect_bow(100 / 14.4, {{5, -0.000113}, {10, -0.001842}, {15, -0.009664}, {20, -0.032217}});
  expect_bow(12, {{5, 0.023104}, {10, 0.092463}, {15, 0.208231}});
}

// ---- 3. Loops and mobility

struct Crank {
  BodyId body{};
  JointId pin{};
};

Crank add_crank(Mechanism& m, const std::string& name, const Vec3& pivot, const Vec3& axis) {
  Crank crank;
  crank.body = m.add_body(name);
  crank.pin = m.add_pin(name, kFrame, crank.body, pivot, axis);
  return crank;
}

/// Two places and the distance between them, kept by a bar.
struct Rod {
  AnchorId a{}, b{};
};

Rod add_rod(Mechanism& m, BodyId body_a, const Vec3& a, BodyId body_b, const Vec3& b) {
  const Rod rod{m.add_anchor("rod", body_a, a), m.add_anchor("rod", body_b, b)};
  m.add_joint({.name = "rod",
               .kind = JointKind::distance,
               .body_a = body_a,
               .body_b = body_b,
               .a = rod.a,
               .b = rod.b,
               .length = m.add_length("rod", rod.a, rod.b)});
  return rod;
}

Vec3 place(const PathFollower& f, AnchorId id) {
  const Anchor& anchor = f.system().mechanism.anchor(id);
  return f.kinematics().pose[index(anchor.body.value)].place(anchor.at);
}

double direction_deg(const Vec3& span) {
  return to_deg(std::atan2(span.y(), span.x()));
}

/// Crank 40, coupler 120, rocker 80, ground 100, in tenths of a metre; drawn with the crank at 90 deg.
struct FourBar {
  Mechanism m;
  Rod coupler;
  InputId crank{};
};

FourBar four_bar(bool open) {
  FourBar g;
  const Vec3 crank_end(0, 0.4, 0), rocker_pivot(1.0, 0, 0);
  // The coupler's other end: where circles of 1.2 about the crank's end and 0.8 about the rocker's pivot meet.
  const Vec3 between = rocker_pivot - crank_end;
  const double d = between.norm();
  const double along = (1.2 * 1.2 - 0.8 * 0.8 + d * d) / (2 * d);
  const double beside = std::sqrt(1.2 * 1.2 - along * along) * (open ? 1 : -1);
  const Vec3 ahead = between / d;
  const Vec3 rocker_end = crank_end + along * ahead + beside * Vec3(-ahead.y(), ahead.x(), 0);
  const Crank crank = add_crank(g.m, "crank", Vec3::Zero(), Vec3::UnitZ());
  const Crank rocker = add_crank(g.m, "rocker", rocker_pivot, Vec3::UnitZ());
  g.coupler = add_rod(g.m, crank.body, crank_end, rocker.body, rocker_end);
  g.crank = g.m.add_input({.name = "crank", .kind = InputKind::turn, .joint = crank.pin});
  return g;
}

// 3.1, read in source: Norton, Design of Machinery, Example 4.1, inputs from its code; the angles recomputed. The crossed coupler
// at 30 deg is -56.43747800: the references have a 9 for its last digit.
TEST(Section3, PlanarFourBar) {
  struct Row {
    bool open;
    double crank, coupler, rocker;
  };
  for (const Row& row :
       {Row{true, 40, 20.297883, 57.324880}, Row{false, 40, -60.977967, -98.004964},
        Row{true, 30, 22.409015, 55.267777}, Row{false, 30, -56.437478, -89.296241}}) {
    const FourBar g = four_bar(row.open);
    PathFollower f(assemble(g.m, {g.crank}));
    ASSERT_TRUE(f.go_to({from_deg(row.crank - 90)}).usable()) << f.report().message;
    const Vec3 a = place(f, g.coupler.a), b = place(f, g.coupler.b);
    EXPECT_NEAR(direction_deg(b - a), row.coupler, kLast);
    EXPECT_NEAR(direction_deg(b - Vec3(1.0, 0, 0)), row.rocker, kLast);
    if (row.open) {
      const double transmission = direction_deg(b - Vec3(1.0, 0, 0)) - direction_deg(b - a);
      EXPECT_NEAR(transmission, row.crank == 40 ? 37.026997 : 32.858763, 2 * kLast);
    }
  }
}

// 3.2, read in source: Example 4.2 there. Crank 40, coupler 120, offset -20.
TEST(Section3, SliderCrank) {
  for (const bool open : {true, false}) {
    Mechanism m;
    const Crank crank = add_crank(m, "crank", Vec3::Zero(), Vec3::UnitZ());
    const BodyId block = m.add_body("block");
    const Vec3 crank_end(0, 0.4, 0);  // drawn at 90 deg: the block 0.6 below the crank's end
    const Vec3 at((open ? 1 : -1) * std::sqrt(1.2 * 1.2 - 0.6 * 0.6), -0.2, 0);
    m.add_joint({.name = "slide",
                 .kind = JointKind::slide,
                 .body_a = kFrame,
                 .body_b = block,
                 .a = m.add_anchor("slide", kFrame, at),
                 .b = m.add_anchor("slide", block, at),
                 .axis_a = m.add_axis("slide", kFrame, Vec3::UnitX())});
    const Rod rod = add_rod(m, crank.body, crank_end, block, at);
    const InputId turn =
        m.add_input({.name = "crank", .kind = InputKind::turn, .joint = crank.pin});
    PathFollower f(assemble(m, {turn}));
    ASSERT_TRUE(f.go_to({from_deg(60 - 90)}).usable());
    EXPECT_NEAR(place(f, rod.b).x(), open ? 1.26838005 : -0.86838005, 1e-8);
    // The source's coupler angle is taken at the block.
    EXPECT_NEAR(direction_deg(place(f, rod.a) - place(f, rod.b)), open ? 152.913072 : 27.086928,
                kLast);
  }
}

// 3.3, read in source: Andrews' squeezing mechanism, both published positions; angles as there. Seven bodies, three loops.
struct Andrews {
  double beta, theta, gamma, phi, delta, omega, epsilon;
};

constexpr Andrews kFirst{-0.0617138900142764496, 0,
                         0.455279819163070380,   0.222668390165885885,
                         0.487364979543842550,   -0.222668390165885885,
                         1.230547444549821192};
constexpr Andrews kSecond{15.81077119629904,   -15.75637105984298, 0.04082224013073101,
                          -0.5347301163226948, 0.5244099658805304, 0.5347301163226948,
                          1.048080741042263};

Vec3 towards(double length, double angle) {
  return {length * std::cos(angle), length * std::sin(angle), 0};
}
/// A direction told from the y axis, as gamma is: (sin, -cos).
Vec3 below(double length, double angle) {
  return {length * std::sin(angle), -length * std::cos(angle), 0};
}

TEST(Section3, AndrewsSqueezingMechanism) {
  // Grown forty times: 7 mm would be lost in tolerances meant for trucks.
  constexpr double kScale = 40;
  const Vec3 A = kScale * Vec3(-0.06934, -0.00227, 0), B = kScale * Vec3(-0.03635, 0.03273, 0);
  const double rr = kScale * 0.007, d = kScale * 0.028, ss = kScale * 0.035;
  const double e = kScale * 0.02, zt = kScale * 0.04, zf = kScale * 0.02, u = kScale * 0.04;
  const auto knee = [&](const Andrews& q) {
    return Vec3(towards(rr, q.beta) - towards(d, q.beta + q.theta));
  };
  const Andrews& q = kFirst;
  const Vec3 P = knee(q);
  // xa + e sin(phi + delta) + zt cos(delta), ya - e cos(phi + delta) + zt sin(delta): elbow of the first pair of arms at A.
  const Vec3 first_elbow = A + towards(zt, q.delta);
  // xa + zf cos(omega + eps) + u sin(eps), ya + zf sin(omega + eps) - u cos(eps): of the second.
  const Vec3 second_elbow = A + below(u, q.epsilon);
  ASSERT_LT((B + below(ss, q.gamma) - P).norm(), 1e-12);
  ASSERT_LT((first_elbow + below(e, q.phi + q.delta) - P).norm(), 1e-12);
  ASSERT_LT((second_elbow + towards(zf, q.omega + q.epsilon) - P).norm(), 1e-12);

  // Bodies that carry a ball which others end at: crank, knee and the two arms at A; the rest are bars.
  Mechanism m;
  const Crank crank = add_crank(m, "crank", Vec3::Zero(), Vec3::UnitZ());
  const Crank lower = add_crank(m, "arm at B", B, Vec3::UnitZ());
  const Crank first = add_crank(m, "first arm at A", A, Vec3::UnitZ());
  const Crank second = add_crank(m, "second arm at A", A, Vec3::UnitZ());
  const Rod knee_rod = add_rod(m, crank.body, towards(rr, q.beta), lower.body, P);
  const Rod first_rod = add_rod(m, first.body, first_elbow, lower.body, P);
  const Rod second_rod = add_rod(m, second.body, second_elbow, lower.body, P);
  const InputId turn = m.add_input({.name = "crank", .kind = InputKind::turn, .joint = crank.pin});
  PathFollower f(assemble(m, {turn}));
  // Two and a half turns of the crank.
  ASSERT_TRUE(f.go_to({kSecond.beta - kFirst.beta}).usable()) << f.report().message;
  EXPECT_EQ(f.report().certificate, Certificate::followed);
  const double kTight = 1e-9;
  EXPECT_LT((place(f, knee_rod.b) - knee(kSecond)).norm(), kTight);
  EXPECT_LT((place(f, knee_rod.a) - towards(rr, kSecond.beta)).norm(), kTight);
  EXPECT_LT((place(f, first_rod.a) - (A + towards(zt, kSecond.delta))).norm(), kTight);
  EXPECT_LT((place(f, second_rod.a) - (A + below(u, kSecond.epsilon))).norm(), kTight);
}

/// A rod that is a body: two balls, one idle spin.
void add_rod_body(Mechanism& m, BodyId body_a, const Vec3& a, BodyId body_b, const Vec3& b) {
  const BodyId rod = m.add_body("rod");
  for (const auto& [body, at] : {std::pair{body_a, a}, std::pair{body_b, b}}) {
    m.add_ball("rod ball", body, rod, at);
  }
}

int mobility(const Mechanism& m) {
  return assemble(m, {}).mobility;
}

struct AxleOnLinks {
  Mechanism m;
  BodyId axle{};
};

AxleOnLinks axle_on_links(int links, bool track_bar) {
  AxleOnLinks g;
  g.axle = g.m.add_body("axle");
  const std::vector<std::pair<Vec3, Vec3>> places = {{{-1.0, 0.55, 0.35}, {-0.05, 0.52, 0.40}},
                                                     {{-1.0, -0.55, 0.35}, {-0.05, -0.52, 0.40}},
                                                     {{-0.9, 0.25, 0.60}, {-0.04, 0.28, 0.64}},
                                                     {{-0.9, -0.30, 0.58}, {-0.02, -0.26, 0.66}}};
  for (int k = 0; k < links; ++k)
    add_rod_body(g.m, kFrame, places[index(k)].first, g.axle, places[index(k)].second);
  if (track_bar) add_rod_body(g.m, kFrame, {0.10, 0.45, 0.62}, g.axle, {0.12, -0.46, 0.50});
  return g;
}

JointId add_pin(Mechanism& m, BodyId a, BodyId b, const Vec3& at, const Vec3& axis) {
  return m.add_pin("pin", a, b, at, axis);
}

// 3.4, derived here by Kutzbach's count (the count itself read in source): pitman, drag link, knuckle: 2 = steering + an idle spin.
TEST(Section3, MobilityOfPitmanDragLinkAndKnuckle) {
  Mechanism m;
  const Crank pitman = add_crank(m, "pitman", {0.3, 0.4, 0.6}, {0.1, 0, 1});
  const Crank knuckle = add_crank(m, "knuckle", {0, -0.7, 0.5}, {-0.1, 0.15, 1});
  add_rod_body(m, pitman.body, {0.14, 0.4, 0.6}, knuckle.body, {0.17, -0.68, 0.47});
  EXPECT_EQ(mobility(m), 2);
}

// 3.4, read in source: a planar four-bar of pins counts -2 in space, and really is 1: three redundant.
TEST(Section3, PlanarFourBarOfPinsStillMoves) {
  Mechanism m;
  const BodyId crank = m.add_body("crank"), coupler = m.add_body("coupler"),
               rocker = m.add_body("rocker");
  add_pin(m, kFrame, crank, {0, 0, 0}, Vec3::UnitZ());
  add_pin(m, crank, coupler, {0, 0.4, 0}, Vec3::UnitZ());
  add_pin(m, coupler, rocker, {1.1, 0.8, 0}, Vec3::UnitZ());
  add_pin(m, kFrame, rocker, {1.0, 0, 0}, Vec3::UnitZ());
  EXPECT_EQ(mobility(m), 1);
}

// 3.4, derived here.
TEST(Section3, MobilityOfAnAxleOnLinks) {
  EXPECT_EQ(mobility(axle_on_links(3, true).m), 6);  // heave, roll, four spins
  EXPECT_EQ(mobility(axle_on_links(4, true).m), 6);  // heave, five spins: roll is locked
}

// 3.4, derived here: 3 links and track bar, knuckles, tie rod, drag link, pitman: 9 = heave, roll, steering and six spins.
TEST(Section3, MobilityOfAPlainFrontEnd) {
  AxleOnLinks g = axle_on_links(3, true);
  Mechanism& m = g.m;
  const BodyId left = m.add_body("left knuckle"), right = m.add_body("right knuckle");
  add_pin(m, g.axle, left, {0, 0.7, 0.45}, {-0.1, -0.15, 1});
  add_pin(m, g.axle, right, {0, -0.7, 0.45}, {-0.1, 0.15, 1});
  const Crank pitman = add_crank(m, "pitman", {0.34, 0.43, 0.6}, Vec3::UnitZ());
  add_rod_body(m, left, {0.17, 0.72, 0.42}, right, {0.17, -0.72, 0.42});
  add_rod_body(m, pitman.body, {0.17, 0.43, 0.6}, right, {0.17, -0.70, 0.47});
  EXPECT_EQ(mobility(m), 9);
}

// 3.4, derived here: 3 links and a guided bar of balls on a rail: 7 = heave, roll and five spins.
TEST(Section3, MobilityOfAnAxleOnAGuidedBar) {
  AxleOnLinks g = axle_on_links(3, false);
  Mechanism& m = g.m;
  const Vec3 near(0.1, 0.43, 0.6), pivot(0.1, 0.43, 0.47), end(0.1, -0.4606, 0.47);
  const BodyId through = m.add_body("through-link"), half = m.add_body("half-link"),
               carriage = m.add_body("carriage");
  const auto ball = [&](BodyId a, BodyId b, const Vec3& at) { m.add_ball("ball", a, b, at); };
  ball(kFrame, through, near);
  ball(g.axle, half, pivot);
  ball(half, through, 0.5 * (near + end));
  ball(carriage, through, end);
  m.add_joint({.name = "rail",
               .kind = JointKind::slide,
               .body_a = g.axle,
               .body_b = carriage,
               .a = m.add_anchor("rail", g.axle, end),
               .b = m.add_anchor("rail", carriage, end),
               .axis_a = m.add_axis("rail", g.axle, Vec3::UnitY())});
  EXPECT_EQ(mobility(m), 7);
}

/// Turn of a body about a unit axis, from its rotation.
double turn_deg(const Pose& pose, const Vec3& axis) {
  const Mat3& R = pose.R;
  const Vec3 axial(R(2, 1) - R(1, 2), R(0, 2) - R(2, 0), R(1, 0) - R(0, 1));
  return to_deg(std::atan2(0.5 * axial.dot(axis), 0.5 * (R.trace() - 1)));
}

// 3.5 b, derived here: closed form of the RSSR linkage (McCarthy and Soh, Geometric Design of Linkages, A.1) on an invented
// steering.
TEST(Section3, PitmanTurnsTheKnuckleByTheClosedForm) {
  Mechanism m;
  const Vec3 shaft(std::sin(from_deg(10)), 0, std::cos(from_deg(10)));
  const Vec3 lower(0, -28, -4), upper(-0.8, -26.5, 4);
  const Vec3 kingpin = (upper - lower).normalized();
  const Crank pitman = add_crank(m, "pitman", from_inch(Vec3(20, 16, 8)), shaft);
  const Crank knuckle = add_crank(m, "knuckle", from_inch(lower), kingpin);
  // 6.5 from the shaft, square to it and to the rear; printed to six digits.
  const Vec3 ball(20 - 6.5 * std::cos(from_deg(10)), 16, 8 + 6.5 * std::sin(from_deg(10)));
  ASSERT_LT((ball - Vec3(13.598750, 16, 9.128713)).norm(), 1e-6);
  const Rod rod =
      add_rod(m, pitman.body, from_inch(ball), knuckle.body, from_inch(Vec3(8, -27, 1)));
  ASSERT_NEAR(to_inch((m.anchor(rod.a).at - m.anchor(rod.b).at).norm()), 44.118273, kLast);
  const InputId turn =
      m.add_input({.name = "pitman", .kind = InputKind::turn, .joint = pitman.pin});
  PathFollower f(assemble(m, {turn}));
  for (const auto& [pitman_deg, knuckle_deg] :
       {std::pair{-30.0, 26.094644}, std::pair{-20.0, 16.934054}, std::pair{-10.0, 8.285897},
        std::pair{0.0, 0.0}, std::pair{10.0, -7.924631}, std::pair{20.0, -15.388621},
        std::pair{30.0, -22.211798}}) {
    ASSERT_TRUE(f.go_to({from_deg(pitman_deg)}).usable());
    EXPECT_NEAR(turn_deg(f.kinematics().pose[index(knuckle.body.value)], kingpin), knuckle_deg,
                kLast)
        << pitman_deg;
  }
}

// ---- 4. Track bar, roll centre, steering axis

double walk_inch(double length, double drop, double height) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{from_inch(length), from_inch(drop)},
                                .drag_link = CrossBar{}}));
  PoseRequest request;
  request.height = from_inch(height);
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose.report.usable() ? to_inch(pose.values[kAxleWalkSide]) : 0;
}

// 4.1, derived here. The bar's frame end is on the left and the higher: raised, the axle goes left.
TEST(Section4, TrackBarShift) {
  EXPECT_NEAR(walk_inch(30, 0, 3), 0.150377, kLast);
  EXPECT_NEAR(walk_inch(32, 0, 4), 0.250984, kLast);
  EXPECT_NEAR(walk_inch(32, 0, -4), 0.250984, kLast);
  EXPECT_NEAR(walk_inch(32, 6, 4), 1.035099, kLast);
  EXPECT_NEAR(walk_inch(32, 6, -4), -0.504972, kLast);
  EXPECT_NEAR(walk_inch(32, 10, 4), 1.622379, kLast);
  EXPECT_NEAR(walk_inch(32, 10, -4), -1.035099, kLast);
}

// 4.2, read in source for a level bar (its height); from memory there for an inclined one: where its line crosses the middle plane,
// which definition 10 says too.
TEST(Section4, RollCentreOfATrackBar) {
  for (const double drop : {0.0, 0.150}) {
    const Truck truck =
        truck_of(StraightAxle{.track_bar = CrossBar{0.900, drop}, .drag_link = CrossBar{}});
    Rig rig(truck);
    const Vec3 axle_end = find_point(truck, "track_bar_axle")->at,
               frame_end = find_point(truck, "track_bar_frame")->at;
    const double share = -axle_end.y() / (frame_end - axle_end).y();
    // Loaded radius and wheel centre are both 460: the road is at z = 0.
    EXPECT_NEAR(rig.solve({}).values[kRollCentreHeight], axle_end.z() + share * drop, 1e-12);
  }
}

// 4.3, derived here.
TEST(Section4, CasterKingpinInclinationScrubAndTrailFromTwoPoints) {
  Truck truck = truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
  for (const double side : {1.0, -1.0}) {
    const std::string name = side > 0 ? "left" : "right";
    move_point(truck, "kingpin_lower_" + name, from_inch(Vec3(0.35, side * 28.5, 14)));
    move_point(truck, "kingpin_upper_" + name, from_inch(Vec3(-0.45, side * 27, 23)));
    move_point(truck, "wheel_centre_" + name, from_inch(Vec3(0, side * 34, 19)));
  }
  truck.wheels.loaded_radius = from_inch(19.0);
  Rig rig(truck);
  const std::vector<double> values = rig.solve({}).values;
  for (const bool left : {true, false}) {
    EXPECT_NEAR(to_deg(values[left ? kCasterLeft : kCasterRight]), 5.079608, kLast);
    EXPECT_NEAR(to_deg(values[left ? kKpiLeft : kKpiRight]), 9.462322, kLast);
    EXPECT_NEAR(to_inch(values[left ? kScrubLeft : kScrubRight]), 3.166667, kLast);
    EXPECT_NEAR(to_inch(values[left ? kTrailLeft : kTrailRight]), 1.594444, kLast);
  }
}

// 4.4, derived here: exact steer and camber of the left wheel against its turn about the kingpin.
TEST(Section4, SteerAndCamberAgainstTurnAboutTheKingpin) {
  struct Row {
    double caster, kpi, turn, steer, camber;
  };
  for (const Row& row :
       {Row{6, 0, 20, 19.899059, 2.048809}, Row{6, 0, -20, -19.899059, -2.048809},
        Row{0, 9, 20, 19.744354, 0.533890}, Row{0, 9, -20, -19.744354, 0.533890},
        Row{0, 9, 35, 34.522933, 1.601198}, Row{0, 9, -35, -34.522933, 1.601198},
        Row{6, 9, -35, -34.518679, -1.809713}, Row{6, 9, -20, -19.699522, -1.495404},
        Row{6, 9, 20, 19.594886, 2.552458}, Row{6, 9, 35, 34.243303, 4.983535}}) {
    Rig rig(truck_of(StraightAxle{.kpi_deg = row.kpi, .caster_deg = row.caster}));
    // Steered until the knuckle has turned as far on the axle, which stands still; by bisection.
    PoseRequest request;
    request.steer_by = SteerBy::road_wheels;
    const Expansion& x = rig.expansion();
    const Vec3 kingpin = x.mechanism.axis(x.kingpin.left).direction;
    double low = from_deg(row.turn - 3), high = from_deg(row.turn + 3);
    std::vector<double> values;
    for (int k = 0; k < 45; ++k) {
      request.steer = 0.5 * (low + high);
      const PoseResult pose = rig.solve(request);
      ASSERT_TRUE(pose.report.usable()) << pose.report.message;
      values = pose.values;
      const Pose& knuckle = rig.follower().kinematics().pose[index(x.knuckle.left.value)];
      (turn_deg(knuckle, kingpin) < row.turn ? low : high) = request.steer;
    }
    EXPECT_NEAR(to_deg(values[kSteerLeft]), row.steer, kLast);
    EXPECT_NEAR(to_deg(values[kCamberLeft]), row.camber, kLast);
  }
}

// ---- 5. Drag link against track bar, roll steer

// 5.1, derived here: drag link 38 with v = 5, track bar 34 with v = 4, arm 7.5, pitman 7, 14:1. The table's steering-wheel error is
// what the pitman ball lacks; the wheel goes the other way to make up for it.
TEST(Section5, MismatchSteersTheKnuckleOrTheWheel) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{from_inch(34), from_inch(4)},
                                .drag_link = CrossBar{from_inch(38), from_inch(5)},
                                .arm = from_inch(7.5),
                                .pitman = from_inch(7),
                                .ratio = 14}));
  struct Row {
    double h, knuckle, wheel;
  };
  for (const Row& row : {Row{-3, -0.430185, -6.452791}, Row{-1, -0.120462, -1.806932},
                         Row{1, 0.097386, 1.460784}, Row{3, 0.221458, 3.321864}}) {
    PoseRequest request;
    request.height = from_inch(row.h);
    request.steer_by = SteerBy::held;
    EXPECT_NEAR(to_deg(rig.solve(request).values[kMeanSteer]), row.knuckle, kLast) << row.h;
    request.steer_by = SteerBy::straight_ahead;
    // The ball swings 0.0002 fore-aft on its arm, which the table leaves out.
    EXPECT_NEAR(to_deg(rig.solve(request).values[kSteeringWheelOffCentre]), -row.wheel, 2e-6)
        << row.h;
  }
}

// 5.1, derived here: equal and parallel, no error at any height.
TEST(Section5, EqualParallelBarsAgreeExactly) {
  Rig rig(truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}}));
  for (const double height : {-0.05, 0.05, 0.15, 0.25}) {
    PoseRequest request;
    request.height = height;
    request.steer_by = SteerBy::held;
    EXPECT_NEAR(rig.solve(request).values[kMeanSteer], 0, 1e-11);
  }
}

// 5.2, derived here, exact geometry: side links 36 long and rising 3 to the rear, 34 apart, roll 3. The side that the frame comes
// down on moves forward: the axle steers into the turn.
TEST(Section5, SideLinksSteerTheAxleInRoll) {
  Truck truck = truck_of(StraightAxle{});
  release(truck, "axle fore-aft");
  release(truck, "axle yaw");
  for (const double side : {17.0, -17.0}) {
    const Vec3 on_axle(0, side, 18);
    add_link(truck, side > 0 ? "link_left" : "link_right",
             from_inch(Vec3(on_axle + Vec3(-36, 0, 3))), from_inch(on_axle));
  }
  Rig rig(truck);
  PoseRequest request;
  request.lean = from_deg(3);
  const PoseResult pose = rig.solve(request);
  ASSERT_TRUE(pose.report.usable()) << pose.report.message;
  // Axle yaw is about frame z (definition 11): of the axle seen in plan, which the roll makes shorter by its cosine. The table's is
  // that of its true length. 3e-6: there the links stay in their side views, here their ends follow the yaw sideways.
  const double plan = std::cos(from_deg(3));
  EXPECT_NEAR(to_deg(std::atan(std::tan(pose.values[kAxleYaw]) * plan)), 0.249961, 3e-6);
}

// ---- 6. Ackermann and turning circle

/// Ideal inner angle when both wheels are steered alike, as by equal parallel arms: what is there less the error told.
double ideal_inner_deg(double wheelbase, double kingpins_apart, double steer_deg) {
  Rig rig(truck_of(StraightAxle{.wheelbase = from_inch(wheelbase),
                                .kingpins_apart = from_inch(kingpins_apart)}));
  PoseRequest request;
  request.steer_by = SteerBy::road_wheels;
  request.steer = from_deg(steer_deg);
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose.report.usable() ? steer_deg - to_deg(pose.values[kAckermannError]) : 0;
}

// 6.1, read in source: table of the inner angle for 20 deg outside, printed to 0.1; three entries recomputed in full.
TEST(Section6, IdealInnerAngle) {
  EXPECT_NEAR(ideal_inner_deg(80, 40, 20), 23.986352, kLast);
  EXPECT_NEAR(ideal_inner_deg(140, 72, 20), 24.122338, kLast);
  EXPECT_NEAR(ideal_inner_deg(180, 94, 20), 24.198515, kLast);
  struct Row {
    double wheelbase, apart, inner;
  };
  for (const Row& row :
       {Row{80, 60, 26.6}, Row{80, 94, 32.5}, Row{120, 50, 23.2}, Row{120, 80, 25.7},
        Row{160, 72, 23.5}, Row{180, 72, 23.1}, Row{260, 94, 22.7}}) {
    EXPECT_NEAR(ideal_inner_deg(row.wheelbase, row.apart, 20), row.inner, 0.055)
        << row.wheelbase << ", " << row.apart;
  }
}

// 6.2, formula read in source (summary of SAE J695), example derived here: wheelbase 160, outer 28, offset 5, track 70.
TEST(Section6, TurningDiameter) {
  Truck truck = truck_of(StraightAxle{
      .wheelbase = from_inch(160), .wheels_apart = from_inch(70), .kingpins_apart = from_inch(60)});
  truck.axle_stops.turn_left = truck.axle_stops.turn_right = from_deg(28);
  Rig rig(truck);
  const Lock lock = find_lock(rig, {});
  for (const LockSide* side : {&lock.left, &lock.right}) {
    ASSERT_TRUE(side->reached) << side->stop;
    EXPECT_NEAR(to_deg(side->outer), 28, 1e-6);
    EXPECT_NEAR(to_inch(side->turning_circle), 691.617, 6e-4);
    EXPECT_NEAR(28 - to_deg(side->ackermann_error), 33.589379, 2e-6);
    EXPECT_NEAR(side->kerb_circle - side->turning_circle, truck.wheels.section, 1e-12);
  }
}

// ---- 8. Side view

// 8.1, derived here: links as a four-bar seen from the side; the wheel centres are put where the lower link's axle joint is.
TEST(Section8, LinksAsASideViewFourBar) {
  Truck truck = truck_of(StraightAxle{});
  release(truck, "axle fore-aft");
  release(truck, "axle pitch");
  const Vec3 origin(0, 0, 20);
  add_link(truck, "lower", from_inch(Vec3(origin + Vec3(-36, 0, 0))),
           from_inch(Vec3(origin + Vec3(0, 0, -3))));
  add_link(truck, "upper", from_inch(Vec3(origin + Vec3(-30, 0, 7))),
           from_inch(Vec3(origin + Vec3(-2, 0, 6))));
  move_point(truck, "wheel_centre_left", from_inch(Vec3(0, 34, 17)));
  move_point(truck, "wheel_centre_right", from_inch(Vec3(0, -34, 17)));
  Rig rig(truck);
  const double caster = rig.solve({}).values[kCasterLeft];
  struct Row {
    double h, x, caster;
  };
  for (const Row& row : {Row{-4, -0.559910, -0.846443}, Row{-2, -0.222912, -0.518930},
                         Row{2, 0.110940, 0.701590}, Row{4, 0.110940, 1.583275}}) {
    PoseRequest request;
    request.travel = from_inch(row.h);  // road and rear stay: the axle alone rises
    const PoseResult pose = rig.solve(request);
    ASSERT_TRUE(pose.report.usable()) << pose.report.message;
    EXPECT_NEAR(to_inch(pose.values[kAxleWalkForward]), row.x, kLast) << row.h;
    EXPECT_NEAR(to_deg(pose.values[kCasterLeft] - caster), row.caster, kLast) << row.h;
    EXPECT_NEAR(std::abs(to_deg(pose.values[kPinionAngle])), std::abs(row.caster), kLast) << row.h;
  }
}

// Nose up is how far the pinion shaft, which points back, stands above level: also where the axle leans and yaws, and the tilt of what
// stands upright on the axle would be another angle.
TEST(Section8, PinionAngleIsTheShaftsElevation) {
  Rig rig(truck_of(std::string("trucks/plain-mismatched.toml")));
  PoseRequest request;
  request.height = 0.200;
  request.lean = from_deg(4);
  request.travel_left = 0.050;
  const PoseResult pose = rig.solve(request);
  ASSERT_TRUE(pose.report.usable()) << pose.report.message;
  const std::size_t axle = static_cast<std::size_t>(rig.expansion().axle.value);
  const Mat3& R = rig.follower().kinematics().pose[axle].R;
  const Vec3 shaft = R * -Vec3::UnitX();
  EXPECT_NEAR(pose.values[kPinionAngle], std::atan2(shaft.z(), std::hypot(shaft.x(), shaft.y())),
              1e-12);
  EXPECT_GT(std::abs(pose.values[kPinionAngle] - std::atan2(R(0, 2), R(2, 2))), from_deg(0.01));
}

// 8.2, derived here: a radius arm of 38 rigid on the axle, level at start, turns it by asin(h / 38).
TEST(Section8, RadiusArmTurnsTheAxle) {
  Truck truck = truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
  release(truck, "axle fore-aft");
  release(truck, "axle pitch");
  truck.parts.erase(truck.parts.begin() +
                    3);  // the track bar: the arm's ball holds the axle sideways
  const double centre = find_point(truck, "wheel_centre_left")->at.z();
  add_point(truck, "arm_ball", "axle", {-from_inch(38), 0, centre});
  PlainJoint ball;
  ball.name = ball.words = "radius arm's ball";
  ball.kind = PlainJointKind::ball;
  ball.between = {"frame", "axle"};
  ball.point = "arm_ball";
  truck.joints.push_back(ball);
  Rig rig(truck);
  const double caster = rig.solve({}).values[kCasterLeft];
  for (const auto& [h, lost] :
       {std::pair{4.0, 6.042328}, std::pair{6.0, 9.084720}, std::pair{10.0, 15.257523}}) {
    PoseRequest request;
    request.height = request.rear_height = from_inch(h);
    const PoseResult pose = rig.solve(request);
    ASSERT_TRUE(pose.report.usable()) << pose.report.message;
    EXPECT_NEAR(to_deg(caster - pose.values[kCasterLeft]), lost, kLast) << h;
  }
}

// ---- 9. Rigid-body motion

// 9.1, read in source: the Modern Robotics code library's worked values, printed to eight digits.
TEST(Section9, RotationByAVector) {
  const Vec3 turn(1, 2, 3);
  const Mat3 R = rotation_about<double>(turn.normalized(), turn.norm());
  Mat3 printed;
  printed << -0.69492056, 0.71352099, 0.08929286, -0.19200697, -0.30378504, 0.93319235, 0.69297817,
      0.6313497, 0.34810748;
  EXPECT_LT((R - printed).cwiseAbs().maxCoeff(), 6e-9);
  // The logarithm of the matrix that turns x to y to z to x has entries 1.20919958.
  const Vec3 log = Vec3::Constant(1.20919958);
  Mat3 cyclic;
  cyclic << 0, 0, 1, 1, 0, 0, 0, 1, 0;
  EXPECT_LT((rotation_about<double>(log.normalized(), log.norm()) - cyclic).cwiseAbs().maxCoeff(),
            2e-8);
}

// 9.1, derived here: a quarter turn about x with p = (0, 0, 3) leaves the line through (0, -1.5, 1.5) along x where it is.
TEST(Section9, PoseLeavesItsAxisWhereItIs) {
  const Pose pose{rotation_about<double>(Vec3::UnitX(), from_deg(90)), Vec3(0, 0, 3)};
  for (const double x : {0.0, 2.0}) {
    const Vec3 on_axis(x, -1.5, 1.5);
    EXPECT_LT((pose.place(on_axis) - on_axis).norm(), 1e-15);
  }
}

// 9.3, derived here: on the instant screw axis the velocity is along it, by the pitch.
TEST(Section9, VelocityOnTheInstantScrewAxis) {
  const Twist twist{Vec3(0.1, 0.2, -0.4), Vec3(3, -1, 2)};
  const Vec3 on_axis(0, -6.666667, -3.333333);
  EXPECT_LT((twist.at(on_axis) - -3.333333 * twist.angular).norm(), 1e-6);
}

}  // namespace
}  // namespace axlewright
