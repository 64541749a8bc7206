#pragma once

#include "engine/ask/json.h"
#include "engine/sheet/drawing.h"

namespace axlewright {

/// A drawing as api/README.md tells it: mm of paper to the hundredth, layers with their lines, items, points.
Json json_of(const Drawing& drawing);

}  // namespace axlewright
