#pragma once

#include <optional>
#include <string>

#include "engine/base/result.h"

namespace axlewright {

/// What keeps the parser from harm: a fault if `text` is larger than kLargestFile, is no UTF-8, nests deeper than
/// anyone writes by hand, or has a letter beyond ASCII outside quotes and comments (the parser's behaviour is
/// undefined there). Nothing if the text may be parsed; it need not be TOML.
std::optional<Fault> guard_toml(const std::string& file, const std::string& text);

}  // namespace axlewright
