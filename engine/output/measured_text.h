#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// What was measured against the fit, in a table, and the points that the fit moved most. Nothing for a truck that was not fitted.
void print_measured(Page& page, const Json& answer);

}  // namespace axlewright
