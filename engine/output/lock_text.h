#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// `locks` of an answer: steering to the first stop, either way, at the ends of the height range.
void print_locks(Page& page, const Json& answer);

}  // namespace axlewright
