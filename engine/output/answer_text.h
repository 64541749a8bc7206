#pragma once

#include <string>

#include "engine/ask/json.h"
#include "engine/output/text.h"

// Answers as text. Nothing here computes: it shows what an answer says (api/README.md).

namespace axlewright {

/// An answer to `check`, `pose`, `sweep`, `compare` or `setup` for a terminal: the story first, then the evidence. Every line
/// keeps to the width; the text ends in a line end.
std::string answer_text(const Json& answer, const PrintStyle& style);

/// An answer to `start` whose two files were written.
std::string start_text(const Json& answer, const std::string& truck_file,
                       const std::string& sheet_file, const PrintStyle& style);

}  // namespace axlewright
