#include "engine/truck/leaf_halves.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/solve/follower.h"

namespace axlewright {
namespace {

constexpr double kHalf = 0.6;  // [m] clamp to eye

LeafSpring symmetric(LeafShape shape, int pieces) {
  LeafSpring leaf;
  leaf.rate = 80e3;
  leaf.shape = shape;
  leaf.pieces = pieces;
  return leaf;
}

/// Half a leaf spring alone: clamped to the frame at the origin, along x, its eye's height the input.
PathFollower clamped_half(const LeafSpring& leaf, BodyId& last) {
  const std::vector<LeafHinge> hinges = leaf_halves(leaf, kHalf, kHalf).eye;
  Mechanism m;
  BodyId inner = kFrame;
  for (const LeafHinge& hinge : hinges) {
    const BodyId outer = m.add_body("piece");
    const Vec3 at(hinge.along * kHalf, 0, 0);
    Joint joint{.name = "hinge", .kind = JointKind::ball, .body_a = inner, .body_b = outer};
    joint.a = m.add_anchor("hinge", inner, at);
    joint.b = m.add_anchor("hinge", outer, at);
    m.add_joint(joint);
    joint.kind = JointKind::bush;
    joint.axis_a = m.add_axis("hinge", inner, Vec3::UnitY());
    joint.axis_b = m.add_axis("hinge", outer, Vec3::UnitY());
    joint.bush.about = Vec3(hinge.sideways, hinge.twist, hinge.up);
    m.add_joint(joint);
    inner = outer;
  }
  last = inner;
  const InputId height = m.add_input({.name = "eye",
                                      .kind = InputKind::coordinate,
                                      .anchor = m.add_anchor("eye", inner, Vec3(kHalf, 0, 0)),
                                      .axis = m.add_axis("up", kFrame, Vec3::UnitZ())});
  return PathFollower(assemble(m, {height}));
}

/// Where the eye goes when it is lifted, and the force that it takes.
struct Lifted {
  double drawn_in = 0;  ///< towards the clamp [m]
  double force = 0;     ///< [N]
};

Lifted lift(const LeafSpring& leaf, double height) {
  BodyId last;
  PathFollower follower = clamped_half(leaf, last);
  EXPECT_TRUE(follower.go_to({height}).usable()) << follower.report().message;
  const Pose& pose = follower.kinematics().pose[static_cast<std::size_t>(last.value)];
  return {kHalf - pose.place(Vec3(kHalf, 0, 0)).x(),
          std::abs(follower.closure_multipliers()[0]) * kForceScale};
}

/// Of a link that carries the eye as the spring does.
double equivalent_link(const Lifted& lifted, double height) {
  return (lifted.drawn_in * lifted.drawn_in + height * height) / (2 * lifted.drawn_in);
}

// A spring that bends to a circle: its eye, lifted by l (1 - cos c) / c, is drawn in by l (1 - sin c / c). The link that does the same is 3/4
// of it, a little less as it curls (0.749958 at a curl of 0.1 rad, 0.749332 at 0.4: worked from the circle). SAE HS-788 has 0.75 l too
// (from memory).
TEST(LeafHalf, OfATaperedSpringIsALinkOfThreeQuarters) {
  // The chain's pieces bend in twelve places; under an end load a tapered leaf keeps its circle only as long as the load stands
  // square to it.
  constexpr double kCoarse = 0.01;
  for (const double curl : {0.1, 0.2}) {
    const double height = kHalf * (1 - std::cos(curl)) / curl;
    const double of_circle = (1 - std::sin(curl) / curl) * kHalf;
    const double exact = (of_circle * of_circle + height * height) / (2 * of_circle) / kHalf;
    EXPECT_NEAR(exact, curl < 0.15 ? 0.749958 : 0.749833, 1e-6);
    const Lifted pieces = lift(symmetric(LeafShape::tapered, 12), height);
    EXPECT_NEAR(equivalent_link(pieces, height) / kHalf, exact, kCoarse);
  }
  const Lifted link = lift(symmetric(LeafShape::tapered, 0), 0.03);
  EXPECT_NEAR(equivalent_link(link, 0.03) / kHalf, 0.75, 1e-9);
}

// An even cantilever: w = F (3 l x^2 - x^3) / (6 E I), drawn in by half the integral of w'^2: a link of 5/6 (closed form).
TEST(LeafHalf, OfAnEvenSpringIsALinkOfFiveSixths) {
  constexpr double kCoarse = 0.01;
  constexpr double kHeight = 0.02;
  const Lifted pieces = lift(symmetric(LeafShape::even, 12), kHeight);
  EXPECT_NEAR(equivalent_link(pieces, kHeight) / kHalf, 5.0 / 6.0, kCoarse);
  const Lifted link = lift(symmetric(LeafShape::even, 0), kHeight);
  EXPECT_NEAR(equivalent_link(link, kHeight) / kHalf, 5.0 / 6.0, 1e-9);
}

// Both halves alike carry half of the load each, and the seat sinks as far as the eyes rise: so each half is half as stiff as the spring.
TEST(LeafHalf, GivesTheRateThatWasAskedFor) {
  constexpr double kHeight = 1e-4;  // [m] nearly straight
  for (const LeafShape shape : {LeafShape::tapered, LeafShape::even}) {
    // The link is stiff by construction, the chain as far as its pieces go: a tapered one exactly (its integrand is straight), an even one
    // by 1 / (4 n^2).
    EXPECT_NEAR(lift(symmetric(shape, 0), kHeight).force / kHeight, 40e3, 10);
    EXPECT_NEAR(lift(symmetric(shape, 12), kHeight).force / kHeight, 40e3,
                shape == LeafShape::tapered ? 10 : 40e3 / 400);
  }
}

// Bench rates are told with the seat free to pitch: a half of 1.2 times the length takes 1 / 2.2 of the load.
TEST(LeafHalf, StiffnessAtTheClampAnswersForUnequalHalves) {
  LeafSpring leaf = symmetric(LeafShape::even, 0);
  const double a = 0.5, b = 0.6;
  const double bending = stiffness_at_clamp(leaf, a, b);
  const double load = 1000;
  const double at_a = load * b / (a + b), at_b = load * a / (a + b);
  const double rise_a = at_a * a * a * a / (3 * bending), rise_b = at_b * b * b * b / (3 * bending);
  EXPECT_NEAR(load / (rise_a * b / (a + b) + rise_b * a / (a + b)), leaf.rate, 1e-6 * leaf.rate);
}

}  // namespace
}  // namespace axlewright
