#include "engine/truck/leaf_halves.h"

#include <cmath>
#include <numbers>

namespace axlewright {
namespace {

constexpr double kPoisson = 0.29;
constexpr double kTwistOverBending =
    2 / (1 + kPoisson);  // G J / (E I) = 4 G / E of a thin rectangle
constexpr double kTaperedTwist = 1 / (1 + 2 * std::numbers::ln2);

bool is_tapered(const LeafSpring& leaf) {
  return leaf.shape == LeafShape::tapered;
}

/// Force at the end over its way, times length^3 over E I at the clamp.
double end_stiffness(const LeafSpring& leaf) {
  return is_tapered(leaf) ? 2 : 3;
}

/// Of the whole half, from clamp to eye.
double twist_stiffness(const LeafSpring& leaf, double bending, double length) {
  return kTwistOverBending * bending / length * (is_tapered(leaf) ? kTaperedTwist : 1);
}

LeafHinge single_hinge(const LeafSpring& leaf, double bending, double length) {
  const double link = is_tapered(leaf) ? 0.75 : 5.0 / 6.0;
  const double at_end = end_stiffness(leaf) * bending / std::pow(length, 3);
  LeafHinge hinge;
  hinge.along = 1 - link;
  hinge.up = at_end * std::pow(link * length, 2);
  hinge.sideways = hinge.up * std::pow(leaf.width_to_thickness, 2);
  hinge.twist = twist_stiffness(leaf, bending, length);
  return hinge;
}

std::vector<LeafHinge> hinges(const LeafSpring& leaf, double bending, double length) {
  if (leaf.pieces == 0) return {single_hinge(leaf, bending, length)};
  std::vector<LeafHinge> list;
  for (int k = 0; k < leaf.pieces; ++k) {
    LeafHinge hinge;
    hinge.along = (k + 0.5) / leaf.pieces;
    const double here = bending * (is_tapered(leaf) ? 1 - hinge.along : 1);
    hinge.up = here * leaf.pieces / length;
    hinge.sideways = hinge.up * std::pow(leaf.width_to_thickness, 2);
    hinge.twist = twist_stiffness(leaf, bending, length) * leaf.pieces;
    list.push_back(hinge);
  }
  return list;
}

}  // namespace

double stiffness_at_clamp(const LeafSpring& leaf, double a, double b) {
  const double to_eye = a - 0.5 * leaf.clamp, to_shackle = b - 0.5 * leaf.clamp;
  // The load parts by the lever rule, and the seat sinks by the same shares of what the eyes' halves bend.
  const double at_eye = b / (a + b), at_shackle = a / (a + b);
  return leaf.rate / end_stiffness(leaf) *
         (at_eye * at_eye * std::pow(to_eye, 3) +
          at_shackle * at_shackle * std::pow(to_shackle, 3));
}

LeafHalves leaf_halves(const LeafSpring& leaf, double a, double b) {
  const double bending = stiffness_at_clamp(leaf, a, b);
  LeafHalves halves;
  halves.eye_length = a - 0.5 * leaf.clamp;
  halves.shackle_length = b - 0.5 * leaf.clamp;
  halves.eye = hinges(leaf, bending, halves.eye_length);
  halves.shackle = hinges(leaf, bending, halves.shackle_length);
  return halves;
}

}  // namespace axlewright
