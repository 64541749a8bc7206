#pragma once

#include <string>
#include <vector>

#include "engine/ask/words.h"
#include "engine/study/sweep.h"

// What a sweep found, in sentences that a shop owner understands: the answer before the evidence.

namespace axlewright {

/// Steering wheel, axle, alignment, bumps, leans; the worst place of the whole grid; what cannot be had; limits.
std::vector<std::string> story_of(const Sweep& sweep, const Truck& truck, const Words& words);

/// The row whose value is farthest from zero, or null if no row has one.
const HeightRow* farthest_row(const Sweep& sweep, int quantity);

/// Values of a quantity over the heights going straight, rows without a pose left out.
std::vector<double> over_heights(const Sweep& sweep, int quantity);

/// Largest less least of them; 0 for none.
double change_over_heights(const Sweep& sweep, int quantity);

}  // namespace axlewright
