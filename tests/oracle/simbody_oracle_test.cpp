#include "tests/oracle/simbody_oracle.h"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/vec.h"

namespace axlewright::oracle {
namespace {

Triple triple(const Vec3& v) {
  return {v.x(), v.y(), v.z()};
}

Vec3 placed(const Placement& placement, const Vec3& p) {
  const Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>> R(placement.R.data());
  const Eigen::Map<const Vec3> t(placement.t.data());
  return R * p + t;
}

// The oracle is held to account too: a body on six bars, whose lengths come from a pose chosen here, is found there.
TEST(SimbodyOracle, FindsThePoseThatTheBarsWereCutFor) {
  const Vec3 columns_of_turn[3] = {
      {1, 0, 0}, {0, std::cos(0.35), std::sin(0.35)}, {0, -std::sin(0.35), std::cos(0.35)}};
  const auto chosen = [&](const Vec3& p) -> Vec3 {
    Vec3 moved = Vec3(0.04, -0.03, 0.11);
    for (int i = 0; i < 3; ++i) moved += columns_of_turn[i] * p(i);
    return moved;
  };
  const std::array<Vec3, 3> on_body = {Vec3(0.5, 0, 0), Vec3(-0.3, 0.4, 0), Vec3(-0.3, -0.4, 0)};
  const std::array<Vec3, 3> on_frame = {Vec3(-0.8, 0.1, -1), Vec3(0.5, 0.7, -1),
                                        Vec3(0.4, -0.9, -1)};
  Problem problem;
  problem.bodies = 1;
  for (std::size_t i = 0; i < 3; ++i) {
    for (const std::size_t k : {i, (i + 1) % 3}) {
      problem.rods.push_back({0, triple(on_frame[i]), 1, triple(on_body[k]),
                              (chosen(on_body[k]) - on_frame[i]).norm()});
    }
  }

  const auto found = solve(problem);

  ASSERT_TRUE(found.has_value());
  // 0.1 nm: the solver stops at 1e-12 and these bars' directions are well apart.
  for (const Vec3& p : on_body) EXPECT_LT((placed(found->front(), p) - chosen(p)).norm(), 1e-10);
}

TEST(SimbodyOracle, SaysSoWhenABarIsTooShort) {
  Problem problem;
  problem.bodies = 1;
  problem.balls = {{0, {0, 0, 0}, 1, {0, 0, 0}}};
  // From 3 m to the end of an arm of 1 m it is 2 m at least.
  problem.rods = {{0, {3, 0, 0}, 1, {0, 1, 0}, 1.5}};

  EXPECT_FALSE(solve(problem).has_value());
}

// An arm of 2 m on a ball at the origin, its end on a bar from above, two more bars to stop its turns. 100 N down at half
// its length: half of it hangs on the bar, half rests on the ball (moments about the ball).
TEST(SimbodyOracle, PushesAreWhatConstraintsDoToTheSecondBody) {
  Problem problem;
  problem.bodies = 1;
  problem.labels = 5;
  problem.balls = {{0, {0, 0, 0}, 1, {0, 0, 0}, 0}};
  problem.rods = {{0, {2, 0, 1}, 1, {2, 0, 0}, 1, 1},
                  {0, {2, 1, 0}, 1, {2, 0, 0}, 1, 2},
                  {0, {1, 1, 1}, 1, {1, 0, 1}, 1, 3}};

  const auto statics = solve_statics(problem, {}, {{{0, 0, -100}, {0, 100, 0}}});

  ASSERT_TRUE(statics.has_value());
  // 1e-9 N: rounding of forces of 100 N.
  EXPECT_NEAR(statics->pushes[0].force[2], 50, 1e-9);
  EXPECT_NEAR(statics->pushes[1].force[2], 50, 1e-9);
  EXPECT_NEAR(statics->pushes[1].moment[1], -2 * 50, 1e-9);
  EXPECT_LT(statics->acceleration, 1e-9);
}

}  // namespace
}  // namespace axlewright::oracle
