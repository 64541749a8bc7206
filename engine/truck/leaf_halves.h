#pragma once

#include <vector>

#include "engine/base/vec.h"
#include "engine/truck/truck.h"

namespace axlewright {

/// Where half a leaf spring bends, if it is taken as stiff pieces with a hinge before each.
///   along      share of the bending length, from the clamp to the eye
///   stiffness  against bending up and down, sideways, and against twisting about its own line [N m/rad]
struct LeafHinge {
  double along = 0;
  double up = 0, sideways = 0, twist = 0;
};

/// The hinges of both halves; the eye's half first.
struct LeafHalves {
  std::vector<LeafHinge> eye, shackle;
  double eye_length = 0, shackle_length = 0;  ///< from clamp to eye [m]
};

/// Bending stiffness E I at the clamp that gives the rate asked for [N m^2], with both eyes on supports that give nothing
/// lengthwise and the seat free to pitch. `a`, `b`: seat to eye each way [m].
double stiffness_at_clamp(const LeafSpring& leaf, double a, double b);

/// `pieces` 0: one hinge, so that a stiff link from it to the eye carries the eye as the bending spring does (the three-link
/// equivalent): 3/4 of the length for a spring that bends to a circle, 5/6 for an even one: lifted by w the eye is drawn in by half the
/// integral of the slope's square, 2 w^2 / (3 l) and 3 w^2 / (5 l), and that of a link by w^2 / (2 R) (closed form; the 3/4 also in
/// SAE HS-788, from memory). The eye itself turns more than such a link. Else as many pieces of equal length, bent in
/// the middle of each.
/// Sideways a leaf is stiffer by the square of width over thickness. Twisting: G J = 4 (G/E) E I of a thin rectangle, and for a
/// tapered pack of four leaves of which the main one reaches the eye 1 / (1 + ln 4) of that.
LeafHalves leaf_halves(const LeafSpring& leaf, double a, double b);

}  // namespace axlewright
