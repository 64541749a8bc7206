#include "tests/support/changed_truck.h"

#include <algorithm>
#include <utility>

namespace axlewright::testing {

namespace {

void turn(std::string& name) {
  name = other_side(name);
}

void turn(std::array<std::string, 2>& names) {
  for (std::string& name : names) turn(name);
}

void turn(Direction& direction) {
  turn(direction.from);
  turn(direction.to);
  direction.fixed.y() = -direction.fixed.y();
}

void turn(Bar& bar) {
  turn(bar.ends);
}

void turn(Kingpin& kingpin) {
  turn(kingpin.knuckle);
  turn(kingpin.lower);
  turn(kingpin.upper);
}

// Seen in the mirror the arm turns the other way, but for the other way of the steering wheel: the sense stays.
void turn(PitmanArm& arm) {
  turn(arm.axis);
}

void turn(GuidedBar& bar) {
  for (std::string* name : {&bar.near_end, &bar.guide_end, &bar.middle, &bar.pivot, &bar.carries,
                            &bar.near_end_on, &bar.rocker_pivot})
    turn(*name);
  turn(bar.guide);
  turn(bar.rocker_axis);
}

void turn(FourBar& four_bar) {
  turn(four_bar.upper_arm);
  turn(four_bar.lower_arm);
  turn(four_bar.pivot);
  turn(four_bar.axis);
  turn(four_bar.carries);
}

void turn(Relay& relay) {
  turn(relay.axis);
  turn(relay.carries);
}

void turn(Clamp& clamp) {
  turn(clamp.body);
  turn(clamp.to);
}

void turn(Keeper& keeper) {
  turn(keeper.holds);
  turn(keeper.against);
}

void turn(RadiusArm& arm) {
  turn(arm.frame_end);
  turn(arm.axle_ends);
}

void turn(LeafSpring& leaf) {
  for (std::string* name : {&leaf.eye, &leaf.shackle_eye, &leaf.shackle, &leaf.seat}) turn(*name);
}

template <class T>
void scale(std::optional<T>& value, double factor) {
  if (value) *value *= factor;
}

}  // namespace

std::string other_side(std::string name) {
  for (const auto& [from, to] : {std::pair{"_left", "_right"}, std::pair{"_right", "_left"}}) {
    const std::size_t at = name.find(from);
    if (at != std::string::npos) return name.replace(at, std::string(from).size(), to);
  }
  return name;
}

Truck mirrored(Truck truck) {
  for (Point& point : truck.points) {
    turn(point.name);
    turn(point.on);
    turn(point.mirror_of);
    point.at.y() = -point.at.y();
  }
  for (ExtraBody& body : truck.bodies) turn(body.name);
  for (Part& part : truck.parts) {
    turn(part.name);
    std::visit([](auto& what) { turn(what); }, part.what);
  }
  for (PlainJoint& joint : truck.joints) {
    turn(joint.name);
    turn(joint.between);
    turn(joint.point);
    turn(joint.ends);
    turn(joint.first);
    turn(joint.second);
  }
  for (Stud& stud : truck.studs) {
    turn(stud.ball);
    turn(stud.on);
    turn(stud.axis);
  }
  for (BushEntry& bush : truck.bushes) {
    turn(bush.ball);
    turn(bush.of);
    turn(bush.axis);
  }
  truck.thrust_angle = -truck.thrust_angle;
  std::swap(truck.wheels.centre_left, truck.wheels.centre_right);
  turn(truck.wheels.centre_left);
  turn(truck.wheels.centre_right);
  if (truck.rear_wheels) {
    std::swap(truck.rear_wheels->centre_left, truck.rear_wheels->centre_right);
    turn(truck.rear_wheels->centre_left);
    turn(truck.rear_wheels->centre_right);
  }
  std::swap(truck.gear.stop_left, truck.gear.stop_right);
  truck.gear.as_found = -truck.gear.as_found;
  return truck;
}

Truck moved(Truck truck, const Vec3& way) {
  for (Point& point : truck.points) point.at += way;
  return truck;
}

Truck grown(Truck truck, double factor) {
  truck.wheelbase *= factor;
  truck.aligned_height *= factor;
  truck.aligned_rear_height *= factor;
  truck.tolerance *= factor;
  for (double& height : truck.height_range) height *= factor;
  for (Point& point : truck.points) point.at *= factor;
  for (Part& part : truck.parts) {
    if (auto* bar = std::get_if<Bar>(&part.what)) {
      scale(bar->length, factor);
      scale(bar->sleeve, factor);
    } else if (auto* leaf = std::get_if<LeafSpring>(&part.what)) {
      leaf->clamp *= factor;
    }
  }
  for (PlainJoint& joint : truck.joints) scale(joint.length, factor);
  // Moments go with forces times lengths: so the same shares of the same stiffness.
  for (BushEntry& bush : truck.bushes) {
    bush.tilt *= factor * factor;
    bush.twist *= factor * factor;
  }
  truck.wheels.loaded_radius *= factor;
  truck.wheels.section *= factor;
  if (truck.rear_wheels) {
    truck.rear_wheels->loaded_radius *= factor;
    truck.rear_wheels->section *= factor;
  }
  truck.travel.bump *= factor;
  truck.travel.droop *= factor;
  return truck;
}

Truck listed_backwards(Truck truck) {
  std::reverse(truck.points.begin(), truck.points.end());
  std::reverse(truck.bodies.begin(), truck.bodies.end());
  std::reverse(truck.parts.begin(), truck.parts.end());
  std::reverse(truck.joints.begin(), truck.joints.end());
  std::reverse(truck.studs.begin(), truck.studs.end());
  std::reverse(truck.bushes.begin(), truck.bushes.end());
  return truck;
}

}  // namespace axlewright::testing
