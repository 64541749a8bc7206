#pragma once

#include "apps/cli/command_line.h"
#include "engine/ask/json.h"

namespace axlewright {

/// The question that a command asks (api/README.md), without its settings if they are written into the file instead.
Result<Json> question_of(const Command& command);

}  // namespace axlewright
