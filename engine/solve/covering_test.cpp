// Proofs that poses lie on a branch, on linkages in the plane whose two assemblies are drawn with compasses.

#include "engine/solve/covering.h"

#include <cmath>
#include <functional>
#include <numbers>
#include <random>

#include <gtest/gtest.h>

#include "engine/base/units.h"

namespace axlewright {
namespace {

JointId add_pin(Mechanism& m, const std::string& name, BodyId body, const Vec3& place) {
  return m.add_pin(name, kFrame, body, place, Vec3::UnitZ());
}

Vec3 polar(double radius, double angle) {
  return radius * Vec3(std::cos(angle), std::sin(angle), 0);
}

double turn_of(const PathFollower& place, BodyId body) {
  const System& system = place.system();
  return place
      .state()[static_cast<std::size_t>(system.tree_of_body[static_cast<std::size_t>(body.value)])]
      .x;
}

/// A crank about the origin and a rider on the x axis, a rod between them; the rider is set.
struct SliderCrank {
  static constexpr double kCrank = 0.1, kRod = 0.25, kStart = 0.9;  // [m, m, rad]
  Mechanism m;
  BodyId crank, rider;
  InputId place;

  static double rider_at(double angle) {
    const double up = kCrank * std::sin(angle);
    return kCrank * std::cos(angle) + std::sqrt(kRod * kRod - up * up);
  }
  static double angle_at(double rider) {
    return std::acos((kCrank * kCrank + rider * rider - kRod * kRod) / (2 * kCrank * rider));
  }

  SliderCrank() {
    crank = m.add_body("crank");
    rider = m.add_body("rider");
    add_pin(m, "crank pivot", crank, Vec3::Zero());
    const Vec3 foot(rider_at(kStart), 0, 0);
    m.add_slide("way", kFrame, rider, Vec3::UnitX());
    m.add_bar("rod", crank, polar(kCrank, kStart), rider, foot);
    place = m.add_input({.name = "place",
                         .kind = InputKind::coordinate,
                         .anchor = m.add_anchor("foot", rider, foot),
                         .axis = m.add_axis("along", kFrame, Vec3::UnitX())});
  }
};

/// Pivots kFrameLength apart, a coupler as long, a crank of kCrank and rockers that differ from it by a hair: nearly a parallelogram. Where
/// the crank lies along the frame, its two assemblies come close to each other. With two rockers, each on a coupler of its own, both do so at
/// once, and the determinant's sign cannot tell.
struct NearParallelogram {
  static constexpr double kCrank = 0.1, kFrameLength = 0.3;  // [m]
  static constexpr double kStart = 60 * kRadiansPerDegree;
  double rocker_length;
  Mechanism m;
  BodyId rocker;
  InputId turn;

  /// Angle of the rocker in the assembly that starts like a parallelogram; NaN where the coupler does not reach.
  double rocker_at(double crank, double side = -1) const {
    const Vec3 to_tip = polar(kCrank, crank) - Vec3(kFrameLength, 0, 0);
    const double d = to_tip.norm();
    const double reach = (d * d + rocker_length * rocker_length - kFrameLength * kFrameLength) /
                         (2 * d * rocker_length);
    // The tip stays left of the rocker's pivot: its direction from there, counted upwards, does not jump.
    const double direction = std::atan2(to_tip.y(), to_tip.x());
    return (direction < 0 ? direction + 2 * kPi : direction) + side * std::acos(reach);
  }

  explicit NearParallelogram(double longer, int rockers = 2) : rocker_length(kCrank + longer) {
    const BodyId crank = m.add_body("crank");
    const JointId shaft = add_pin(m, "crank pivot", crank, Vec3::Zero());
    const Vec3 pivot(kFrameLength, 0, 0);
    for (int k = 0; k < rockers; ++k) {
      rocker = m.add_body("rocker");
      add_pin(m, "rocker pivot", rocker, pivot);
      m.add_bar("coupler", crank, polar(kCrank, kStart), rocker,
                pivot + polar(rocker_length, rocker_at(kStart)));
    }
    turn = m.add_input({.name = "turn", .kind = InputKind::turn, .joint = shaft});
  }

