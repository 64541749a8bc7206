#pragma once

#include "engine/ask/json.h"

namespace axlewright {

// What the program ends with.
inline constexpr int kDone = 0;  ///< and no limit of the file is broken
inline constexpr int kLimitBroken =
    1;  ///< done, but a limit is broken or a pose where it holds cannot be had
inline constexpr int kBadInput = 2;    ///< command line or file
inline constexpr int kNoSolution = 3;  ///< nothing to tell
inline constexpr int kInterrupted = 130;

/// The status that goes with an answer.
int exit_status(const Json& answer);

}  // namespace axlewright
