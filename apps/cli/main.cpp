#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include "apps/cli/exit_status.h"
#include "apps/cli/run.h"

namespace {

int run(const std::vector<std::string>& words) {
  const axlewright::Result<axlewright::Asked> asked = axlewright::read_command_line(words);
  if (!asked) {
    const bool json = std::find(words.begin(), words.end(), "--json") != words.end();
    axlewright::report_faults(asked.error(), json);
    return axlewright::kBadInput;
  }
  if (asked->command) return axlewright::run_command(*asked->command);
  return axlewright::print_out(asked->text) ? asked->status : axlewright::kBadInput;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run({argv + std::min(argc, 1), argv + argc});
  } catch (const std::exception& error) {
    std::fprintf(stderr, "axlewright: this should not happen, please report it: %s\n",
                 error.what());
    return axlewright::kBadInput;
  }
}
