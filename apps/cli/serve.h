#pragma once

#include "apps/cli/command_line.h"

namespace axlewright {

/// Serves the folder until Ctrl-C. Gives the exit status.
int run_serve(const Command& command);

}  // namespace axlewright
