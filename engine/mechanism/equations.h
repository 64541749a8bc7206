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
  const T target = e.input >= 0 ? inputs[e.input] : T(e.target);
  EquationValueT<T> value;
  switch (e.kind) {
    // (|r|^2 - L^2) / (2L), r = p_a - p_b;  force on a: r/L, on b: -r/L
    case EquationKind::distance: {
      const Vec3T<T> p_a = place(e.a);
      const Vec3T<T> p_b = place(e.b);
      const T length = design.lengths[static_cast<std::size_t>(e.length.value)];
      const Vec3T<T> r = p_a - p_b;
      const Vec3T<T> n = r * (T(1) / length);
      value.residual = (r.dot(n) - length) * T(0.5);
      value.wrench[0] = {n, cross(p_a, n)};
      value.wrench[1] = {-n, -cross(p_b, n)};
      break;
    }
    // n . r - c, r = p_a - p_b;  force on a: n, on b: -n, and a moment n x r on the body that n is fixed on
    case EquationKind::offset: {
      const Vec3T<T> n = direction(e.u);
      const Vec3T<T> p_a = place(e.a);
      const Vec3T<T> p_b = e.b.value >= 0 ? place(e.b) : Vec3T<T>(Vec3T<T>::Zero());
      const Vec3T<T> r = p_a - p_b;
      value.residual = n.dot(r) - target;
      value.wrench[0] = {n, cross(p_a, n)};
      value.wrench[1] = {-n, -cross(p_b, n)};
      value.wrench[2].moment = cross(n, r);
      break;
    }
    // u . v - c;  moment on u's body: u x v, on v's body: v x u
    case EquationKind::cosine: {
      const Vec3T<T> u = direction(e.u);
      const Vec3T<T> v = direction(e.v);
      value.residual = u.dot(v) - target;
      value.wrench[0].moment = cross(u, v);
      value.wrench[1].moment = -value.wrench[0].moment;
      break;
    }
    // atan2(u . w, u . v) - c;  with q = (u . v)^2 + (u . w)^2, moment on u's body: u x ((u . v) w - (u . w) v) / q, and its
    // opposite on the body of v and w
    case EquationKind::angle: {
      using std::atan2;
      const Vec3T<T> u = direction(e.u);
      const Vec3T<T> v = direction(e.v);
      const Vec3T<T> w = direction(e.w);
      const T c = u.dot(v);
      const T s = u.dot(w);
      value.residual = atan2(s, c) - target;
      value.wrench[0].moment = cross(u, Vec3T<T>((w * c - v * s) * (T(1) / (c * c + s * s))));
      value.wrench[1].moment = -value.wrench[0].moment;
      break;
    }
    // asin(u . v) - c;  moment on u's body: u x v / sqrt(1 - (u . v)^2), on v's body its opposite
    case EquationKind::tilt: {
      using std::asin;
      using std::sqrt;
      const Vec3T<T> u = direction(e.u);
      const Vec3T<T> v = direction(e.v);
      const T s = u.dot(v);
      value.residual = asin(s) - target;
      value.wrench[0].moment = cross(u, v) * (T(1) / sqrt(T(1) - s * s));
      value.wrench[1].moment = -value.wrench[0].moment;
      break;
    }
    // turn of a tree pin; its single entry is written by the caller
    case EquationKind::turn: {
      const TreeJoint& tree = system.tree[static_cast<std::size_t>(e.tree)];
      value.residual = T(tree.sign) * state[static_cast<std::size_t>(e.tree)].x - target;
      break;
    }
    // mean of headings - heading of u;  moment on each body: heading_moment / n, on u's body -heading_moment, the frame bears the rest
    case EquationKind::heading: {
      const T share = T(1.0 / static_cast<double>(e.headings.size()));
      T mean = T(0);
      for (std::size_t k = 0; k < e.headings.size(); ++k) {
        const Vec3T<T> s = direction(e.headings[k]);
        mean += heading_of<T>(s) * share;
        value.wrench[k].moment = heading_moment<T>(s) * share;
        value.wrench[2].moment -= value.wrench[k].moment;
      }
      if (e.u.value >= 0) {
        const Vec3T<T> s = direction(e.u);
        mean -= heading_of<T>(s);
        value.wrench[kAgainst].moment = -heading_moment<T>(s);
      }
      value.residual = mean - target;
      break;
    }
  }
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
