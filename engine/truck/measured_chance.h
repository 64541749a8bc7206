#pragma once

#include <algorithm>

#include "engine/solve/fit.h"

namespace axlewright {

/// How likely it is that honest measurements miss each other as much as these, or more.
///   of_sum      by the sum of squares, over all that is checked (chi-square)
///   of_largest  by the largest single misfit over its standard deviation (normal), for as many as are checked
struct Chances {
  double of_sum = 1, of_largest = 1;

  double least() const { return std::min(of_sum, of_largest); }
};

/// Of a usable fit. Both are 1 where nothing is checked.
Chances chances_of(const Fit& fit);

}  // namespace axlewright
