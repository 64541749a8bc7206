#pragma once

#include <optional>

#include "engine/base/vec.h"

// What the wheel centres of two axles say of how a truck stands (definitions 2 and 5).

namespace axlewright {

/// The rake at which one road touches the tyres of both axles: sin r (x_f - x_r) + cos r (z_f - z_r) = R_f - R_r, nose up positive.
///   front, rear  middles of the axles' wheel centres, frame axes [m]
///   higher       loaded radius in front less that behind [m]
/// Nothing if the axles are not that far apart.
std::optional<double> rake_of_wheels(const Vec3& front, const Vec3& rear, double higher);

/// The heading square to a line from a right wheel centre to a left one, left positive.
double heading_square_to(const Vec3& across);

}  // namespace axlewright
