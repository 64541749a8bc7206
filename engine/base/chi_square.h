#pragma once

namespace axlewright {

/// The share of a chi-square distribution above `value`: how often as large a sum of squares, or a larger one, comes about by chance.
///
///   degrees  of freedom, at least 1
///   value    at least 0; infinity gives 0
/// Gives 1 at 0, falling to 0; exact to 1e-12. The regularised incomplete gamma function Q(degrees / 2, value / 2), by its power series
/// below degrees / 2 + 1 and its continued fraction above: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.5.29 and
/// 6.5.31, 26.4.19 (from memory; held to closed forms).
double chi_square_above(int degrees, double value);

/// The chance that the largest of `count` independent values is as far out as one with this chance alone: 1 - (1 - chance)^count.
double chance_of_largest(double chance, int count);

}  // namespace axlewright
