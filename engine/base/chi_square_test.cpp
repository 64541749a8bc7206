#include "engine/base/chi_square.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

constexpr double kExact = 1e-12;

// One degree of freedom is the square of a normal value: both tails of the error function.
TEST(ChiSquare, OfOneDegreeIsTheErrorFunction) {
  for (const double value : {1e-6, 0.1, 1.0, 2.9, 3.1, 10.0, 60.0, 500.0})
    EXPECT_NEAR(chi_square_above(1, value), std::erfc(std::sqrt(value / 2)), kExact) << value;
}

// With an even number of degrees it is a finite sum: e^(-x/2) (1 + x/2 + ... + (x/2)^(k-1) / (k-1)!), k half the degrees.
TEST(ChiSquare, OfEvenDegreesIsAFiniteSum) {
  for (const int half : {1, 2, 5, 20, 75}) {
    for (const double value : {0.5, 8.0, 40.0, 149.0, 151.0, 260.0}) {
      double term = std::exp(-value / 2), sum = 0;
      for (int k = 0; k < half; ++k) {
        sum += term;
        term *= value / 2 / (k + 1);
      }
      EXPECT_NEAR(chi_square_above(2 * half, value), sum, kExact) << half << " " << value;
    }
  }
}

// Upper critical values as tables print them, three decimals (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: from memory;
// the closed forms above gate).
TEST(ChiSquare, CriticalValuesOfTheTables) {
  struct Row {
    int degrees;
    double five, one, tenth;  ///< at 5, 1 and 0.1 per cent
  };
  constexpr Row kRows[] = {{1, 3.841, 6.635, 10.828},
                           {5, 11.070, 15.086, 20.515},
                           {10, 18.307, 23.209, 29.588},
                           {100, 124.342, 135.807, 149.449}};
  // Half a unit of the last printed digit, times a density below 1 per unit of the value.
  constexpr double kPrinted = 0.0005;
  for (const Row& row : kRows) {
    EXPECT_NEAR(chi_square_above(row.degrees, row.five), 0.05, 0.1 * kPrinted);
    EXPECT_NEAR(chi_square_above(row.degrees, row.one), 0.01, 0.02 * kPrinted);
    EXPECT_NEAR(chi_square_above(row.degrees, row.tenth), 0.001, 0.002 * kPrinted);
  }
}

TEST(ChiSquare, GoesFromOneToNought) {
  EXPECT_EQ(chi_square_above(7, 0), 1);
  EXPECT_EQ(chi_square_above(7, std::numeric_limits<double>::infinity()), 0);
  double last = 1;
  for (double value = 0.5; value < 60; value += 0.5) {
    const double now = chi_square_above(7, value);
    EXPECT_LT(now, last);
    EXPECT_GE(now, 0);
    last = now;
  }
}

// Of a hundred throws with one chance in a thousand each: 1 - 0.999^100.
TEST(ChiSquare, TheLargestOfMany) {
  EXPECT_NEAR(chance_of_largest(0.001, 100), 1 - std::pow(0.999, 100), kExact);
  EXPECT_NEAR(chance_of_largest(1e-14, 100), 1e-12, 1e-18);
  EXPECT_NEAR(chance_of_largest(0.3, 1), 0.3, kExact);
}

}  // namespace
}  // namespace axlewright
