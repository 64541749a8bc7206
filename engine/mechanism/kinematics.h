#pragma once

#include <cmath>
#include <vector>

#include "engine/base/dual.h"
#include "engine/base/invariant.h"
#include "engine/mechanism/design.h"

// Where every body is, and how it moves with each tree coordinate.

namespace axlewright {

/// What a tree joint remembers. `x` of a pin [rad] or a slide [m]; `turn` and `shift` of a ball or free body, in the
/// parent's axes. As measured: 0, identity, 0.
template <class T>
struct JointStateT {
  T x = T(0);
  Mat3T<T> turn = Mat3T<T>::Identity();
  Vec3T<T> shift = Vec3T<T>::Zero();
};

/// One entry per tree joint, in the system's order.
template <class T>
using StateT = std::vector<JointStateT<T>>;
using State = StateT<double>;

/// A velocity of a body: angular, and that of the point of the body at the frame's origin.
template <class T>
struct TwistT {
  Vec3T<T> angular = Vec3T<T>::Zero();
  Vec3T<T> origin = Vec3T<T>::Zero();

  Vec3T<T> at(const Vec3T<T>& place) const { return origin + cross(angular, place); }
};
using Twist = TwistT<double>;

/// Poses of all bodies (frame first) and the unit twist of each coordinate; `rotary` tells coordinates in rad.
template <class T>
struct KinematicsT {
  std::vector<PoseT<T>> pose;
  std::vector<TwistT<T>> column;
};
using Kinematics = KinematicsT<double>;

inline State as_measured(const System& system) {
  return State(system.tree.size());
}

/// Whether a coordinate is an angle [rad] rather than a way [m].
bool is_rotary(const System& system, int coordinate);

/// Rotation about a unit axis by an angle (Rodrigues).
template <class T>
Mat3T<T> rotation_about(const Vec3T<T>& axis, const T& angle) {
  using std::cos;
  using std::sin;
  const T s = sin(angle);
  const T c = cos(angle);
  const T k = T(1) - c;
  const T x = axis.x(), y = axis.y(), z = axis.z();
  Mat3T<T> R;
  R << c + k * x * x, k * x * y - s * z, k * x * z + s * y,  //
      k * x * y + s * z, c + k * y * y, k * y * z - s * x,   //
      k * x * z - s * y, k * y * z + s * x, c + k * z * z;
  return R;
}

/// Cayley map: the rotation (I - [h])^-1 (I + [h]) with h = turn / 2, equal to the rotation by `turn` to third order.
/// No trigonometry, and a proper rotation for every `turn`.
template <class T>
Mat3T<T> small_rotation(const Vec3T<T>& turn) {
  const Vec3T<T> h = turn * T(0.5);
  const T square = h.dot(h);
  const T g = T(2) / (T(1) + square);
  const T x = h.x(), y = h.y(), z = h.z();
  const T one = T(1) - g * square;
  Mat3T<T> R;
  R << one + g * x * x, g * (x * y - z), g * (x * z + y),  //
      g * (x * y + z), one + g * y * y, g * (y * z - x),   //
      g * (x * z - y), g * (y * z + x), one + g * z * z;
  return R;
}

/// Poses and, unless only those are asked for, twists.
template <class T>
void update_kinematics(const System& system, const DesignT<T>& design, const StateT<T>& state,
                       KinematicsT<T>& kin, bool with_twists = true) {
  kin.pose.resize(system.mechanism.bodies.size());
  kin.column.resize(static_cast<std::size_t>(system.coordinates));
  kin.pose[0] = PoseT<T>{};
  for (std::size_t k = 0; k < system.tree.size(); ++k) {
    const TreeJoint& tree = system.tree[k];
    const JointStateT<T>& joint = state[k];
    const PoseT<T>& parent = kin.pose[static_cast<std::size_t>(tree.parent.value)];
    PoseT<T>& pose = kin.pose[static_cast<std::size_t>(tree.body.value)];
    TwistT<T>* column = kin.column.data() + tree.first;
    switch (tree.kind) {
      case TreeKind::weld:
        pose = parent;
        break;
      case TreeKind::pin: {
        const Vec3T<T>& axis = design.directions[static_cast<std::size_t>(tree.axis.value)];
        const Mat3T<T> turn = rotation_about<T>(axis, joint.x);
        const Vec3T<T> pivot =
            parent.place(design.places[static_cast<std::size_t>(tree.pivot_parent.value)]);
        pose.R = product<T>(parent.R, turn);
        pose.t = pivot - pose.turn(design.places[static_cast<std::size_t>(tree.pivot_child.value)]);
        if (!with_twists) break;
        column[0].angular = parent.turn(axis);
        column[0].origin = cross(pivot, column[0].angular);
        break;
      }
      case TreeKind::slide: {
        const Vec3T<T> axis =
            parent.turn(design.directions[static_cast<std::size_t>(tree.axis.value)]);
        pose.R = parent.R;
        pose.t = parent.t + axis * joint.x;
        column[0].angular = Vec3T<T>::Zero();
        column[0].origin = axis;
        break;
      }
      case TreeKind::ball: {
        const Vec3T<T> pivot =
            parent.place(design.places[static_cast<std::size_t>(tree.pivot_parent.value)]);
        pose.R = product<T>(parent.R, joint.turn);
        pose.t = pivot - pose.turn(design.places[static_cast<std::size_t>(tree.pivot_child.value)]);
        if (!with_twists) break;
        for (int c = 0; c < 3; ++c) {
          const Vec3T<T> way = parent.R.col(c);
          column[c].angular = way;
          column[c].origin = cross(pivot, way);
        }
        break;
      }
      case TreeKind::free: {
        const Vec3T<T> centre = tree.centre.template cast<T>();
        const Vec3T<T> pivot = centre + joint.shift;
        pose.R = joint.turn;
        pose.t = pivot - pose.turn(centre);
        if (!with_twists) break;
        for (int c = 0; c < 3; ++c) {
          column[c].angular = Vec3T<T>::Unit(c);
          column[c].origin = cross(pivot, column[c].angular);
          column[3 + c].angular = Vec3T<T>::Zero();
          column[3 + c].origin = Vec3T<T>::Unit(c);
        }
        break;
      }
    }
  }
}

/// Moves the state by a small step in the tree coordinates (rad, m).
template <class T>
void move(const System& system, const T* step, StateT<T>& state) {
  for (std::size_t k = 0; k < system.tree.size(); ++k) {
    const TreeJoint& tree = system.tree[k];
    const T* d = step + tree.first;
    switch (tree.kind) {
      case TreeKind::weld:
        break;
      case TreeKind::pin:
      case TreeKind::slide:
        state[k].x += d[0];
        break;
      case TreeKind::free:
        state[k].shift += Vec3T<T>(d[3], d[4], d[5]);
        [[fallthrough]];
      case TreeKind::ball:
        state[k].turn = product<T>(small_rotation<T>(Vec3T<T>(d[0], d[1], d[2])), state[k].turn);
        break;
    }
  }
}

// Every solver step runs these two: instantiated once, in kinematics.cpp, where they are optimised hardest.
extern template void update_kinematics<double>(const System&, const Design&, const State&,
                                               Kinematics&, bool);
extern template void move<double>(const System&, const double*, State&);

/// Velocity of every body for a velocity of the coordinates.
template <class T>
std::vector<TwistT<T>> body_twists(const System& system, const KinematicsT<T>& kin,
                                   const T* rates) {
  std::vector<TwistT<T>> twists(kin.pose.size());
  for (const TreeJoint& tree : system.tree) {
    TwistT<T> twist = twists[static_cast<std::size_t>(tree.parent.value)];
    for (int c = tree.first; c < tree.first + tree.count; ++c) {
      twist.angular += kin.column[static_cast<std::size_t>(c)].angular * rates[c];
      twist.origin += kin.column[static_cast<std::size_t>(c)].origin * rates[c];
    }
    twists[static_cast<std::size_t>(tree.body.value)] = twist;
  }
  return twists;
}

}  // namespace axlewright
