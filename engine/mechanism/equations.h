#pragma once

#include <array>
#include <cmath>

#include "engine/mechanism/kinematics.h"

// The scalar equations of a system, written once over their scalar. Each comes with its *wrenches*: the force and
// moment (about the frame's origin, frame axes) that a unit multiplier puts on the bodies that it joins. Power tells that
// the derivative of the equation along a coordinate is that wrench times the coordinate's twist; so one table
// gives residual, Jacobian and reactions.

namespace axlewright {

/// A force and a moment on a body, the moment about the frame's origin, in frame axes.
template <class T>
struct WrenchT {
  Vec3T<T> force = Vec3T<T>::Zero();
  Vec3T<T> moment = Vec3T<T>::Zero();

  T power(const TwistT<T>& twist) const {
    return force.dot(twist.origin) + moment.dot(twist.angular);
  }
};
using Wrench = WrenchT<double>;

/// What an equation is at a pose: by how much it misses, and the wrench that a unit multiplier puts on each of its
/// bodies.
template <class T>
struct EquationValueT {
  T residual = T(0);
  std::array<WrenchT<T>, kSlots> wrench;
};

/// Heading about z, left positive, of a direction that points left (+y) straight ahead: atan2(-s_x, s_y).
template <class T>
T heading_of(const Vec3T<T>& s) {
  using std::atan2;
  return atan2(-s.x(), s.y());
}

/// Gradient of that heading with the direction's turn: d(heading) = w . moment for an angular velocity w.
template <class T>
Vec3T<T> heading_moment(const Vec3T<T>& s) {
  const T square = s.x() * s.x() + s.y() * s.y();
  const Vec3T<T> g(-s.y() / square, s.x() / square, T(0));
  return cross(s, g);
}

/// What an equation is made of, in frame axes: places and directions as they stand, zero where its kind has none.
///   v, w  of a heading: the directions that count; w is zero where there is one alone
template <class T>
struct EquationPartsT {
  Vec3T<T> a = Vec3T<T>::Zero(), b = Vec3T<T>::Zero();
  Vec3T<T> u = Vec3T<T>::Zero(), v = Vec3T<T>::Zero(), w = Vec3T<T>::Zero();
  T length = T(1);       ///< distance
  int headings = 0;      ///< heading: how many
  bool against = false;  ///< heading: whether u counts
};

/// What an equation measures, as a residual with a target of zero, and its wrenches. Of a turn nothing: that hangs on no place.
template <class T>
EquationValueT<T> evaluate_parts(EquationKind kind, const EquationPartsT<T>& parts) {
  const auto& [a, b, u, v, w, length, headings, against] = parts;
  EquationValueT<T> value;
  switch (kind) {
    // (|r|^2 - L^2) / (2L), r = p_a - p_b;  force on a: r/L, on b: -r/L
    case EquationKind::distance: {
      const Vec3T<T> r = a - b;
      const Vec3T<T> n = r * (T(1) / length);
      value.residual = (r.dot(n) - length) * T(0.5);
      value.wrench[0] = {n, cross(a, n)};
      value.wrench[1] = {-n, -cross(b, n)};
      break;
    }
    // n . r - c, r = p_a - p_b;  force on a: n, on b: -n, and a moment n x r on the body that n is fixed on
    case EquationKind::offset: {
      const Vec3T<T> r = a - b;
      value.residual = u.dot(r);
      value.wrench[0] = {u, cross(a, u)};
      value.wrench[1] = {-u, -cross(b, u)};
      value.wrench[2].moment = cross(u, r);
      break;
    }
    // u . v - c;  moment on u's body: u x v, on v's body: v x u
    case EquationKind::cosine: {
      value.residual = u.dot(v);
      value.wrench[0].moment = cross(u, v);
      value.wrench[1].moment = -value.wrench[0].moment;
      break;
    }
    // atan2(u . w, u . v) - c;  with q = (u . v)^2 + (u . w)^2, moment on u's body: u x ((u . v) w - (u . w) v) / q, and its
    // opposite on the body of v and w
    case EquationKind::angle: {
      using std::atan2;
      const T c = u.dot(v);
      const T s = u.dot(w);
      value.residual = atan2(s, c);
      value.wrench[0].moment = cross(u, Vec3T<T>((w * c - v * s) * (T(1) / (c * c + s * s))));
      value.wrench[1].moment = -value.wrench[0].moment;
      break;
    }
    // asin(u . v) - c;  moment on u's body: u x v / sqrt(1 - (u . v)^2), on v's body its opposite
    case EquationKind::tilt: {
      using std::asin;
      using std::sqrt;
      const T s = u.dot(v);
      value.residual = asin(s);
      value.wrench[0].moment = cross(u, v) * (T(1) / sqrt(T(1) - s * s));
      value.wrench[1].moment = -value.wrench[0].moment;
      break;
    }
    case EquationKind::turn:
      break;
    // mean of headings - heading of u;  moment on each body: heading_moment / n, on u's body -heading_moment, the frame bears the rest
    case EquationKind::heading: {
      const T share = T(1.0 / static_cast<double>(headings));
      T mean = T(0);
      for (int k = 0; k < headings; ++k) {
        const Vec3T<T>& s = k == 0 ? v : w;
        mean += heading_of<T>(s) * share;
        const Vec3T<T> moment = heading_moment<T>(s) * share;
        value.wrench[static_cast<std::size_t>(k)].moment = moment;
        value.wrench[2].moment -= moment;
      }
      if (against) {
        mean -= heading_of<T>(u);
        value.wrench[kAgainst].moment = -heading_moment<T>(u);
      }
      value.residual = mean;
      break;
    }
  }
  return value;
}

/// `place` and `direction` tell where an anchor and an axis stand.
template <class T, class PlaceOf, class DirectionOf>
EquationPartsT<T> parts_of(const Equation& e, const DesignT<T>& design, const PlaceOf& place,
                           const DirectionOf& direction) {
  EquationPartsT<T> parts;
  if (e.a.value >= 0) parts.a = place(e.a);
  if (e.b.value >= 0) parts.b = place(e.b);
  if (e.u.value >= 0) parts.u = direction(e.u);
  if (e.v.value >= 0) parts.v = direction(e.v);
  if (e.w.value >= 0) parts.w = direction(e.w);
  if (e.length.value >= 0) parts.length = design.lengths[static_cast<std::size_t>(e.length.value)];
  parts.headings = static_cast<int>(e.headings.size());
  if (parts.headings > 0) parts.v = direction(e.headings[0]);
  if (parts.headings > 1) parts.w = direction(e.headings[1]);
  parts.against = e.kind == EquationKind::heading && e.u.value >= 0;
  return parts;
}

template <class T>
EquationValueT<T> evaluate_equation(const System& system, const Equation& e,
                                    const DesignT<T>& design, const StateT<T>& state,
                                    const KinematicsT<T>& kin, const T* inputs) {
  const Mechanism& m = system.mechanism;
  const auto place = [&](AnchorId id) -> Vec3T<T> {
    return kin.pose[static_cast<std::size_t>(m.anchor(id).body.value)].place(
        design.places[static_cast<std::size_t>(id.value)]);
  };
  const auto direction = [&](AxisId id) -> Vec3T<T> {
    return kin.pose[static_cast<std::size_t>(m.axis(id).body.value)].turn(
        design.directions[static_cast<std::size_t>(id.value)]);
  };
  EquationValueT<T> value = evaluate_parts<T>(e.kind, parts_of<T>(e, design, place, direction));
  // The turn of a tree pin from as measured, and what it was there; its single entry is written by the caller.
  if (e.kind == EquationKind::turn) {
    const TreeJoint& tree = system.tree[static_cast<std::size_t>(e.tree)];
    value.residual = T(tree.sign) * state[static_cast<std::size_t>(e.tree)].x + T(e.as_measured);
  }
  if (e.kind != EquationKind::distance)
    value.residual -= e.input >= 0 ? inputs[e.input] : T(e.target);
  return value;
}

/// The derivative of an equation along the coordinate of one of its entries.
template <class T>
T derivative(const Equation& e, const EquationValueT<T>& value, const JacobianEntry& entry,
             const KinematicsT<T>& kin) {
  if (e.kind == EquationKind::turn) return T(entry.sign);
  return T(entry.sign) * value.wrench[static_cast<std::size_t>(entry.slot)].power(
                             kin.column[static_cast<std::size_t>(entry.column)]);
}

/// The length that makes an equation's residual a way [m]: 1 where it is one already, kAngleLength where it is an angle.
inline constexpr double kAngleLength = 0.4;
inline double residual_scale(const Equation& e) {
  return e.kind == EquationKind::distance || e.kind == EquationKind::offset ? 1.0 : kAngleLength;
}

}  // namespace axlewright
