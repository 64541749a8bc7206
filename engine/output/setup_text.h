#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The answer to `setup`: what to turn, and what the truck then does at each height.
void print_setup(Page& page, const Json& answer);

}  // namespace axlewright
