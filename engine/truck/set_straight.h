#pragma once

#include <string>

#include "engine/truck/truck.h"

namespace axlewright {

/// Brings a truck that was measured while its frame leaned to where it stands without: the axle is turned under the frame by that lean
/// (definition 1), the road wheels straight ahead, and every point, and every direction given by numbers, goes with its body. Lean as
/// `truck.fit` has it; a truck without any stays as it is.
///
/// Gives nothing, or why the linkage does not close there; then the truck is as it was.
std::string set_straight(Truck& truck);

}  // namespace axlewright
