#pragma once

#include "engine/ask/json.h"
#include "engine/ask/words.h"

namespace axlewright {

/// What each loose motion of a truck that can be posed moves, looked at going straight and steered, at the ends and in the
/// middle of its height range: idle, or what it does to which quantity, per degree and within what the studs leave free.
Json loose_motions(Rig& rig, const Words& words);

}  // namespace axlewright
