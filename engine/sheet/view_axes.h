#pragma once

#include <string>

#include "engine/base/vec.h"
#include "engine/sheet/drawing.h"

namespace axlewright {

/// From where a drawing looks, with parallel rays.
///   front      from ahead: the truck's left is on the right of the paper
///   side       from the left: front to the left
///   top        from above: front up, left on the left
///   top_below  from above as third-angle projection sets it over a front view: front down, left on the right
///   pictorial  from ahead, turned to the left and tilted up by two angles
enum class ViewKind { front, side, top, top_below, pictorial };

const char* name_of(ViewKind kind);    ///< "front", as JSON spells it
const char* words_for(ViewKind kind);  ///< "Front view"

/// Paper's x, paper's y and the way to the viewer, as unit vectors in road axes; right-handed.
struct ViewAxes {
  Vec3 across = Vec3::UnitY(), up = Vec3::UnitZ(), toward = Vec3::UnitX();

  Vec2 flat(const Vec3& place) const { return {place.dot(across), place.dot(up)}; }
  double depth(const Vec3& place) const { return place.dot(toward); }  ///< nearer is larger
};

/// Angles only for the pictorial view [rad]: turn from straight ahead toward the truck's left, tilt from level upward.
ViewAxes view_axes(ViewKind kind, double turn, double tilt);

}  // namespace axlewright
