#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace axlewright {

// Values that stand without quotes, looked at where a text is no TOML.

/// Whether TOML takes it as it is: a number, true or false, inf or nan, a date or a time. Dates are not looked at closely.
bool is_toml_scalar(std::string_view value);

/// What is wrong with a value, and what to write instead.
struct BareSlip {
  std::string what;
  std::string fix;
};

/// The usual slip in a value that is no scalar: a unit, a fraction or text outside quotes, a decimal comma, a list without
/// brackets, a number that begins or ends with its point. Nothing if it is none of these.
std::optional<BareSlip> slip_of_bare(std::string_view value);

/// `write "Dunlin"`: the text in quotes that hold it as it is, or in words where that would be no help.
std::string fix_in_quotes(std::string_view text);

}  // namespace axlewright
