#pragma once

#include <cstddef>
#include <functional>

#include "engine/base/progress.h"

// Work in pieces that hang on nothing of each other. The core starts no threads: who asks it says how the pieces are run.

namespace axlewright {

/// Does piece k of the work, 0 <= k < count. It is called for each piece at most once, maybe for several at the same time.
using Piece = std::function<void(std::size_t)>;

/// Runs pieces 0 to count - 1 and comes back when none is at work any more. Pieces are begun in their order.
///   progress   may be empty; told the share done, from 0 up, on the calling thread alone. After it said no no further piece is begun.
/// Gives false if it was told to stop. After a piece throws no further one is begun; what the lowest of those that threw did throw comes
/// out: what would have, had they run one after the other.
using ForEach =
    std::function<bool(std::size_t count, const Piece& piece, const Progress& progress)>;

/// The pieces one after the other, on the calling thread; progress is told before each.
bool one_by_one(std::size_t count, const Piece& piece, const Progress& progress);

}  // namespace axlewright
