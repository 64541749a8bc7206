#pragma once

#include <string>

#include "engine/base/vec.h"
#include "engine/solve/follower.h"
#include "engine/study/rig.h"
#include "engine/truck/truck.h"

// Truck files of the tree, read for tests, and places of their points in a pose.

namespace axlewright::testing {

/// Hands out files of the machine (engine/truck/read.h).
tl::expected<std::string, std::string> text_of_file(const std::string& path);

/// Where a file named from the project's root lies on this machine.
std::string source_path(const std::string& path);

/// The truck of a file named from the project's root ("trucks/guided.toml"). Every fault is a failure of the running
/// test; then the truck is empty.
Truck truck_of(const std::string& path);

/// Where a point of the truck is in the rig's last pose, on the body that it rides on; frame axes [m].
Vec3 place_of(Rig& rig, const std::string& point);

}  // namespace axlewright::testing
