#pragma once

#include <Eigen/Core>

namespace axlewright {

template <class T>
using Vec3T = Eigen::Matrix<T, 3, 1>;
template <class T>
using Mat3T = Eigen::Matrix<T, 3, 3>;

using Vec3 = Vec3T<double>;
using Mat3 = Mat3T<double>;

/// Left and right, never 0 and 1. Left is +y.
template <class T>
struct PerSide {
  T left{};
  T right{};
};

// Products of three by three, written out and inlined wherever they stand: Eigen's own are calls at -O2, and poses are made of
// little else.

/// The cross product. Eigen's lives in a heavy header besides.
template <class T>
[[gnu::always_inline]] inline Vec3T<T> cross(const Vec3T<T>& a, const Vec3T<T>& b) {
  return {a.y() * b.z() - a.z() * b.y(), a.z() * b.x() - a.x() * b.z(),
          a.x() * b.y() - a.y() * b.x()};
}

template <class T>
[[gnu::always_inline]] inline Vec3T<T> product(const Mat3T<T>& A, const Vec3T<T>& v) {
  return {A(0, 0) * v.x() + A(0, 1) * v.y() + A(0, 2) * v.z(),
          A(1, 0) * v.x() + A(1, 1) * v.y() + A(1, 2) * v.z(),
          A(2, 0) * v.x() + A(2, 1) * v.y() + A(2, 2) * v.z()};
}

template <class T>
[[gnu::always_inline]] inline Mat3T<T> product(const Mat3T<T>& A, const Mat3T<T>& B) {
  Mat3T<T> C;
  for (int c = 0; c < 3; ++c) {
    for (int r = 0; r < 3; ++r) C(r, c) = A(r, 0) * B(0, c) + A(r, 1) * B(1, c) + A(r, 2) * B(2, c);
  }
  return C;
}

/// Pose of a body against its place as measured, in frame axes: p_C = R p + t, where p is where the
/// point was at the as-measured height. So every body's pose is the identity as measured, and a
/// point needs no other coordinates than those in the truck file.
template <class T>
struct PoseT {
  Mat3T<T> R = Mat3T<T>::Identity();
  Vec3T<T> t = Vec3T<T>::Zero();

  [[gnu::always_inline]] Vec3T<T> place(const Vec3T<T>& p) const { return product<T>(R, p) + t; }
  [[gnu::always_inline]] Vec3T<T> turn(const Vec3T<T>& v) const { return product<T>(R, v); }
};

using Pose = PoseT<double>;

}  // namespace axlewright
