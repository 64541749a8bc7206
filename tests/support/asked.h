#pragma once

#include <string>

#include "engine/ask/ask.h"

// Questions asked of files of the tree, as every face asks them.

namespace axlewright::testing {

/// The example trucks that stand for themselves.
inline constexpr const char* kExampleTrucks[] = {
    "plain-mismatched", "plain-parallel", "half-converted", "guided-loose",
    "guided",           "rocker-guided",  "four-bar"};

/// The file of an example truck.
std::string example_file(const std::string& truck);

Result<Json> asked(const Json& question);

/// The answer; faults are a failure of the running test.
Json answer(const Json& question);

/// What is wrong, and the fix, of the first fault; an answer is a failure of the running test.
std::string fault_of(const Json& question);

}  // namespace axlewright::testing
