#pragma once

#include "engine/ask/json.h"
#include "engine/ask/words.h"

namespace axlewright {

/// `guided_bars` of a check: lengths, rule and path of each guided bar (engine/study/straightness.h).
Json guided_bars(Rig& rig, const Words& words);

}  // namespace axlewright
