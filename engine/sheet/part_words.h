#pragma once

#include <string>
#include <vector>

#include "engine/truck/truck.h"

namespace axlewright {

/// A drawn part in shop words: "track_bar" -> "track bar", "guided_steering.carriage" -> "guided steering carriage".
std::string words_for_part(const Truck& truck, const std::string& part);

}  // namespace axlewright
