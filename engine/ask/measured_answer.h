#pragma once

#include <string>

#include "engine/ask/json.h"
#include "engine/ask/words.h"
#include "engine/truck/truck.h"

// What `check` tells of a truck that was measured and fitted.

namespace axlewright {

/// How well what was measured fits together, number by number, where the points are now and what is left open of them. The truck was
/// fitted.
Json measured_json(const Truck& truck, const Words& words);

/// The same in a sentence or two.
std::string measured_sentence(const Truck& truck, const Words& words);

}  // namespace axlewright
