#include "engine/sheet/silhouette.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

// [m] rounding alone.
constexpr double kRounding = 1e-12;

// Parallel rays see a ball as a circle of its own radius, whatever the direction.
TEST(Silhouette, BallIsACircleFromEverywhere) {
  for (const double turn : {0.0, 0.7, 2.1}) {
    const ViewAxes view = view_axes(ViewKind::pictorial, turn, 0.4);
    const Vec3 centre(0.3, -0.2, 0.5);
    const Silhouette ball = silhouette_of({"ball", Rod{centre, centre, 0.03}}, view);
    ASSERT_EQ(ball.edges.size(), 1U);
    EXPECT_TRUE(ball.edges[0].is_arc);
    EXPECT_NEAR(ball.edges[0].radius, 0.03, kRounding);
    EXPECT_NEAR((ball.edges[0].centre - view.flat(centre)).norm(), 0, kRounding);
  }
}

// The outline of all balls along a line: every place of it lies at the radius from the line's image.
TEST(Silhouette, RodKeepsItsRadiusFromItsLine) {
  const ViewAxes view = view_axes(ViewKind::pictorial, 0.5, 0.3);
  const Rod rod{{0.1, 0.4, 0.5}, {0.2, -0.5, 0.45}, 0.019};
  const Silhouette s = silhouette_of({"bar", rod}, view);
  const Vec2 a = view.flat(rod.a), b = view.flat(rod.b);
  for (const Curve& edge : s.edges) {
    for (const double share : {0.0, 0.25, 0.5, 1.0}) {
      const Vec2 p = edge.at(share);
      const double along = std::clamp((p - a).dot(b - a) / (b - a).squaredNorm(), 0.0, 1.0);
      EXPECT_NEAR((p - a - along * (b - a)).norm(), rod.radius, kRounding);
    }
  }
}

// Along its axis a tyre is the loaded circle: it touches the road where the truck stands on it.
TEST(Silhouette, TyreTouchesTheRoad) {
  const ViewAxes side = view_axes(ViewKind::side, 0, 0);
  const Silhouette tyre = silhouette_of(
      {"wheel", Tyre{{0, 0.875, 0.462}, Vec3::UnitY(), 0.462, 0.159, 0.26}, true}, side);
  EXPECT_NEAR(tyre.region.low.y(), 0, kRounding);
  EXPECT_NEAR(tyre.region.high.y(), 2 * 0.462, kRounding);
}

// A box seen square on is its face; its outline has the face's four corners.
TEST(Silhouette, BoxSeenSquareIsItsFace) {
  const ViewAxes front = view_axes(ViewKind::front, 0, 0);
  const Box box{{1, 2, 3}, {0.5, 0, 0}, {0, 0.2, 0}, {0, 0, 0.1}};
  const Silhouette s = silhouette_of({"box", box}, front);
  ASSERT_EQ(s.region.polygon.size(), 4U);
  EXPECT_NEAR((s.region.high - Vec2(2.2, 3.1)).norm(), 0, kRounding);
  EXPECT_NEAR((s.region.low - Vec2(1.8, 2.9)).norm(), 0, kRounding);
}

// Every view is right-handed: what is across, up and toward the viewer are square to one another, in that order.
TEST(ViewAxes, AreRightHanded) {
  for (const ViewKind kind :
       {ViewKind::front, ViewKind::side, ViewKind::top, ViewKind::top_below, ViewKind::pictorial}) {
    const ViewAxes view = view_axes(kind, 0.6, 0.35);
    EXPECT_NEAR((cross(view.across, view.up) - view.toward).norm(), 0, kRounding) << name_of(kind);
    EXPECT_NEAR(view.across.norm(), 1, kRounding);
  }
}

// From ahead the truck's left is on the right; from its left the front is on the left; from above the front is up.
TEST(ViewAxes, LookAsTheyAreSaidTo) {
  EXPECT_GT(view_axes(ViewKind::front, 0, 0).flat(Vec3::UnitY()).x(), 0);
  EXPECT_LT(view_axes(ViewKind::side, 0, 0).flat(Vec3::UnitX()).x(), 0);
  EXPECT_GT(view_axes(ViewKind::top, 0, 0).flat(Vec3::UnitX()).y(), 0);
  EXPECT_LT(view_axes(ViewKind::top, 0, 0).flat(Vec3::UnitY()).x(), 0);
}

}  // namespace
}  // namespace axlewright
