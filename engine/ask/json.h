#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "engine/quantity/quantities.h"
#include "engine/solve/report.h"
#include "engine/study/rig.h"

namespace axlewright {

/// Keys stay in the order in which they were written, so that answers read as they were composed.
using Json = nlohmann::ordered_json;

/// What a quantity's key ends in ("_mm", "_deg", "_turns", "" for plain ratios) and what its SI value is multiplied by.
std::string unit_suffix(QuantityUnit unit);
double to_json_unit(QuantityUnit unit, double si);

/// A number, or null where it is not finite.
Json number_or_null(double value);

/// How a pose ended, with its certificate, residual, step, iterations and set-aside miss.
Json json_of(const SolveReport& report);

/// The inputs of a pose with their units in the keys.
Json json_of(const PoseRequest& request);

}  // namespace axlewright
