#pragma once

#include <optional>
#include <string>

#include "engine/truck/complaints.h"
#include "engine/truck/document.h"

namespace axlewright {

// Typed values out of nodes, in SI. Each function gives nothing if the value cannot be had, and then has complained
// (or somebody has before). `name` is the key as the file spells it.

/// What a value may be, in SI. `above_low`: low itself is out.
struct Range {
  double low = 0;
  double high = 0;
  bool above_low = false;
};

std::optional<double> read_length(const Node& node, const std::string& name, const Range& range,
                                  Complaints& complaints);
std::optional<double> read_angle(const Node& node, const std::string& name, const Range& range,
                                 Complaints& complaints);
std::optional<double> read_plain_number(const Node& node, const std::string& name,
                                        const Range& range, Complaints& complaints);
std::optional<bool> read_yes_no(const Node& node, const std::string& name, Complaints& complaints);
/// Text with at least one character.
std::optional<std::string> read_text(const Node& node, const std::string& name,
                                     Complaints& complaints);

/// Whether the value is still to be filled in: text that begins with a question mark, as a file to fill in has it. Then it has
/// been complained of, and `fix` says what to write.
bool is_blank(const Node& node, const std::string& name, const std::string& fix,
              Complaints& complaints);

/// Whether text begins with a question mark: still to be filled in.
bool has_question_mark(const Node& node);

/// "; if 1,5 is one number, write 1.5": where numbers of a list stand close with a comma between, as a decimal comma has them;
/// else empty.
std::string decimal_comma_hint(const Node& list);

/// "902 mm" or "35.5 in", to the places a shop can use.
std::string length_words(double metres, BareUnit unit);
/// "4.5 deg".
std::string angle_words(double radians);
/// What stands there, for "... where a length belongs": "a list", "text", "true or false".
std::string kind_words(const Node& node);

}  // namespace axlewright
