#pragma once

#include <string>
#include <vector>

#include "engine/ask/ask.h"
#include "engine/ask/words.h"

namespace axlewright {

/// Reads the truck that a question names, with its settings.
Result<Truck> open_truck(const Json& question, const std::string& file, const AskContext& context);

/// A number of the question, or `otherwise`. Fails on anything that is not a finite number.
Result<double> number_in(const Json& question, const char* key, double otherwise);

/// "inch" or "mm" of the question; without it the truck's own.
Words words_for(const Json& question, const Truck& truck);

/// The head that every answer about one truck begins with, its warnings included.
Json answer_head(const Json& question, const Truck& truck, const Words& words);

/// The quantity of that key, or a fault with the nearest names.
Result<int> quantity_in(const std::vector<QuantityInfo>& infos, const std::string& key);

Json json_of(const Fault& fault);

}  // namespace axlewright
