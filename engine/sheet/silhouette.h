#pragma once

#include <string>
#include <vector>

#include "engine/sheet/solid.h"
#include "engine/sheet/view_axes.h"

// A solid as a view shows it: its outline, the edges inside, and the region that it covers [m of truck].

namespace axlewright {

/// A straight line from a to b, or an arc about a centre. Depth runs evenly along it.
struct Curve {
  bool is_arc = false;
  Vec2 a = Vec2::Zero(), b = Vec2::Zero();
  Vec2 centre = Vec2::Zero();
  double radius = 0, from = 0, to = 0;  ///< [rad], anticlockwise
  double depth_a = 0, depth_b = 0;

  Vec2 at(double share) const;
  double depth(double share) const { return depth_a + share * (depth_b - depth_a); }
};

/// What lies within an outline: all places within a radius of a line, or a convex polygon (anticlockwise).
struct Region {
  bool is_polygon = false;
  Vec2 a = Vec2::Zero(), b = Vec2::Zero();
  double radius = 0;
  double depth_a = 0, depth_b = 0;
  std::vector<Vec2> polygon;
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();  ///< the box around it

  /// Whether a place is inside by more than a hair.
  bool covers(const Vec2& p) const;
  /// Depth of the solid's surface that faces the viewer, near a place; roughly.
  double depth_at(const Vec2& p) const;
  /// The outline as a polygon.
  std::vector<Vec2> outline() const;
};

/// A solid seen from one direction.
struct Silhouette {
  std::string part;
  bool adjacent = false;
  std::vector<Curve> edges, details;
  Region region;
  bool covers_something = true;  ///< false of a coil
  double depth = 0;              ///< of its middle
};

Silhouette silhouette_of(const Solid& solid, const ViewAxes& view);

}  // namespace axlewright
