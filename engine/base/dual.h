#pragma once

#include <cmath>

#include <Eigen/Core>

namespace axlewright {

/// A number with its derivative in one direction: forward-mode differentiation for design derivatives. Over doubles it has
/// first derivatives; over such numbers again, second ones in two directions.
/// Arithmetic follows the product and chain rules exactly; comparisons look at the value alone.
template <class S>
struct DualT {
  S value{};
  S slope{};

  DualT() = default;
  DualT(double v) : value(v) {}  // NOLINT(google-explicit-constructor): constants mix freely
  DualT(S v, S s) : value(v), slope(s) {}

  DualT& operator+=(const DualT& b) { return *this = {value + b.value, slope + b.slope}; }
  DualT& operator-=(const DualT& b) { return *this = {value - b.value, slope - b.slope}; }
  DualT& operator*=(const DualT& b) {
    return *this = {value * b.value, slope * b.value + value * b.slope};
  }
  DualT& operator/=(const DualT& b) {
    const S quotient = value / b.value;
    return *this = {quotient, (slope - quotient * b.slope) / b.value};
  }
  friend DualT operator+(DualT a, const DualT& b) { return a += b; }
  friend DualT operator-(DualT a, const DualT& b) { return a -= b; }
  friend DualT operator*(DualT a, const DualT& b) { return a *= b; }
  friend DualT operator/(DualT a, const DualT& b) { return a /= b; }
  friend DualT operator-(const DualT& a) { return {-a.value, -a.slope}; }
  friend bool operator<(const DualT& a, const DualT& b) { return a.value < b.value; }
  friend bool operator>(const DualT& a, const DualT& b) { return a.value > b.value; }
  friend bool operator<=(const DualT& a, const DualT& b) { return a.value <= b.value; }
  friend bool operator>=(const DualT& a, const DualT& b) { return a.value >= b.value; }
  friend bool operator==(const DualT& a, const DualT& b) { return a.value == b.value; }
  friend bool operator!=(const DualT& a, const DualT& b) { return a.value != b.value; }
};

/// First derivatives in one direction.
using Dual = DualT<double>;
/// Second derivatives: `slope.slope` is that along the inner and the outer direction.
using SecondDual = DualT<Dual>;

template <class S>
DualT<S> sqrt(const DualT<S>& a) {
  using std::sqrt;
  const S root = sqrt(a.value);
  return {root, a.slope / (S(2) * root)};
}
template <class S>
DualT<S> sin(const DualT<S>& a) {
  using std::cos;
  using std::sin;
  return {sin(a.value), cos(a.value) * a.slope};
}
template <class S>
DualT<S> cos(const DualT<S>& a) {
  using std::cos;
  using std::sin;
  return {cos(a.value), -sin(a.value) * a.slope};
}
template <class S>
DualT<S> tan(const DualT<S>& a) {
  using std::tan;
  const S t = tan(a.value);
  return {t, (S(1) + t * t) * a.slope};
}
template <class S>
DualT<S> asin(const DualT<S>& a) {
  using std::asin;
  using std::sqrt;
  return {asin(a.value), a.slope / sqrt(S(1) - a.value * a.value)};
}
template <class S>
DualT<S> acos(const DualT<S>& a) {
  using std::acos;
  using std::sqrt;
  return {acos(a.value), -a.slope / sqrt(S(1) - a.value * a.value)};
}
template <class S>
DualT<S> atan2(const DualT<S>& y, const DualT<S>& x) {
  using std::atan2;
  const S square = x.value * x.value + y.value * y.value;
  return {atan2(y.value, x.value), (x.value * y.slope - y.value * x.slope) / square};
}
template <class S>
DualT<S> abs(const DualT<S>& a) {
  return a.value < S(0) ? -a : a;
}

/// The value without its derivative, for any scalar that the engine is written over.
inline double value_of(double a) {
  return a;
}
template <class S>
double value_of(const DualT<S>& a) {
  return value_of(a.value);
}

}  // namespace axlewright

namespace Eigen {
/// Dual numbers as a scalar of matrices.
template <class S>
struct NumTraits<axlewright::DualT<S>> : NumTraits<double> {
  using Real = axlewright::DualT<S>;
  using NonInteger = axlewright::DualT<S>;
  using Nested = axlewright::DualT<S>;
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
