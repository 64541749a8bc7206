#pragma once

#include <cstddef>

#include "engine/base/pieces.h"

namespace axlewright {

/// More than any machine at hand has cores, few enough for every system to give.
inline constexpr std::size_t kMostThreads = 256;

/// As many threads as the machine can run at once, 1 to kMostThreads.
std::size_t all_threads();

/// Runs pieces in so many threads, 1 to kMostThreads, which are begun and ended with each call; in fewer where the system gives no
/// more. The calling thread waits and tells progress as pieces get done. With 1 it does them itself, one by one.
ForEach in_threads(std::size_t threads);

}  // namespace axlewright
