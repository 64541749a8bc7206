#pragma once

#include <functional>

#include "engine/solve/dense.h"
#include "engine/solve/report.h"

namespace axlewright {

/// Values of the readings, and how they change.
///   values       f(l, s)
///   by_measured  df/dl, a row for each reading
///   by_free      df/ds
struct ReadingValues {
  Vector values;
  Matrix by_measured, by_free;
};

/// Numbers that were measured, and readings that check them: all true values satisfy readings = f(measured, free).
///   measured, measured_sigma   l, each with its standard deviation; 0 where it counts as exact
///   readings, reading_sigma    r; above 0
///   free                       s, where the search for numbers that nobody measured starts
///   evaluate                   f with its exact derivatives
/// Errors are independent. Any units, SI throughout in this project.
struct FitProblem {
  Vector measured, measured_sigma;
  Vector readings, reading_sigma;
  Vector free;
  std::function<ReadingValues(const Vector& measured, const Vector& free)> evaluate;
};

/// The fitted numbers: those that satisfy every equation with the least sum of squared errors, each over its standard deviation.
struct Fit {
  SolveReport report;  ///< nothing below is told unless report.usable()
  Vector measured, free, readings;
  double chi_square = 0;  ///< that sum
  int redundancy = 0;     ///< readings less free numbers: the degrees of freedom of that sum
  /// Error of each number over the standard deviation that such an error has: within +-2 nearly always, if all is well; 0 where nothing
  /// checks the number.
  Vector measured_normal, reading_normal;
  /// The part of each number's own error that shows: 0 (nothing checks it) to 1 (all others tell it exactly). They add up to the redundancy.
  Vector measured_checked, reading_checked;
  /// What the others say that the number should be; not a number where they say nothing.
  Vector measured_by_others, reading_by_others;
};

/// Gauss-Newton on the equations themselves: with errors v of the measured numbers and lambda a multiplier for each reading
///     S lambda = c + A ds,  A^T lambda = 0,  v = -Sigma_l B^T lambda,  S = B Sigma_l B^T + Sigma_r,  c = f - r - B (l_now - l)
/// (B = df/dl, A = df/ds), taken anew at each place until a step is below 1e-11, or 1e-9 of the largest deviation. So the work grows with the number of readings and not of
/// points, and exact numbers need no special care. E. M. Mikhail, Observations and Least Squares (1976), the general case: from memory;
/// derived here and held to a dense solution.
/// A search that does not settle in 50 steps, or where nothing tells a free number, gives a report and no numbers.
Fit fit(const FitProblem& problem);

/// Covariance of the fitted numbers, measured ones first, then free ones, at the place of a usable fit: that of the linearised problem.
Matrix covariance_of(const FitProblem& problem, const Fit& fit);

}  // namespace axlewright
