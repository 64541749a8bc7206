#pragma once

#include <string>

#include "engine/ask/json.h"

namespace axlewright {

/// A drawing (api/README.md) as an SVG file: its paper in mm, a group for each layer with its kind of line and weight (ISO 128-2), black on
/// white. The same drawing gives the same bytes.
std::string svg_of(const Json& drawing);

}  // namespace axlewright
