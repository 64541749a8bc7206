#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The answer to `check`: what is held, what is loose, how far it is from binding.
void print_check(Page& page, const Json& answer);

}  // namespace axlewright
