// Limits: what counts as met, broken, not reached.

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/study/sweep.h"
#include "tests/support/straight_axle.h"

namespace axlewright {
namespace {

using testing::add_link;
using testing::CrossBar;
using testing::release;
using testing::StraightAxle;
using testing::truck_of;

Limit limit_on(const std::string& quantity, double min, double max) {
  Limit limit;
  limit.name = limit.quantity = quantity;
  limit.min = min;
  limit.max = max;
  return limit;
}

/// A track bar of 900 stands upright once the axle is 900 below its frame end: no pose beyond.
Truck too_high() {
  Truck truck = truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
  truck.height_range = {0, 1.0};
  truck.lean = 0;
  return truck;
}

Sweep heights_alone(const Truck& truck) {
  SweepPlan plan = sweep_plan(truck, 11);
  plan.travels = plan.leans = plan.steerings = {0};
  Rig rig(truck);
  return run_sweep(rig, plan);
}

TEST(Limit, OnceBrokenIsBrokenWhateverCannotBeReached) {
  Truck truck = too_high();
  truck.limits = {limit_on("axle_walk_side", -0.010, 0.010), limit_on("axle_walk_side", -2.0, 2.0),
                  limit_on("toe", -0.1, 0.1)};
  const Sweep sweep = heights_alone(truck);
  ASSERT_GT(sweep.refused, 0);
  EXPECT_EQ(sweep.limits[0].verdict, Verdict::broken);
  EXPECT_LT(sweep.limits[0].margin, 0);
  EXPECT_EQ(sweep.limits[1].verdict, Verdict::not_reached);
  EXPECT_EQ(sweep.limits[2].verdict, Verdict::not_reached);
  // It names the first pose that is missing.
  EXPECT_EQ(sweep.limits[1].where.height, sweep.refusals.front().request.height);
}

// A band of one value is kept by what keeps it but for rounding.
TEST(Limit, OfASingleValueForgivesRounding) {
  Truck truck = truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
  truck.limits = {limit_on("mean_steer", 0, 0), limit_on("axle_walk_side", 0, 0)};
  const Sweep sweep = heights_alone(truck);
  EXPECT_EQ(sweep.limits[0].verdict, Verdict::met);
  EXPECT_EQ(sweep.limits[1].verdict, Verdict::broken);
}

/// Two links from one ball on the frame, one along the truck, one across as well: turning about it together, they tilt their studs unlike.
Truck two_links_on_one_ball() {
  Truck truck = truck_of(StraightAxle{.drag_link = CrossBar{}});
  release(truck, "axle fore-aft");
  release(truck, "axle pitch");
  add_link(truck, "along", Vec3(-0.9, 0.2, 0.46), Vec3(0, 0.2, 0.46));
  add_link(truck, "across", Vec3(-0.9, 0.2, 0.46), Vec3(-0.05, -0.5, 0.80));
  for (Part& part : truck.parts) {
    if (part.name == "across") std::get<Bar>(part.what).ends[0] = "along_frame";
  }
  truck.points.erase(
      std::remove_if(truck.points.begin(), truck.points.end(),
                     [](const Point& point) { return point.name == "across_frame"; }),
      truck.points.end());
  truck.height_range = {0, 0.1};
  return truck;
}

TEST(Limit, OnABallOfTwoBarsJudgesBoth) {
  Truck truck = two_links_on_one_ball();
  const Sweep free = heights_alone(truck);
  std::vector<double> tilts;
  std::vector<std::string> keys;
  for (std::size_t k = 0; k < free.infos.size(); ++k) {
    if (free.infos[k].key.rfind("tilt.along_frame", 0) != 0) continue;
    keys.push_back(free.infos[k].key);
    tilts.push_back(free.highest[k].value);
  }
  ASSERT_EQ(keys, (std::vector<std::string>{"tilt.along_frame.along", "tilt.along_frame.across"}));
  ASSERT_GT(std::abs(tilts[0] - tilts[1]), from_deg(0.1));
  const double between = 0.5 * (tilts[0] + tilts[1]);
  truck.limits = {limit_on("tilt.along_frame", 0, between)};
  const LimitResult result = heights_alone(truck).limits.at(0);
  EXPECT_EQ(result.verdict, Verdict::broken);
  EXPECT_NEAR(result.worst, std::max(tilts[0], tilts[1]), 1e-12);
  EXPECT_EQ(free.infos[static_cast<std::size_t>(result.quantity)].key,
            tilts[0] > tilts[1] ? keys[0] : keys[1]);
}

// What is told of a lock is told with the wheel at that lock, at every height of the sweep.
TEST(Limit, OnATurningCircleNamesTheLock) {
  Truck truck = truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
  truck.axle_stops.turn_left = truck.axle_stops.turn_right = from_deg(28);
  truck.limits = {limit_on("turning_circle_left", 0, 5.0)};
  const Sweep sweep = heights_alone(truck);
  const LimitResult& result = sweep.limits[0];
  EXPECT_EQ(result.verdict, Verdict::broken);
  EXPECT_EQ(result.where.steer_by, SteerBy::steering_wheel);
  EXPECT_GT(result.where.steer, 0);
  // The front alone raised tips the truck: the circle is largest at the top.
  EXPECT_EQ(result.where.height, truck.height_range[1]);
  EXPECT_NEAR(result.worst, sweep.lock_high.left.turning_circle, 1e-12);
}

}  // namespace
}  // namespace axlewright
