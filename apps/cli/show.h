#pragma once

#include "apps/cli/command_line.h"

namespace axlewright {

/// `show`: the customer page of two trucks, written to the file of -o. Gives the exit status.
int run_show(const Command& command);

}  // namespace axlewright
