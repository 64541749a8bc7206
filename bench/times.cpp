#include "bench/times.h"

#include <algorithm>
#include <ctime>
#include <utility>

#include "engine/base/invariant.h"

namespace axlewright {

double thread_seconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

Times::Times(std::vector<double> times) : sorted_(std::move(times)) {
  AXLEWRIGHT_INVARIANT(!sorted_.empty());
  std::sort(sorted_.begin(), sorted_.end());
}

double Times::share(double part) const {
  return sorted_[static_cast<std::size_t>(part * static_cast<double>(sorted_.size() - 1))];
}

}  // namespace axlewright
