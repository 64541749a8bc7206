#include "engine/sheet/stance.h"

#include "engine/base/index.h"
#include "engine/base/invariant.h"

namespace axlewright {

Vec3 Stance::along_road(const Vec3& way) const {
  return {way.dot(road.forward), way.dot(road.left), way.dot(road.normal)};
}

Vec3 Stance::on_road(const Vec3& place) const {
  Vec3 there = along_road(place - pivot) + pivot;
  there.z() = (place - road_place).dot(road.normal);
  return there;
}

bool Stance::is_on_pads() const {
  return request.travel != 0 || request.travel_left != 0 || request.travel_right != 0;
}

Vec3 Stance::place(const Anchor& anchor) const {
  return on_road(bodies[index(anchor.body.value)].place(anchor.at));
}

Vec3 Stance::direction(const Axis& axis) const {
  return along_road(bodies[index(axis.body.value)].turn(axis.direction));
}

namespace {

QuantityContext context_of(const PoseRequest& request) {
  QuantityContext context;
  context.height = request.height;
  context.rear_height = request.rear_height;
  context.lean = request.lean;
  return context;
}

/// Of the frame, whatever the truck does.
Vec3 pivot_of(const Expansion& x) {
  return 0.5 * (x.mechanism.anchor(x.wheel_on_axle.left).at +
                x.mechanism.anchor(x.wheel_on_axle.right).at);
}

}  // namespace

Stance stance_of(Rig& rig, const PoseResult& pose) {
  AXLEWRIGHT_INVARIANT(pose.report.usable());
  Stance stance;
  stance.request = pose.request;
  stance.bodies = rig.follower().kinematics().pose;
  stance.road = road_axes(road_normal(rig.truck(), context_of(pose.request)));
  stance.road_place = pose.road_place;
  stance.pivot = pivot_of(rig.expansion());
  return stance;
}

Stance stance_as_measured(const Rig& rig) {
  Stance stance;
  stance.bodies.resize(rig.expansion().mechanism.bodies.size());
  const Vec3 normal = road_normal(rig.truck(), context_of(stance.request));
  stance.pivot = pivot_of(rig.expansion());
  Kinematics kin;
  kin.pose = stance.bodies;
  stance.road = road_axes(normal);
  stance.road_place =
      contact_middle<double>(rig.truck(), rig.expansion(), rig.rolling().design(), kin, normal);
  return stance;
}

}  // namespace axlewright
