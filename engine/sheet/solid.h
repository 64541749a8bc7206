#pragma once

#include <string>
#include <variant>
#include <vector>

#include "engine/base/vec.h"

// The few shapes that front ends are drawn with, in road axes [m]. Seen from anywhere each has a convex outline.

namespace axlewright {

/// A tube or arm with round ends; a ball where both ends are alike.
struct Rod {
  Vec3 a = Vec3::Zero(), b = Vec3::Zero();
  double radius = 0;
};

/// A cylinder with flat ends: a shaft in its housing.
struct Drum {
  Vec3 a = Vec3::Zero(), b = Vec3::Zero();
  double radius = 0;
};

/// Half edges, square to one another.
struct Box {
  Vec3 centre = Vec3::Zero();
  Vec3 x = Vec3::Zero(), y = Vec3::Zero(), z = Vec3::Zero();
};

/// A tyre with rounded shoulders: `axis` is a unit vector along the wheel's spin axis.
struct Tyre {
  Vec3 centre = Vec3::Zero(), axis = Vec3::UnitY();
  double radius = 0, half_width = 0, rim = 0;
};

/// A coil spring between two seats.
struct Coil {
  Vec3 a = Vec3::Zero(), b = Vec3::Zero();
  double radius = 0;
  int turns = 6;
};

using Shape = std::variant<Rod, Drum, Box, Tyre, Coil>;

/// A shape with the part that it belongs to. `adjacent` things are what the linkage stands between (tyres, rails, springs): drawn
/// thin, hiding nothing and never hidden.
struct Solid {
  std::string part;
  Shape shape;
  bool adjacent = false;
};

/// An axis to be drawn as a centre line, ends included.
struct CentreLine {
  std::string part;
  Vec3 a = Vec3::Zero(), b = Vec3::Zero();
};

}  // namespace axlewright
