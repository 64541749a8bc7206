#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace axlewright {

// Numbers as text, without the locale: a decimal point is a point on every machine.

/// A number at the start of a text and how many bytes spell it.
struct NumberPrefix {
  double value = 0;
  std::size_t length = 0;
};

/// The number that `text` begins with: digits with an optional point and exponent, no sign, no blanks, never
/// infinite or not-a-number. Nothing if it begins otherwise or is out of the range of a double.
std::optional<NumberPrefix> read_number_prefix(std::string_view text);

/// The whole of `text` as a number, with an optional sign; nothing if anything is left over.
std::optional<double> read_number(std::string_view text);

/// `value` in decimals: rounded to `most` places after the point, trailing zeros dropped down to `least` places.
/// Zero is never "-0". `value` is finite, 0 <= least <= most <= 15.
std::string decimal_text(double value, int least, int most);

}  // namespace axlewright
