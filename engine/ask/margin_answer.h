#pragma once

#include "engine/ask/json.h"
#include "engine/ask/words.h"
#include "engine/study/margin.h"

namespace axlewright {

/// A margin as api/README.md tells it.
Json json_of(const Margin& margin, const Words& words);

}  // namespace axlewright
