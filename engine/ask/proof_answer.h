#pragma once

#include "engine/ask/json.h"
#include "engine/ask/words.h"
#include "engine/study/proof.h"

namespace axlewright {

/// A proof as api/README.md has it, with a text that says what it covers and where it stops.
Json json_of(const RangeProof& proof, const Truck& truck, const Words& words);

}  // namespace axlewright
