#pragma once

#include <cstddef>
#include <string>

#include "engine/base/result.h"

namespace axlewright {

/// What --threads says, 1 to kMostThreads; nothing typed is as many as the machine can run at once.
Result<std::size_t> threads_of(const std::string& typed);

}  // namespace axlewright
