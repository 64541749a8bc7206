#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `start`: a truck file to fill in for a layout, and the sheet of what to measure. Where a number of the truck goes the file has "?",
/// which the reader takes for not filled in yet; with `example_numbers` it has those of an invented truck. Reads no file.
Result<Json> answer_start(const Json& question, const AskContext& context);

}  // namespace axlewright
