#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/ask/json.h"

// Numbers of an answer as they are shown: in the reader's unit, the sign in words.

namespace axlewright {

/// A quantity of an answer, and how its numbers are shown.
struct ShownQuantity {
  std::string name;                ///< its key in the answer's values
  std::string words;               ///< "caster, left"
  std::string unit;                ///< as shown: "mm", "in", "deg per inch"; may be empty
  std::string positive, negative;  ///< sides, short: "left", "top back"; may be empty
  double scale = 1;                ///< from the answer's number to the shown one

  bool has_sides() const { return !positive.empty() && !negative.empty(); }
};

/// Whether the answer is to be shown in inches.
bool in_inches(const Json& answer);

/// Out of an entry of `quantities`: `{name, words, unit, positive, negative}`.
ShownQuantity shown_quantity(const Json& quantity, bool inches);
/// A length or an angle that no list tells: `unit` is the answer's, "mm" or "deg".
ShownQuantity shown_plain(const std::string& words, const std::string& unit, bool inches,
                          const std::string& positive = "", const std::string& negative = "");

/// The number under a key, or nothing where the answer has none.
std::optional<double> number_at(const Json& values, const std::string& name);
/// The text under a key, or empty.
std::string text_at(const Json& object, const std::string& name);
/// The texts of a list; of a list of objects the `text` of each; of a text that alone. Empty without the key.
std::vector<std::string> texts_at(const Json& object, const std::string& name);

/// Places after the point that a shop can use, for numbers up to `largest` (as shown).
int decimals_for(const ShownQuantity& quantity, double largest);
/// The largest of the values as shown, by magnitude.
double largest_shown(const ShownQuantity& quantity,
                     const std::vector<std::optional<double>>& values);

/// Whether the value rounds to nothing.
bool rounds_to_zero(const ShownQuantity& quantity, double value, int decimals);

/// "12.4" or "-12.4": without unit and side.
std::string number_text(const ShownQuantity& quantity, double value, int decimals);
/// "12.4 left", "-3.2" where the quantity has no words for its sign, "0.0", "-" for nothing.
std::string cell_text(const ShownQuantity& quantity, std::optional<double> value, int decimals);
/// "12.4 deg left": for sentences.
std::string value_text(const ShownQuantity& quantity, double value, int decimals);
std::string value_text(const ShownQuantity& quantity, double value);

}  // namespace axlewright
