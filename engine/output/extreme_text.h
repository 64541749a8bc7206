#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The least and the most of each quantity over the whole grid, each with its place; what stays is told in one sentence.
void print_extremes(Page& page, const Json& sweep);

}  // namespace axlewright
