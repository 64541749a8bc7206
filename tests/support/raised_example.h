#pragma once

#include <string>
#include <vector>

#include "engine/study/sweep.h"

// The example trucks of trucks/ by name ("guided"), raised, for tests that hold what their comments promise.

namespace axlewright::testing {

Rig rig_of(const std::string& example);

/// The example raised from bottom to top in 11 heights, with its whole grid of travel, lean and steering. Swept once.
const Sweep& raised(const std::string& example);

/// A quantity going straight, at each height from bottom to top [SI].
std::vector<double> over_heights(const std::string& example, int quantity);
std::vector<double> over_heights(const std::string& example, const std::string& key);

double at_top(const std::string& example, int quantity);
double change_over_heights(const std::string& example, int quantity);

/// Farthest from zero; not a number where any of them is none, so that no comparison with it holds.
double largest(const std::vector<double>& values);
bool grows_all_the_way(const std::vector<double>& values);

/// What became of a limit of the example; a failure of the running test if it has none of that name.
Verdict verdict_on(const std::string& example, const std::string& limit);

}  // namespace axlewright::testing
