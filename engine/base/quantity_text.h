#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace axlewright {

enum class UnitKind { length, angle };

/// A unit that text may carry. `symbol` is how we write it.
struct Unit {
  std::string_view symbol;
  UnitKind kind;
  double size;   ///< in metre or radian
  int decimals;  ///< places after the point that a shop can still use
};

/// One number and its unit, as they stand in the text.
struct QuantityTerm {
  double number = 0;
  const Unit* unit = nullptr;  ///< never null in a result
  std::string spelled;         ///< the unit as the text spells it: "inch", "in", "\""
  std::size_t number_begin = 0, number_end = 0;  ///< bytes of the text that spell the number
  bool fraction = false;                         ///< spelled as "35 1/2"
};

/// Text with units, read. `value` is in metre or radian and carries the sign.
struct Quantity {
  UnitKind kind = UnitKind::length;
  double value = 0;
  bool negative = false;
  bool explicit_sign = false;       ///< the text begins with + or -
  std::vector<QuantityTerm> terms;  ///< largest unit first
};

/// What is wrong with a text, and the bytes of it that are.
struct QuantityFault {
  std::string what;
  std::string fix;
  std::size_t begin = 0;
  std::size_t length = 1;
};

/// Reads a length or an angle with its unit: "902 mm", "35 1/2 in", "2 ft 3 in", "4 deg 30 min", "+10mm", "3 turns".
/// A number is digits with a point, or a whole number with a fraction; a sign stands once, in front. Of several terms
/// each has a smaller unit than the one before. The value is finite. Never guesses a unit.
tl::expected<Quantity, QuantityFault> read_quantity(std::string_view text);

}  // namespace axlewright
