#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The answer to `pose`: everything about one pose.
void print_pose(Page& page, const Json& answer);

}  // namespace axlewright
