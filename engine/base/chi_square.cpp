#include "engine/base/chi_square.h"

#include <cmath>

#include "engine/base/invariant.h"

namespace axlewright {
namespace {

constexpr double kPrecision = 1e-15;  // terms smaller than this part of the sum add nothing
constexpr double kTiny = 1e-300;      // in place of a zero denominator
// Both converge within a few times sqrt(a) terms; a is half the degrees.
constexpr int kMostTerms = 100000;

/// x^a e^-x / Gamma(a)
double front(double a, double x) {
  return std::exp(a * std::log(x) - x - std::lgamma(a));
}

/// P(a, x) = front / a * (1 + x/(a+1) + x^2/((a+1)(a+2)) + ...)
double below_by_series(double a, double x) {
  double term = 1 / a, sum = term;
  for (int n = 1; n < kMostTerms && term > kPrecision * sum; ++n) {
    term *= x / (a + n);
    sum += term;
  }
  return front(a, x) * sum;
}

/// Q(a, x) = front / (x + 1 - a - 1 (1 - a) / (x + 3 - a - 2 (2 - a) / (x + 5 - a - ...))), from the front (Lentz).
double above_by_fraction(double a, double x) {
  double b = x + 1 - a;
  double c = 1 / kTiny, d = 1 / b, fraction = d;
  for (int n = 1; n < kMostTerms; ++n) {
    const double numerator = -n * (n - a);
    b += 2;
    d = numerator * d + b;
    if (std::abs(d) < kTiny) d = kTiny;
    c = b + numerator / c;
    if (std::abs(c) < kTiny) c = kTiny;
    d = 1 / d;
    const double factor = c * d;
    fraction *= factor;
    if (std::abs(factor - 1) < kPrecision) break;
  }
  return front(a, x) * fraction;
}

}  // namespace

double chi_square_above(int degrees, double value) {
  AXLEWRIGHT_INVARIANT(degrees >= 1 && value >= 0);
  if (value == 0) return 1;
  if (std::isinf(value)) return 0;
  const double a = 0.5 * degrees, x = 0.5 * value;
  return x < a + 1 ? 1 - below_by_series(a, x) : above_by_fraction(a, x);
}

double chance_of_largest(double chance, int count) {
  return -std::expm1(count * std::log1p(-chance));
}

}  // namespace axlewright
