#pragma once

#include <vector>

#include "engine/sheet/solid.h"
#include "engine/sheet/stance.h"

namespace axlewright {

/// What is drawn of a truck: every part of its front end where the stance has it; a rear axle of its own, and what lies nearer to it than to
/// the front one, is not drawn. Only the lines between points, tyres and the gear's shaft
/// come from the file; it knows no sections, so tubes, housings, brackets, rails and springs have nominal ones (below).
struct TruckSolids {
  std::vector<Solid> solids;
  std::vector<CentreLine> centre_lines;
};

TruckSolids truck_solids(const Truck& truck, const Expansion& x, const Stance& stance);

/// The room that a truck takes over all its heights and a full turn of its wheels, in road axes [m]: the same at every pose,
/// so that a drawing keeps its place while the truck moves.
struct Room {
  Vec3 low = Vec3::Zero(), high = Vec3::Zero();
};
Room room_of(const Truck& truck, const Expansion& x, const Stance& as_measured);

}  // namespace axlewright
