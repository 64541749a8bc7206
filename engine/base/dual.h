#pragma once

#include <cmath>

#include <Eigen/Core>

namespace axlewright {

/// A number with its derivative in one direction: forward-mode differentiation for design derivatives.
/// Arithmetic follows the product and chain rules exactly; comparisons look at the value alone.
struct Dual {
  double value = 0;
  double slope = 0;

  Dual() = default;
  Dual(double v) : value(v) {}  // NOLINT(google-explicit-constructor): constants mix freely
  Dual(double v, double s) : value(v), slope(s) {}

  Dual& operator+=(const Dual& b) { return *this = {value + b.value, slope + b.slope}; }
  Dual& operator-=(const Dual& b) { return *this = {value - b.value, slope - b.slope}; }
  Dual& operator*=(const Dual& b) {
    return *this = {value * b.value, slope * b.value + value * b.slope};
  }
  Dual& operator/=(const Dual& b) {
    const double quotient = value / b.value;
    return *this = {quotient, (slope - quotient * b.slope) / b.value};
  }
  friend Dual operator+(Dual a, const Dual& b) { return a += b; }
  friend Dual operator-(Dual a, const Dual& b) { return a -= b; }
  friend Dual operator*(Dual a, const Dual& b) { return a *= b; }
  friend Dual operator/(Dual a, const Dual& b) { return a /= b; }
  friend Dual operator-(const Dual& a) { return {-a.value, -a.slope}; }
  friend bool operator<(const Dual& a, const Dual& b) { return a.value < b.value; }
  friend bool operator>(const Dual& a, const Dual& b) { return a.value > b.value; }
  friend bool operator<=(const Dual& a, const Dual& b) { return a.value <= b.value; }
  friend bool operator>=(const Dual& a, const Dual& b) { return a.value >= b.value; }
  friend bool operator==(const Dual& a, const Dual& b) { return a.value == b.value; }
  friend bool operator!=(const Dual& a, const Dual& b) { return a.value != b.value; }
};

inline Dual sqrt(const Dual& a) {
  const double root = std::sqrt(a.value);
  return {root, a.slope / (2 * root)};
}
inline Dual sin(const Dual& a) {
  return {std::sin(a.value), std::cos(a.value) * a.slope};
}
inline Dual cos(const Dual& a) {
  return {std::cos(a.value), -std::sin(a.value) * a.slope};
}
inline Dual tan(const Dual& a) {
  const double t = std::tan(a.value);
  return {t, (1 + t * t) * a.slope};
}
inline Dual asin(const Dual& a) {
  return {std::asin(a.value), a.slope / std::sqrt(1 - a.value * a.value)};
}
inline Dual acos(const Dual& a) {
  return {std::acos(a.value), -a.slope / std::sqrt(1 - a.value * a.value)};
}
inline Dual atan2(const Dual& y, const Dual& x) {
  const double square = x.value * x.value + y.value * y.value;
  return {std::atan2(y.value, x.value), (x.value * y.slope - y.value * x.slope) / square};
}
inline Dual abs(const Dual& a) {
  return a.value < 0 ? -a : a;
}

/// The value without its derivative, for any scalar that the engine is written over.
inline double value_of(double a) {
  return a;
}
inline double value_of(const Dual& a) {
  return a.value;
}

}  // namespace axlewright

namespace Eigen {
template <>
struct NumTraits<axlewright::Dual> : NumTraits<double> {
  using Real = axlewright::Dual;
  using NonInteger = axlewright::Dual;
  using Nested = axlewright::Dual;
  enum {
    IsComplex = 0,
    IsInteger = 0,
    IsSigned = 1,
    RequireInitialization = 1,
    ReadCost = 2,
    AddCost = 2,
    MulCost = 6
  };
};
}  // namespace Eigen
