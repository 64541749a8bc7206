#pragma once

#include <string>

#include "engine/base/quantity_text.h"

namespace axlewright {

/// The text as TOML spells it on one line, in quotes.
std::string quoted(const std::string& text);

/// Places after the point of a number as it is spelled: 2 for "35.25".
int decimals_of(const std::string& spelled);

/// A bare number to stand where `old` is spelled. `most`: places after the point that count; more only if `old` has
/// more or `wanted` (of the setting) asks for more.
std::string respelled_number(double value, const std::string& old, int most, int wanted);

/// The text with unit(s) `old`, which reads as `quantity`, respelled for another value in SI: same units, same blanks.
/// A fraction stays one if the value is a whole number of 64ths.
std::string respelled_quantity(double value, const std::string& old, const Quantity& quantity,
                               int wanted);

}  // namespace axlewright
