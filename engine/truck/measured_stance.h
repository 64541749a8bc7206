#pragma once

#include <cmath>
#include <vector>

#include "engine/base/vec.h"
#include "engine/truck/measured.h"

namespace axlewright {

/// How the truck stood: where its frame is in the measuring axes, over a scalar.
///
/// R turns frame axes into measuring axes: rolled by the lean (left side up), pitched by the rake (nose up), turned by the yaw (to the
/// left), so that its last row is the road's normal of definition 2. `pivot` is the place on the frame that would stay where it is if
/// the truck were set level:  p_M = R (p_C - pivot) + pivot + shift.
/// floor: the height of the measuring axes' origin over the floor.
template <class T>
struct StanceT {
  T lean = T(0), rake = T(0), yaw = T(0);
  Vec3T<T> shift = Vec3T<T>::Zero();
  Vec3 pivot = Vec3::Zero();
  T floor = T(0);

  /// A direction in frame axes, along the road's forward, left and normal directions.
  Vec3T<T> on_road(const Vec3T<T>& v) const {
    using std::cos;
    using std::sin;
    const T sa = sin(lean), ca = cos(lean), sr = sin(rake), cr = cos(rake);
    const T up = v.y() * sa + v.z() * ca;
    return {v.x() * cr - up * sr, v.y() * ca - v.z() * sa, v.x() * sr + up * cr};
  }

  /// The same, the other way round.
  Vec3T<T> from_road(const Vec3T<T>& v) const {
    using std::cos;
    using std::sin;
    const T sa = sin(lean), ca = cos(lean), sr = sin(rake), cr = cos(rake);
    const T up = v.z() * cr - v.x() * sr;
    return {v.x() * cr + v.z() * sr, v.y() * ca + up * sa, up * ca - v.y() * sa};
  }

  Vec3T<T> frame_place(const Vec3T<T>& p_M) const {
    using std::cos;
    using std::sin;
    const Vec3T<T> from = p_M - pivot.cast<T>() - shift;
    const T sy = sin(yaw), cy = cos(yaw);
    const Vec3T<T> unturned(from.x() * cy + from.y() * sy, from.y() * cy - from.x() * sy, from.z());
    return from_road(unturned) + pivot.cast<T>();
  }

  Vec3T<T> measured_place(const Vec3T<T>& p_C) const {
    using std::cos;
    using std::sin;
    const Vec3T<T> v = on_road(p_C - pivot.cast<T>());
    const T sy = sin(yaw), cy = cos(yaw);
    return Vec3T<T>(v.x() * cy - v.y() * sy, v.x() * sy + v.y() * cy, v.z()) + pivot.cast<T>() +
           shift;
  }

  /// Of a place over the floor.
  T height_of(const Vec3T<T>& p_C) const {
    return on_road(p_C - pivot.cast<T>()).z() + T(pivot.z()) + shift.z() + floor;
  }
};

using MeasuredStance = StanceT<double>;

/// What gauge holes tell of how the frame leans and pitches.
struct ToldByHoles {
  bool lean = false, rake = false;
};

ToldByHoles told_by(const std::vector<GaugeHole>& holes);

/// A stance to begin from, with the given lean and rake: yaw and shift are those that bring gauge holes near their known places.
/// `measured` has as many holes as it names, at least two, apart.
MeasuredStance start_stance(const Measured& measured, const std::vector<Vec3>& holes_measured,
                            double lean, double rake);

}  // namespace axlewright
