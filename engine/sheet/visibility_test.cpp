#include "engine/sheet/visibility.h"

#include <vector>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

// Ends of stretches are found by halving a sample's distance seven times: better than 0.2 mm here.
constexpr double kEnd = 2e-4;

/// Two tubes crossing at right angles as seen from ahead: `bar` across, `post` upright at another depth.
std::vector<Silhouette> crossing(double post_depth, const char* post_part) {
  const ViewAxes front = view_axes(ViewKind::front, 0, 0);
  return {silhouette_of({"bar", Rod{{0, -0.5, 0}, {0, 0.5, 0}, 0.02}}, front),
          silhouette_of({post_part, Rod{{post_depth, 0.1, -0.5}, {post_depth, 0.1, 0.5}, 0.03}},
                        front)};
}

// A post in front hides exactly its own width of the bar's upper edge.
TEST(Visibility, APostInFrontHidesItsWidth) {
  const std::vector<Silhouette> s = crossing(0.2, "post");
  const Curve& edge = s[0].edges[0];
  const std::vector<Stretch> stretches = stretches_of(edge, 0, s);
  ASSERT_EQ(stretches.size(), 3U);
  EXPECT_EQ(stretches[0].seen, Seen::visible);
  EXPECT_EQ(stretches[1].seen, Seen::hidden);
  EXPECT_EQ(stretches[2].seen, Seen::visible);
  const double one = edge.at(stretches[1].from).x(), other = edge.at(stretches[1].to).x();
  EXPECT_NEAR(std::min(one, other), 0.1 - 0.03, kEnd);
  EXPECT_NEAR(std::max(one, other), 0.1 + 0.03, kEnd);
}

TEST(Visibility, APostBehindHidesNothing) {
  const std::vector<Silhouette> s = crossing(-0.2, "post");
  const std::vector<Stretch> stretches = stretches_of(s[0].edges[0], 0, s);
  ASSERT_EQ(stretches.size(), 1U);
  EXPECT_EQ(stretches[0].seen, Seen::visible);
}

// Where two shapes of one part run into one another there is no edge, whichever is in front.
TEST(Visibility, OnePartHasOneOutline) {
  for (const double depth : {-0.2, 0.2}) {
    const std::vector<Silhouette> s = crossing(depth, "bar");
    const std::vector<Stretch> stretches = stretches_of(s[0].edges[0], 0, s);
    ASSERT_EQ(stretches.size(), 3U);
    EXPECT_EQ(stretches[1].seen, Seen::merged);
  }
}

// Tyres, rails and springs are drawn see-through.
TEST(Visibility, AdjacentThingsHideNothing) {
  std::vector<Silhouette> s = crossing(0.2, "wheel_left");
  s[1].adjacent = true;
  EXPECT_EQ(stretches_of(s[0].edges[0], 0, s).size(), 1U);
}

}  // namespace
}  // namespace axlewright
