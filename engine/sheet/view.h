#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/sheet/truck_solids.h"
#include "engine/sheet/view_axes.h"

namespace axlewright {

/// The way of a point over the heights, as the pose drawn sees it: against the frame, or against the axle for a point of the
/// frame. Frame axes [m].
struct SweptWay {
  std::string point;
  std::vector<Vec3> places;
};

/// What a drawing shows.
///   beside  the same truck in another pose, drawn faintly
///   room    the truck's own (room_of()), so that it keeps its place on the paper
struct DrawnTruck {
  const Truck& truck;
  const Expansion& expansion;
  Stance now;
  std::optional<Stance> beside;
  std::vector<SweptWay> swept;
  Room room;
};

///   paper   its size [m]; the truck's room is fitted into it
///   turn, tilt  of the pictorial view [rad]
///   areas   silhouettes to be filled, for screens
///   hidden  edges behind other parts
struct ViewPlan {
  ViewKind kind = ViewKind::front;
  Vec2 paper = Vec2(0.4, 0.3);
  double turn = 0.6, tilt = 0.35;
  bool areas = true;
  bool hidden = true;
  bool centre_lines = true;
};

/// Where a view stands on a larger paper.
///   scale   metres of paper per metre of truck
///   origin  where the origin of road axes is drawn [m of paper]
struct Placement {
  double scale = 0;
  Vec2 origin = Vec2::Zero();
};

/// The box that a truck's room fills in a view, at scale 1 [m of truck], against the origin of road axes.
struct Box2 {
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();
};
Box2 box_in_view(const Room& room, const ViewAxes& axes);

/// One view, alone on its paper.
Drawing compose_view(const DrawnTruck& drawn, const ViewPlan& plan);

/// One view among others.
Drawing compose_view(const DrawnTruck& drawn, const ViewPlan& plan, const Placement& placement);

/// The ways of points over a truck's heights for a pose drawn; `poses` are those of all bodies at the heights.
SweptWay swept_way(const Expansion& x, const std::string& point, const Stance& now,
                   const std::vector<std::vector<Pose>>& poses);

}  // namespace axlewright
