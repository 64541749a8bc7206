#pragma once

#include <cstddef>

namespace axlewright {

/// A count or place that is never negative, as the standard containers want it.
inline std::size_t index(int k) {
  return static_cast<std::size_t>(k);
}

}  // namespace axlewright
