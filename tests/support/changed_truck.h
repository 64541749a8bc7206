#pragma once

#include <string>

#include "engine/truck/truck.h"

// Trucks made of other trucks by what must not matter: the same truck seen in a mirror, moved, grown, listed in another order.

namespace axlewright::testing {

/// "lower_link_left" for "lower_link_right" and the other way round; other names stay.
std::string other_side(std::string name);

/// y turned over, left and right names exchanged.
Truck mirrored(Truck truck);

/// Every point moved by the same way [m].
Truck moved(Truck truck, const Vec3& way);

/// Every length times a factor; angles as they are.
Truck grown(Truck truck, double factor);

/// Points, bodies, parts, joints and studs listed last to first.
Truck listed_backwards(Truck truck);

}  // namespace axlewright::testing
