#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The answer to `compare`: trucks side by side, a column each.
void print_compare(Page& page, const Json& answer);

}  // namespace axlewright
