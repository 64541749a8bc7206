#pragma once

#include <vector>

#include "engine/study/rig.h"

// A truck as it stands on the road: what its drawings are composed from.

namespace axlewright {

/// Bodies of a truck in a solved pose, and the road under them.
///   request     the pose
///   bodies      in frame axes, by BodyId
///   road        forward, left and normal of the road, in frame axes
///   road_place  a point of the road, frame axes [m]
///   pivot       what keeps its place sideways and fore-aft while the frame leans and tips: the axle's middle as measured, as a place of
///               the frame [m]
/// Road axes: x forward along the road, y left, z above the road; x and y count from the frame's origin where the frame is level. So the
/// frame stays where it is on the paper and the axle walks.
struct Stance {
  PoseRequest request;
  std::vector<Pose> bodies;
  RoadAxes road;
  Vec3 road_place = Vec3::Zero();
  Vec3 pivot = Vec3::Zero();

  /// Whether travel has lifted a wheel from the road, or both.
  bool is_on_pads() const;
  Vec3 on_road(const Vec3& place) const;   ///< a place, from frame axes to road axes
  Vec3 along_road(const Vec3& way) const;  ///< a direction
  Vec3 place(const Anchor& anchor) const;  ///< an anchor, in road axes
  Vec3 direction(const Axis& axis) const;  ///< an axis of a body, in road axes
};

/// The stance of a pose that `rig` has just solved.
Stance stance_of(Rig& rig, const PoseResult& pose);

/// As measured: for a truck that cannot be posed.
Stance stance_as_measured(const Rig& rig);

}  // namespace axlewright
