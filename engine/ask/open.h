#pragma once

#include <string>
#include <vector>

#include "engine/ask/ask.h"
#include "engine/ask/words.h"

namespace axlewright {

/// Reads the truck of that file, with the question's kits and settings on top.
Result<Truck> open_truck(const Json& question, const std::string& file, const AskContext& context);

/// "inch" or "mm" of the question; without it the truck's own.
Result<Words> words_for(const Json& question, const Truck& truck);

/// What every answer about one truck begins with, its warnings included.
Json answer_head(const Json& question, const Truck& truck, const Words& words);

/// What every answer ends with.
Json cautions();

/// The place of a quantity in the list, or a fault with the nearest name.
Result<int> quantity_in(const std::vector<QuantityInfo>& infos, const std::string& key);

}  // namespace axlewright
