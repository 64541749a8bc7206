#pragma once

#include <vector>

#include "engine/ask/json.h"
#include "engine/ask/words.h"

namespace axlewright {

/// The points and lengths that matter most for a quantity at a pose, as api/README.md tells them: `design_moves` (lengths follow
/// the point) and `build_errors` (one end or one length alone), the strongest first.
Json points_that_matter(Rig& rig, const PoseRequest& where, int quantity, const Words& words);

}  // namespace axlewright
