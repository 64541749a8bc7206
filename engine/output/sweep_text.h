#pragma once

#include "engine/output/height_table.h"
#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The answer to `sweep`: what the truck does from bottom to top.
void print_sweep(Page& page, const Json& answer);

/// Values of a quantity by row of a sweep; nothing where a row has no pose or the pose does not have it.
std::vector<std::optional<double>> values_over_heights(const Json& sweep, const std::string& name);
/// The column without the rows at which the sweep has no pose.
HeightColumn without_refused_heights(const Json& sweep, const HeightColumn& column);
/// The heights of its rows [mm].
Json heights_of(const Json& sweep);

}  // namespace axlewright
