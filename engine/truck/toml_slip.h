#pragma once

#include <optional>
#include <string>

#include "engine/base/result.h"

namespace axlewright {

/// The first usual slip in a text that is no TOML: a quote, comma, bracket, brace or equals sign that is missing, text or a unit
/// outside quotes, a name with a blank, a name given twice. Nothing if the text is good up to there, or its first slip is an
/// unusual one: then the parser's own words must do. `text` has passed guard_toml.
std::optional<Fault> slip_in_toml(const std::string& file, const std::string& text);

}  // namespace axlewright
