#pragma once

#include "engine/ask/json.h"
#include "engine/ask/words.h"
#include "engine/study/rig.h"

namespace axlewright {

/// What rigid parts could not do, of a truck that bushes hold or whose closures fight: a degree of lean, and each end of its height
/// range. An array of {motion, gaps: [{joint, gap_mm}], text}, empty where rigid parts could do it all.
Json fights(const Rig& rig, const Words& words);

}  // namespace axlewright
