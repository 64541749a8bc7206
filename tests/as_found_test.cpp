// A truck measured with its road wheels straight ahead and its gear off centre (as_found): its linkage is that of the truck without,
// only the steering wheel is counted from elsewhere. The gear's ratio is 16 all over, so every angle shifts alike.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/study/lock.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::truck_of;

constexpr double kRatio = 16;
const double kFound = from_deg(30);
constexpr double kAngle = 1e-9;  // [rad] two solves of the same equations
constexpr double kStop = 1e-7;   // [rad] of the search for a stop

Truck centred() {
  Truck truck = truck_of("trucks/plain-mismatched.toml");
  EXPECT_EQ(truck.gear.ratio.size(), 1u);
  EXPECT_EQ(truck.gear.ratio.front().ratio, kRatio);
  return truck;
}

Truck found_off_centre() {
  Truck truck = centred();
  truck.gear.as_found = kFound;
  return truck;
}

double value(const Truck& truck, const PoseRequest& request, int quantity) {
  Rig rig(truck);
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose.report.usable() ? pose.values[static_cast<std::size_t>(quantity)] : NAN;
}

TEST(AsFound, GoesStraightWithTheWheelWhereItWasFound) {
  EXPECT_NEAR(value(found_off_centre(), {}, kSteeringWheel), kFound, kRatio * kAngle);
  EXPECT_NEAR(value(found_off_centre(), {}, kPitmanAngle), kFound / kRatio, kAngle);
  // Off centre counts from the aligned height's own angle (definition 5), so this is as before.
  const PoseRequest high{.height = 0.2};
  EXPECT_NEAR(value(found_off_centre(), high, kSteeringWheelOffCentre),
              value(centred(), high, kSteeringWheelOffCentre), kRatio * kAngle);
}

TEST(AsFound, CountsTheSteeringWheelFromTheGearsCentre) {
  for (const double wheel : {from_deg(-200), 0.0, from_deg(120)}) {
    const PoseRequest asked{.height = 0.1, .steer_by = SteerBy::steering_wheel, .steer = wheel};
    PoseRequest shifted = asked;
    shifted.steer = wheel - kFound;
    EXPECT_NEAR(value(found_off_centre(), asked, kMeanSteer), value(centred(), shifted, kMeanSteer),
                kAngle);
  }
}

TEST(AsFound, LeavesLessWayToTheStopOnItsSide) {
  Truck shifted = centred();
  shifted.axle_stops = {};
  Truck found = found_off_centre();
  found.axle_stops = {};
  shifted.gear.stop_left -= kFound;
  shifted.gear.stop_right += kFound;
  Rig rig_found(found), rig_shifted(shifted);
  const Lock a = find_lock(rig_found, {}), b = find_lock(rig_shifted, {});
  ASSERT_TRUE(a.left.reached && a.right.reached && b.left.reached && b.right.reached);
  EXPECT_NEAR(a.left.mean_steer, b.left.mean_steer, kStop);
  EXPECT_NEAR(a.right.mean_steer, b.right.mean_steer, kStop);
  EXPECT_NEAR(a.left.steering_wheel, found.gear.stop_left, kRatio * kStop);
}

// What a point does to the steering wheel is a slope: where the wheel counts from does not matter.
TEST(AsFound, LeavesWhatPointsDoAsItIs) {
  const PoseRequest high{.height = 0.2};
  Rig rig_found(found_off_centre()), rig(centred());
  const std::vector<Influence> a = rig_found.design_moves(high), b = rig.design_moves(high);
  ASSERT_EQ(a.size(), b.size());
  ASSERT_FALSE(a.empty());
  for (std::size_t k = 0; k < a.size(); ++k) {
    EXPECT_NEAR(a[k].per_metre[kSteeringWheelOffCentre], b[k].per_metre[kSteeringWheelOffCentre],
                1e-6)
        << a[k].name << " " << a[k].coordinate;
  }
}

}  // namespace
}  // namespace axlewright
