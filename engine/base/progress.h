#pragma once

#include <functional>

namespace axlewright {

/// Called now and then with the share done, 0 to 1; returns false to cancel.
using Progress = std::function<bool(double)>;

/// The progress of a part of some work that goes from one share of the whole to another. Empty if that of the whole is.
inline Progress part_of(const Progress& whole, double from, double to) {
  if (!whole) return {};
  return [=](double done) { return whole(from + (to - from) * done); };
}

}  // namespace axlewright
