#include "engine/solve/fight.h"

#include <cmath>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

/// A plank on two pins across it, and a third bar of its own from the frame to its middle.
struct Plank {
  Mechanism mechanism;
  InputId height;
};

/// Two upright bars of equal length carry a plank; a third, beside the second, is longer by `longer` of its length and slants by `slant`.
Plank plank(double slant) {
  Plank p;
  Mechanism& m = p.mechanism;
  const BodyId body = m.add_body("plank");
  const auto bar = [&](const char* name, const Vec3& low, const Vec3& high) {
    Joint joint{.name = name, .kind = JointKind::distance, .body_a = kFrame, .body_b = body};
    joint.a = m.add_anchor(name, kFrame, low);
    joint.b = m.add_anchor(name, body, high);
    joint.length = m.add_length(name, joint.a, joint.b);
    m.add_joint(joint);
  };
  // Held to the plane y = 0 and level by a slide square to x; it goes up and down alone.
  Joint slide{.name = "slide", .kind = JointKind::slide, .body_a = kFrame, .body_b = body};
  slide.a = m.add_anchor("slide", kFrame, Vec3(0, 0, 0.5));
  slide.b = m.add_anchor("slide", body, Vec3(0, 0, 0.5));
  slide.axis_a = m.add_axis("up", kFrame, Vec3::UnitZ());
  slide.axis_b = m.add_axis("up", body, Vec3::UnitZ());
  m.add_joint(slide);
  bar("bar", Vec3(-1 * std::cos(slant), 0, 0.5 - std::sin(slant)), Vec3(0, 0, 0.5));
  p.height = m.add_input({.name = "height",
                          .kind = InputKind::coordinate,
                          .anchor = m.add_anchor("end", body, Vec3(0, 0, 0.5)),
                          .axis = slide.axis_a});
  return p;
}

// A slide lets the plank straight up, a bar of 1 m at slant s would have it on a circle: at a rise h the bar's end is
// sqrt((cos s)^2 + (sin s + h)^2) - 1 away.
TEST(Fight, ABarOnASlidePartsByItsArc) {
  // A bar's residual is (d^2 - L^2) / (2 L): its way but for the square of it over the length.
  constexpr double kPlace = 1e-4;
  for (const double slant : {0.0, 0.2}) {
    const Plank p = plank(slant);
    const double rise = 0.03;
    const Fight fight = find_fight(p.mechanism, {p.height}, {0.5 + rise});
    EXPECT_TRUE(fight.one_opens);
    ASSERT_EQ(fight.gaps.size(), 1u);
    EXPECT_EQ(p.mechanism.joint(fight.gaps[0].joint).name, "bar");
    const double arc = std::hypot(std::cos(slant), std::sin(slant) + rise) - 1;
    EXPECT_NEAR(fight.gaps[0].gap, std::abs(arc), kPlace);
  }
}

TEST(Fight, ThereIsNoneWhereEverythingCloses) {
  const Plank p = plank(0.2);
  EXPECT_TRUE(find_fight(p.mechanism, {p.height}, {0.5}).gaps.empty());
}

}  // namespace
}  // namespace axlewright
