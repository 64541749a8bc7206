#pragma once

#include <vector>

#include "engine/mechanism/system.h"

namespace axlewright {

/// Every number that the shape of a mechanism hangs on, over a scalar: its design parameters.
///   places      of each anchor, frame axes as measured [m]
///   directions  of each axis, unit, as measured; those defined by two anchors follow them
///   lengths     of each bar [m]
template <class T>
struct DesignT {
  std::vector<Vec3T<T>> places;
  std::vector<Vec3T<T>> directions;
  std::vector<T> lengths;
};

using Design = DesignT<double>;

/// The direction of every axis, from the places of the anchors that define it.
template <class T>
void update_directions(const Mechanism& mechanism, DesignT<T>& design) {
  using std::sqrt;
  for (std::size_t k = 0; k < mechanism.axes.size(); ++k) {
    const Axis& axis = mechanism.axes[k];
    if (axis.from.value < 0) continue;
    const Vec3 span = mechanism.anchor(axis.to).at - mechanism.anchor(axis.from).at;
    const Vec3T<T> line = design.places[static_cast<std::size_t>(axis.to.value)] -
                          design.places[static_cast<std::size_t>(axis.from.value)];
    design.directions[k] = direction_on_side<T>(Vec3T<T>(line * (T(1) / sqrt(line.dot(line)))),
                                                axis.side, span / span.norm());
  }
}

/// The design as the mechanism states it.
template <class T = double>
DesignT<T> design_of(const Mechanism& mechanism) {
  DesignT<T> design;
  for (const Anchor& anchor : mechanism.anchors) design.places.push_back(anchor.at.cast<T>());
  for (const Axis& axis : mechanism.axes) design.directions.push_back(axis.direction.cast<T>());
  for (const Length& length : mechanism.lengths) design.lengths.push_back(T(length.value));
  return design;
}

}  // namespace axlewright
