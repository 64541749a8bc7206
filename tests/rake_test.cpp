// The rear height of a truck without a rear axle of its own: it pitches the road under the frame (definition 2) and does nothing else.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/study/lock.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::truck_of;

/// 1e-10: two solutions to 1e-11 m each.
constexpr double kSolved = 1e-10;

constexpr const char* kFiles[] = {"trucks/plain-mismatched.toml", "trucks/guided-loose.toml",
                                  "tests/layouts/push_pull_drag_link.toml"};

/// Told against the road, so the rake is in it.
bool is_told_to_the_road(int quantity) {
  switch (quantity) {
    case kCamberLeft:
    case kCamberRight:
    case kCasterLeft:
    case kCasterRight:
    case kKpiLeft:
    case kKpiRight:
    case kScrubLeft:
    case kScrubRight:
    case kTrailLeft:
    case kTrailRight:
    case kRollCentreHeight:
    case kAckermannError:  // K is taken between the steering axes at the ground
    case kPadLeft:
    case kPadRight:
      return true;
    default:
      return false;
  }
}

/// Steered, leaning, one wheel on a pad, so that nothing is zero by symmetry.
PoseRequest in_a_corner(const Truck& truck) {
  PoseRequest request;
  request.height = 0.6 * truck.height_range[1];
  request.lean = from_deg(1.5);
  request.travel_left = 0.020;
  request.steer_by = SteerBy::pitman;
  request.steer = from_deg(9);
  return request;
}

std::vector<double> values_of(const Truck& truck, const PoseRequest& request) {
  Rig rig(truck);
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose.values;
}

void expect_same(double a, double b, const std::string& what) {
  if (std::isnan(a)) {
    EXPECT_TRUE(std::isnan(b)) << what;
  } else {
    EXPECT_NEAR(a, b, kSolved * (1 + std::abs(a))) << what;
  }
}

// Raising the rear by any way is the same as measuring the truck with the rake that this makes.
TEST(Rake, OfARaisedRearIsThatOfATruckMeasuredSo) {
  for (const char* file : kFiles) {
    const Truck truck = truck_of(file);
    const std::vector<QuantityInfo> infos = Rig(truck).quantities();
    for (const double rear : {-0.060, 0.080, 0.190}) {
      PoseRequest raised = in_a_corner(truck);
      Truck tipped = truck;
      tipped.rake += std::atan((raised.height - rear) / truck.wheelbase) -
                     std::atan(raised.height / truck.wheelbase);
      const std::vector<double> as_tipped = values_of(tipped, raised);
      raised.rear_height = rear;
      const std::vector<double> as_raised = values_of(truck, raised);
      for (std::size_t q = 0; q < infos.size(); ++q)
        expect_same(as_raised[q], as_tipped[q], infos[q].key);
    }
  }
}

TEST(Rake, OfARaisedRearIsInWhatIsToldToTheRoadAndInNothingElse) {
  // A rear up by 80 mm is 1.1 deg of rake. The least change is that of an Ackermann error, a thousand times what rounding leaves.
  constexpr double kChanged = 1e-7;
  for (const char* file : kFiles) {
    const Truck truck = truck_of(file);
    const std::vector<QuantityInfo> infos = Rig(truck).quantities();
    PoseRequest request = in_a_corner(truck);
    const std::vector<double> down = values_of(truck, request);
    request.rear_height = 0.080;
    const std::vector<double> up = values_of(truck, request);
    for (std::size_t q = 0; q < infos.size(); ++q) {
      if (is_told_to_the_road(static_cast<int>(q))) {
        EXPECT_GT(std::abs(up[q] - down[q]), kChanged) << file << ": " << infos[q].key;
      } else {
        expect_same(up[q], down[q], infos[q].key);
      }
    }
  }
}

// Both ends up alike: the frame keeps its pitch on the road. What the linkage does not change stays, and what is told to the road is what
// a truck tells that was measured on a level frame.
TEST(Rake, BothEndsRaisedAlikeTipNothing) {
  const Truck truck = truck_of("trucks/guided.toml");
  Rig rig(truck);
  const PoseResult low = rig.solve({});
  PoseRequest high;
  high.height = high.rear_height = truck.height_range[1];
  const PoseResult raised = rig.solve(high);
  ASSERT_TRUE(low.report.usable() && raised.report.usable());
  // Parallel links keep the axle's angle in the frame, and guided bars its place across; only rounding is left.
  for (const int q : {kCamberLeft, kCasterLeft, kKpiLeft, kScrubLeft, kTrailLeft, kPadLeft})
    EXPECT_NEAR(raised.values[index(q)], low.values[index(q)], kSolved) << q;
}

// By hand, for a frame that does not lean: the road pitched by r under it turns every direction by r in the side view.
TEST(Rake, TurnsTheSteeringAxisInTheSideView) {
  const Truck truck = truck_of("trucks/guided.toml");
  Rig rig(truck);
  PoseRequest level;
  level.height = level.rear_height = 0.100;
  const PoseResult flat = rig.solve(level);
  ASSERT_TRUE(flat.report.usable());
  const double caster = flat.values[kCasterLeft], kpi = flat.values[kKpiLeft];
  for (const double rear : {0.0, 0.040, 0.220}) {
    PoseRequest request = level;
    request.rear_height = rear;
    const PoseResult pose = rig.solve(request);
    ASSERT_TRUE(pose.report.usable());
    const double r = std::atan((0.100 - rear) / truck.wheelbase);
    EXPECT_NEAR(pose.values[kCasterLeft], caster + r, kSolved);
    // Along the road's normal the axis has the share cos(caster + r) of what it has in the side view.
    EXPECT_NEAR(std::tan(pose.values[kKpiLeft]),
                std::tan(kpi) * std::cos(caster) / std::cos(caster + r), kSolved);
    // Straight ahead an upright wheel stays upright: its axis lies across.
    EXPECT_NEAR(pose.values[kCamberLeft], 0, kSolved);
  }
}

// With the frame tipped, the roll centre (in the plane of the axle's middle) and the contacts are seen along another normal.
TEST(Rake, TipsTheRollCentresHeight) {
  const Truck truck = truck_of("trucks/plain-parallel.toml");
  Rig rig(truck);
  PoseRequest level;
  level.height = level.rear_height = 0.120;
  const double flat = rig.solve(level).values[kRollCentreHeight];
  PoseRequest tipped = level;
  tipped.rear_height = -0.100;
  const double r = std::atan(0.220 / truck.wheelbase), radius = truck.wheels.loaded_radius;
  // Above the wheel centres by flat - radius, straight up in the frame; the road touches the tyres one radius below along its normal.
  EXPECT_NEAR(rig.solve(tipped).values[kRollCentreHeight], (flat - radius) * std::cos(r) + radius,
              1e-9);
}

}  // namespace
}  // namespace axlewright