  static constexpr double kPi = std::numbers::pi;
};

using Bilinear = std::function<double(double d1, double d2, double e1, double e2)>;

/// Largest |D^2 phi [d, e]| over the box of directions and over many poses |x_j| <= radius w_j.
double largest_bend(const std::vector<double>& w, double radius,
                    const std::function<Bilinear(double x1, double x2)>& bend_at) {
  std::mt19937 random(20);
  std::uniform_real_distribution<double> one(-1, 1);
  double largest = 0;
  for (int k = 0; k < 2000; ++k) {
    const Bilinear bend = bend_at(radius * w[0] * one(random), radius * w[1] * one(random));
    // A bilinear form is largest at corners.
    for (const double d : {1.0, -1.0}) {
      for (const double e : {1.0, -1.0})
        largest = std::max(largest, std::abs(bend(w[0], d * w[1], w[0], e * w[1])));
    }
  }
  return largest;
}

double bound_of_bar(const Mechanism& m, InputId input, const std::vector<double>& weights,
                    double radius) {
  PathFollower follower(assemble(m, {input}));
  const std::vector<int>& rows = follower.assembly().active;
  CurvatureBounds bounds(follower.system(), follower.design(), rows);
  bounds.centre_on(follower.state(), follower.kinematics());
  std::vector<double> by_row;
  bounds.evaluate(weights, radius, by_row);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const Equation& e = follower.system().equations[static_cast<std::size_t>(rows[k])];
    if (e.kind == EquationKind::distance) return by_row[k];
  }
  ADD_FAILURE() << "no bar";
  return 0;
}

constexpr double kRounding = 1e-9;  // share: the same numbers, summed in another order
constexpr double kLoose = 3;  // a bound that is larger than the truth by more than this costs steps

// Rod from the crank's tip to the rider: phi = (a^2 + z^2 - 2 a z cos t - L^2) / 2L, t the crank's angle, z the rider's place.
TEST(CurvatureBounds, HoldForASliderCrank) {
  const SliderCrank s;
  constexpr double a = SliderCrank::kCrank, length = SliderCrank::kRod;
  const auto bend_at = [&](double x1, double x2) -> Bilinear {
    const double t = SliderCrank::kStart + x1, z = SliderCrank::rider_at(SliderCrank::kStart) + x2;
    const double tt = a * z * std::cos(t) / length, tz = a * std::sin(t) / length;
    return [=](double d1, double d2, double e1, double e2) {
      return tt * d1 * e1 + tz * (d1 * e2 + d2 * e1) + d2 * e2 / length;
    };
  };
  for (const std::vector<double>& w : {std::vector<double>{2.5, 1}, {0.3, 1}, {2.5, 0.1}}) {
    for (const double radius : {0.0, 0.02, 0.1}) {
      const double bound = bound_of_bar(s.m, s.place, w, radius);
      const double truth = largest_bend(w, radius, bend_at);
      EXPECT_LE(truth, bound * (1 + kRounding)) << radius;
      EXPECT_LE(bound, kLoose * truth) << radius;
    }
  }
}

// Coupler between crank (t) and rocker (r): 2L phi = a^2 + g^2 + b^2 - L^2 - 2 a g cos t + 2 g b cos r - 2 a b cos(t - r).
TEST(CurvatureBounds, HoldForAFourBar) {
  const NearParallelogram n(0.02, 1);
  constexpr double a = NearParallelogram::kCrank, g = NearParallelogram::kFrameLength;
  const double b = n.rocker_length;
  const auto bend_at = [&](double x1, double x2) -> Bilinear {
    const double t = NearParallelogram::kStart + x1;
    const double r = n.rocker_at(NearParallelogram::kStart) + x2;
    const double both = a * b * std::cos(t - r);
    const double tt = (a * g * std::cos(t) + both) / g, rr = (both - g * b * std::cos(r)) / g;
    return [=](double d1, double d2, double e1, double e2) {
      return tt * d1 * e1 + rr * d2 * e2 - both / g * (d1 * e2 + d2 * e1);
    };
  };
  for (const std::vector<double>& w : {std::vector<double>{2.5, 2.5}, {0.5, 2.5}, {2.5, 0.5}}) {
    for (const double radius : {0.0, 0.02, 0.1}) {
      const double bound = bound_of_bar(n.m, n.turn, w, radius);
      const double truth = largest_bend(w, radius, bend_at);
      EXPECT_LE(truth, bound * (1 + kRounding)) << radius;
      // Lever arms do not see that the coupler's terms and the rocker's nearly cancel at this pose.
      EXPECT_LE(bound, 4 * kLoose * truth) << radius;
    }
  }
}

// Direction (0, b, c) turned by x about y: heading = -atan u, u = (c / b) sin x. Nearly upright, so that its heading turns fast.
TEST(CurvatureBounds, HoldForAHeadingNearlyUpright) {
  constexpr double b = 0.2, kStart = 0.12;
  const double c = std::sqrt(1 - b * b);
  Mechanism m;
  const BodyId body = m.add_body("post");
  const Vec3 start(c * std::sin(kStart), b, c * std::cos(kStart));
  m.add_pin("pivot", kFrame, body, Vec3::Zero(), Vec3::UnitY());
  const InputId heading = m.add_input({.name = "heading",
                                       .kind = InputKind::heading,
                                       .headings = {{m.add_axis("post", body, start)}}});
  PathFollower follower(assemble(m, {heading}));
  CurvatureBounds bounds(follower.system(), follower.design(), follower.assembly().active);
  bounds.centre_on(follower.state(), follower.kinematics());
  std::vector<double> bound;
  for (const double radius : {0.0, 0.02, 0.1}) {
    bounds.evaluate({1.0}, radius, bound);
    double truth = 0;
    for (double x = kStart - radius; x <= kStart + radius + 1e-12; x += 0.01) {
      const double u = c / b * std::sin(x), slope = c / b * std::cos(x), square = 1 + u * u;
      truth = std::max(truth, std::abs(u / square + 2 * u * slope * slope / (square * square)));
    }
    EXPECT_LE(truth, bound[0] * (1 + kRounding)) << radius;
    if (radius < 0.1) {
      EXPECT_LE(bound[0], kLoose * truth) << radius;
    }
  }
  bounds.evaluate({1.0}, 0.5, bound);
  EXPECT_TRUE(std::isinf(bound[0]));  // it could stand upright
}

TEST(BranchProof, CoversASliderCrankUpToItsDeadCentre) {
  const SliderCrank s;
  constexpr double kFarthest = SliderCrank::kCrank + SliderCrank::kRod;
  BranchProof proof(assemble(s.m, {s.place}));
  for (const double rider : {0.30, 0.33, 0.345, 0.349}) {
    const Covering& covering = proof.extend_to({rider});
    ASSERT_TRUE(covering.complete) << covering.stopped_by;
    EXPECT_EQ(covering.stopped_by, "");
    EXPECT_LE(covering.largest_h, 0.5);
    const double angle = SliderCrank::angle_at(rider);
    EXPECT_NEAR(SliderCrank::kStart + turn_of(proof.place(), s.crank), angle, 1e-9);
    // The other assembly has the crank below. Near the dead centre the crank moves fastest, so its turn alone measures the ball.
    if (rider > 0.34) {
      EXPECT_LT(covering.smallest_radius, kAngleLength * 2 * angle);
    }
  }
  EXPECT_LT(proof.covering().steps, 200);
  const Covering& beyond = proof.extend_to({kFarthest + 0.01});
  EXPECT_FALSE(beyond.complete);
  EXPECT_EQ(beyond.legs, 4);
  EXPECT_LT(beyond.reached, (kFarthest - 0.349) / (kFarthest + 0.01 - 0.349));
  EXPECT_GT(beyond.reached, 0.9 * (kFarthest - 0.349) / (kFarthest + 0.01 - 0.349));
  EXPECT_NE(beyond.stopped_by.find("rod and crank run straight"), std::string::npos)
      << beyond.stopped_by;
}

TEST(BranchProof, StaysStopped) {
  const SliderCrank s;
  BranchProof proof(assemble(s.m, {s.place}));
  ASSERT_FALSE(proof.extend_to({0.4}).complete);
  EXPECT_FALSE(proof.extend_to({0.3}).complete);
  EXPECT_FALSE(proof.is_at(proof.place().state()));
}

// Both assemblies of the slider-crank fit every place of the rider; the proof knows one from the other.
TEST(BranchProof, TellsTheOtherAssemblyApart) {
  const SliderCrank s;
  BranchProof proof(assemble(s.m, {s.place}));
  ASSERT_TRUE(proof.extend_to({0.345}).complete);
  PathFollower follower(assemble(s.m, {s.place}));
  ASSERT_TRUE(follower.go_to({0.345}).usable());
  State state = follower.state();
  EXPECT_TRUE(proof.is_at(state));
  state[0].x -= 2 * SliderCrank::angle_at(0.345);  // the crank enters the tree first
  EXPECT_FALSE(proof.is_at(state));
}

TEST(BranchProof, GoesOnBothWaysFromACopy) {
  const SliderCrank s;
  BranchProof proof(assemble(s.m, {s.place}));
  ASSERT_TRUE(proof.extend_to({0.30}).complete);
  BranchProof out = proof, in = proof;
  EXPECT_TRUE(out.extend_to({0.34}).complete);
  EXPECT_TRUE(in.extend_to({0.16}).complete);
  EXPECT_NEAR(SliderCrank::kStart + turn_of(out.place(), s.crank), SliderCrank::angle_at(0.34),
              1e-9);
  EXPECT_NEAR(SliderCrank::kStart + turn_of(in.place(), s.crank), SliderCrank::angle_at(0.16),
              1e-9);
  EXPECT_EQ(out.covering().legs, 2);
}

// The crank goes past where the two assemblies are a hair apart. A step that leaps over that lands on the other one; the two rockers leap
// together, and the determinant keeps its sign.
TEST(BranchProof, ALeapToTheOtherAssemblyIsNotProved) {
  for (const double longer : {1e-3, 1e-5, 1e-7}) {
    const NearParallelogram n(longer);
    const Assembly assembly = assemble(n.m, {n.turn});
    const double far = 200 * kRadiansPerDegree;
    const double turned =
        n.rocker_at(NearParallelogram::kStart + far) - n.rocker_at(NearParallelogram::kStart);
    BranchProof proof(assembly);
    const Covering& covering = proof.extend_to({far});
    ASSERT_TRUE(covering.complete) << covering.stopped_by;
    // Nearly singular on the way: what is left of the follower's 1e-10 m is some ten times that.
    EXPECT_NEAR(turn_of(proof.place(), n.rocker), turned, 1e-8);
    PathFollower follower(assembly);
    ASSERT_TRUE(follower.go_to({far}).usable());
    const bool on_branch = std::abs(turn_of(follower, n.rocker) - turned) < 1e-6;
    EXPECT_EQ(proof.is_at(follower.state()), on_branch);
    EXPECT_LT(covering.steps, 400);
  }
}

// A rocker a hair too short: near the frame's line the coupler does not reach, and beyond that gap there are poses again.
TEST(BranchProof, AGapIsNotLeapt) {
  const NearParallelogram n(-1e-5);
  const double far = 200 * kRadiansPerDegree;
  // Where the tip is farther from the rocker's pivot than coupler and rocker reach, by the law of cosines.
  constexpr double a = NearParallelogram::kCrank, g = NearParallelogram::kFrameLength;
  const double reach = g + n.rocker_length;
  const double gap = std::acos((a * a + g * g - reach * reach) / (2 * a * g));
  const Covering covering = cover(assemble(n.m, {n.turn}), {{far}});
  EXPECT_FALSE(covering.complete);
  const double reached = covering.reached * far + NearParallelogram::kStart;
  EXPECT_LT(reached, gap);
  EXPECT_NEAR(reached, gap, 0.01 * kRadiansPerDegree);
  EXPECT_FALSE(covering.stopped_by.empty());
}

TEST(BranchProof, NothingIsCoveredOfWhatIsNotHeld) {
  const SliderCrank s;
  const Covering covering = cover(assemble(s.m, {}), {{0.3}});
  EXPECT_FALSE(covering.complete);
  EXPECT_EQ(covering.steps, 0);
  EXPECT_EQ(covering.reached, 0);
  EXPECT_NE(covering.stopped_by.find("not held"), std::string::npos) << covering.stopped_by;
}

TEST(BranchProof, GivesThePlaceAtEachCorner) {
  const SliderCrank s;
  std::vector<State> places;
  const Covering covering = cover(assemble(s.m, {s.place}), {{0.3}, {0.34}, {0.4}}, &places);
  EXPECT_FALSE(covering.complete);
  EXPECT_EQ(covering.legs, 2);
  ASSERT_EQ(places.size(), 2u);
  EXPECT_NEAR(SliderCrank::kStart + places[1][0].x, SliderCrank::angle_at(0.34), 1e-9);
}

}  // namespace
}  // namespace axlewright
