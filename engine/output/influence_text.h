#pragma once

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// `points_that_matter` of an answer: what a small change of a point or a length does, the strongest first.
void print_points_that_matter(Page& page, const Json& answer);

}  // namespace axlewright
