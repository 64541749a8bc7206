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

/// The cross product, written out: Eigen's own lives in a heavy header.
template <class T>
Vec3T<T> cross(const Vec3T<T>& a, const Vec3T<T>& b) {
  return {a.y() * b.z() - a.z() * b.y(), a.z() * b.x() - a.x() * b.z(), a.x() * b.y() - a.y() * b.x()};
}

/// Pose of a body against its place as measured, in frame axes: p_C = R p + t, where p is where the
/// point was at the as-measured height. So every body's pose is the identity as measured, and a
/// point needs no other coordinates than those in the truck file.
template <class T>
struct PoseT {
  Mat3T<T> R = Mat3T<T>::Identity();
  Vec3T<T> t = Vec3T<T>::Zero();

  Vec3T<T> place(const Vec3T<T>& p) const { return R * p + t; }
  Vec3T<T> turn(const Vec3T<T>& v) const { return R * v; }
};

using Pose = PoseT<double>;

}  // namespace axlewright
