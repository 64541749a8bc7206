#pragma once

#include "apps/cli/command_line.h"

namespace axlewright {

/// Asks what the command asks, prints the answer, writes what there is to write. Gives the exit status.
int run_command(const Command& command);

/// Faults for people on standard error; for programs, if `json`, on standard output too.
void report_faults(const std::vector<Fault>& faults, bool json);

/// The text on standard output. In words what is wrong with that (a full disk behind it).
bool print_out(const std::string& text);

}  // namespace axlewright
