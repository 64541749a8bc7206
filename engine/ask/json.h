#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/base/result.h"
#include "engine/quantity/quantities.h"
#include "engine/solve/report.h"
#include "engine/study/rig.h"

namespace axlewright {

/// Keys stay in the order in which they were written, so that answers read as they were composed.
using Json = nlohmann::ordered_json;

/// Version of the questions and answers (api/README.md).
inline constexpr int kAnswerVersion = 1;

/// What a quantity's key ends in: "_mm", "_deg", "_turns", "_deg_per_25mm", or nothing for plain ratios.
std::string unit_suffix(QuantityUnit unit);

/// The unit in words: "mm", "deg", "deg per 25 mm", "to 1".
std::string unit_words(QuantityUnit unit);

double to_json_unit(QuantityUnit unit, double si);

/// A quantity's key with its unit: "caster_left_deg".
std::string json_name(const QuantityInfo& info);

/// A quantity's value in its JSON unit, null where the pose does not have it.
Json json_value(const QuantityInfo& info, double si);

Json json_of(const QuantityInfo& info);
Json json_of(const std::vector<QuantityInfo>& infos);

/// Values by name, in the order of the list.
Json json_values(const std::vector<QuantityInfo>& infos, const std::vector<double>& values);

Json json_of(const Fault& fault);

/// Three coordinates in mm.
Json place_mm(const Vec3& place);

/// A number, or null where it is not finite.
Json number_or_null(double value);

/// How a pose ended, with its certificate, residual, step, iterations and set-aside miss.
Json json_of(const SolveReport& report);

/// The inputs of a pose with their units in the keys.
Json json_of(const PoseRequest& request);

}  // namespace axlewright
