// [rear_wheels]: what it makes, what it says of the truck again, and what is told where it does not fit.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/truck/fault_text.h"
#include "engine/truck/sample_truck_test.h"

namespace axlewright {
namespace {

// Behind the sample's last section. Its front wheel centres stand at x = 0, z = 470, its tyres are 470.
constexpr const char* kRear = R"(
[rear_wheels]
centre_left = "rear_wheel_left"
centre_right = "rear_wheel_right"

[points.rear_wheel_left]
on = "rear_axle"
at = [-4060, 865, 470]
mirror = true
[points.rear_link_frame]
on = "frame"
at = [-3060, 500, 470]
[points.rear_link_axle]
on = "rear_axle"
at = [-4000, 500, 420]

[parts.rear_link]
kind = "lower link"
ends = ["rear_link_frame", "rear_link_axle"]
)";

struct Change {
  std::string from, to;
};

std::string with_rear(const std::vector<Change>& changes = {}) {
  std::string text = std::string(sample::kTruck) + kRear;
  for (const Change& change : changes) {
    const std::size_t at = text.find(change.from);
    EXPECT_NE(at, std::string::npos) << change.from;
    if (at != std::string::npos) text.replace(at, change.from.size(), change.to);
  }
  return text;
}

Truck truck_with(const std::vector<Change>& changes) {
  const Result<Truck> truck = sample::read(with_rear(changes));
  EXPECT_TRUE(truck) << text_of(truck.error().front());
  return truck ? *truck : Truck{};
}

struct Told {
  std::string what, fix, marked;
};

/// The first of so many faults.
Told fault_in(const std::vector<Change>& changes, std::size_t count) {
  const Result<Truck> truck = sample::read(with_rear(changes));
  const std::vector<Fault> faults = truck ? truck->warnings : truck.error();
  if (faults.size() != count) {
    for (const Fault& fault : faults) ADD_FAILURE() << text_of(fault);
    return {};
  }
  const Fault& fault = faults.front();
  return {fault.what, fault.fix,
          fault.source_line.substr(static_cast<std::size_t>(fault.column) - 1,
                                   static_cast<std::size_t>(fault.length))};
}

void expect_told(const std::vector<Change>& changes, const std::string& marked,
                 const std::string& what, const std::string& fix, std::size_t count = 1) {
  const Told told = fault_in(changes, count);
  EXPECT_EQ(told.marked, marked) << told.what;
  EXPECT_EQ(told.what.rfind(what, 0), 0u) << told.what;
  EXPECT_NE(told.fix.find(fix), std::string::npos) << told.fix;
}

TEST(RearWheels, TakeTheirTyresFromTheFront) {
  const Truck truck = truck_with({});
  ASSERT_TRUE(truck.rear_wheels);
  EXPECT_EQ(truck.rear_wheels->loaded_radius, truck.wheels.loaded_radius);
  EXPECT_EQ(truck.rear_wheels->section, truck.wheels.section);
  EXPECT_TRUE(truck.rear_wheels->square_to_centres);
  const Truck other = truck_with({{"[rear_wheels]", "[rear_wheels]\nloaded_radius = 440"}});
  EXPECT_NEAR(other.rear_wheels->loaded_radius, 0.440, 1e-15);
}

// One road under both axles, by a figure of four sides: the tyres' lowest points, drawn on the road found, are both on it.
TEST(RearWheels, SayTheRake) {
  for (const double rear_z : {470.0, 520.0, 380.0}) {
    for (const double rear_radius : {470.0, 430.0}) {
      const Truck truck = truck_with(
          {{"[-4060, 865, 470]", "[-4060, 865, " + std::to_string(rear_z) + "]"},
           {"[rear_wheels]", "[rear_wheels]\nloaded_radius = " + std::to_string(rear_radius)}});
      // Where the road is at either axle, as a height over the frame's level: radius / cos below the centre.
      const double front = 470 - 470 / std::cos(truck.rake);
      const double rear = rear_z - rear_radius / std::cos(truck.rake);
      // Nose up: the road falls away to the front, in the frame's axes.
      EXPECT_NEAR((rear - front) / 4060, std::tan(truck.rake), 1e-12);
    }
  }
  // Rear wheels stand higher in the frame than front ones: the tail is down, the nose up.
  EXPECT_GT(truck_with({{"[-4060, 865, 470]", "[-4060, 865, 520]"}}).rake, 0);
}

TEST(RearWheels, SayTheThrustAngle) {
  const std::vector<Change> left_back = {
      {"at = [-4060, 865, 470]\nmirror = true",
       "at = [-4068, 865, 470]\n[points.rear_wheel_right]\non = \"rear_axle\"\nat = [-4052, -865, "
       "470]"}};
  // The left wheel is the one behind: turned to the left.
  EXPECT_NEAR(truck_with(left_back).thrust_angle, std::atan(16.0 / 1730), 1e-12);
  std::vector<Change> given = left_back;
  given.push_back({"lean = 5", "lean = 5\nthrust_angle = \"0.5 deg\""});
  const Truck truck = truck_with(given);
  EXPECT_EQ(truck.thrust_angle, from_deg(0.5));
  EXPECT_FALSE(truck.rear_wheels->square_to_centres);
}

TEST(RearWheels, AreFaultsWhereTheyDoNotFit) {
  expect_told({{"wheelbase = 4060", "wheelbase = 4064"}}, "4064",
              "'wheelbase' is 4064 mm, but the wheel centres of the axles are 4060 mm apart",
              "'tolerance' of [truck]");
  expect_told({{"lean = 5", "lean = 5\nrake = 0.5"}}, "0.5",
              "'rake' is 0.5 deg, but the wheel centres and loaded radii of the axles stand the "
              "frame at 0 deg",
              "without the key the points count");
  expect_told({{"lean = 5", "lean = 5\nthrust_angle = 0.5"}}, "0.5",
              "'thrust_angle' is 0.5 deg, but square to the line through the rear wheel centres",
              "without the key the points count");
  expect_told({{"on = \"rear_axle\"\nat = [-4060", "on = \"axle\"\nat = [-4060"}},
              "\"rear_wheel_left\"",
              "the wheel centre 'rear_wheel_left' rides on axle, not on the "
              "rear axle",
              "on = \"rear_axle\"", 2);
}

TEST(RearWheels, MustBeHeld) {
  expect_told({{"ends = [\"rear_link_frame\", \"rear_link_axle\"]",
                "ends = [\"rear_link_frame\", \"bar_axle\"]"},
               {"[points.rear_link_axle]\non = \"rear_axle\"\nat = [-4000, 500, 420]\n", ""}},
              "[rear_wheels]", "nothing holds the rear axle", "take [rear_wheels] away");
}

TEST(RearWheels, AreNamedWhereTheyAreMissed) {
  // The body, without the section that makes it.
  const std::string section =
      "[rear_wheels]\ncentre_left = \"rear_wheel_left\"\ncentre_right = \"rear_wheel_right\"\n";
  const Result<Truck> truck = sample::read(with_rear({{section, ""}}));
  ASSERT_FALSE(truck);
  EXPECT_EQ(truck.error().front().what, "no body is called 'rear_axle'");
  EXPECT_EQ(truck.error().front().fix, "add [rear_wheels], which makes the rear axle");

  const Result<Truck> aligned =
      sample::read(sample::changed("lean = 5", "lean = 5\naligned_rear_height = 20"));
  ASSERT_TRUE(aligned);
  EXPECT_EQ(aligned->warnings.front().what,
            "nothing hangs on 'aligned_rear_height' without [rear_wheels]");

  const Result<Truck> limit = sample::read(
      sample::changed("quantity = \"steering_wheel_off_centre\"", "quantity = \"thrust_angle\""));
  ASSERT_FALSE(limit);
  EXPECT_EQ(limit.error().front().what,
            "'thrust_angle' is told of a rear axle, and the truck has none");
}

}  // namespace
}  // namespace axlewright
