#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/vec.h"
#include "engine/mechanism/mechanism.h"
#include "engine/truck/truck.h"

// Truck -> mechanism: each part in trade words becomes bodies and joints, and what the quantities need to find again is
// noted beside them.

namespace axlewright {

/// A bar or link whose length and angles are told. `a` and `b` in the order of the part's ends.
struct BarPlace {
  std::string name, words;
  BarKind kind = BarKind::link;
  AnchorId a{}, b{};
  LengthId length{};        ///< none if the bar is a body
  BodyId body{};            ///< none if the bar is a distance
  bool rear = false;        ///< it locates the rear axle
  double sleeve = 0;        ///< [m] per turn; 0 if it has no adjuster
  double given_misfit = 0;  ///< given length less that between the points [m]
};

/// A ball whose tilt is told: between a stud on one body and a housing in a bar or body.
///   stud_axis  on the stud's body, as measured
///   housing    the same direction on the housing's body; none if the housing is a bar that is a distance: then the bar's
///              line counts, from which the stud stays square when untilted
///   name       the point; where several joints have their ball at one point, "point.part"
struct BallPlace {
  std::string name, words;
  std::string point, of;  ///< of: the part or joint that it belongs to
  AnchorId centre{};      ///< on the stud's body
  AxisId stud_axis{};
  AxisId housing_axis{};
  AnchorId bar_from{}, bar_to{};  ///< the bar's line, if the housing is a distance
  double largest_tilt = 0;        ///< [rad]; 0 if not given
};

/// Where a guided bar is found again.
struct GuidedPlace {
  std::string name, words;
  AnchorId near_end{}, guide_end{}, middle{};  ///< on the through-link
  AnchorId pivot{};                            ///< on the carrier
  AnchorId slide_origin{};  ///< the guide end's as-measured place, on the carrier
  AxisId guide{};           ///< on the carrier
  BodyId through{};
  BodyId half{};  ///< none if the half-link is a distance
};

/// Where a lateral four-bar is found again.
struct FourBarPlace {
  std::string name, words;
  BodyId crank{}, carrier{};
};

/// A body on a pin whose turn is told against the body that carries it: crank, rocker, relay.
struct TurnPlace {
  std::string name, words;
  BodyId body{}, carrier{};
  Vec3 line = Vec3::UnitX();  ///< the pin, as measured
};

/// A body that has a line of its own about which its turn is told: tie rod, through-link.
struct LinePlace {
  std::string name, words;
  BodyId body{};
  Vec3 line = Vec3::UnitY();
};

/// A body of a part that is told of as a whole: a radius arm, half a leaf spring.
struct PartBody {
  std::string words;  ///< of the part
  BodyId body{};
};

/// The rear axle, where the file names rear wheels.
struct RearAxlePlace {
  BodyId body{};
  PerSide<AnchorId> wheel;  ///< V of definition 1, fixed on it
  PerSide<InputId> height;  ///< z of V [m]
  AxisId spin{};            ///< the axis of both wheels, pointing left, on the rear axle
};

/// A truck as a mechanism, and where the quantities find its parts in it.
struct Expansion {
  Mechanism mechanism;
  std::vector<std::string> body_names;  ///< as in the file, by BodyId
  BodyId axle{}, pitman{};
  PerSide<BodyId> knuckle;
  PerSide<AnchorId> wheel_on_axle;  ///< W: fixed on the axle (definition 1)
  PerSide<AnchorId> wheel_on_knuckle;
  PerSide<AxisId> stub;  ///< the wheel's spin axis, pointing left on both sides, on the knuckle
  PerSide<AnchorId> kingpin_lower, kingpin_upper;  ///< on the axle
  PerSide<AxisId> kingpin;                         ///< lower to upper, on the axle
  PerSide<InputId> height;                         ///< z of W [m]
  InputId pitman_turn{};  ///< positive as the steering wheel turns left; none without a pitman arm
  InputId straight{};     ///< mean heading of both wheels against the rear axle's, if there is one
  InputId road_wheels{};  ///< against the frame: the same input as `straight` without a rear axle
  std::optional<RearAxlePlace> rear;
  std::vector<BarPlace> bars;
  std::vector<BallPlace> balls;
  std::vector<GuidedPlace> guided;
  std::vector<FourBarPlace> four_bars;
  std::vector<TurnPlace> turns;
  std::vector<LinePlace> lines;
  std::vector<PartBody> part_bodies;
  std::vector<std::string> point_names;  ///< by Anchor::point
  std::vector<AnchorId> point_anchors;   ///< the anchor on the body that the point rides on
};

/// Never fails on a truck that read_truck() passed.
Expansion expand(const Truck& truck);

/// Half the distance between the wheel centres as measured (T/2 of definition 1) [m].
double half_track(const Expansion& expansion);
/// The same of the rear axle; there must be one.
double rear_half_track(const Expansion& expansion);

/// The inputs that hold the truck's heights: of the front wheels, and of the rear ones where there is a rear axle.
std::vector<InputId> height_inputs(const Expansion& expansion);

/// Whether a bar of the truck has an end on the rear axle.
bool locates_rear_axle(const Truck& truck, const Bar& bar);

/// The mechanism as plain bodies and joints, one line each, as `check --expand` prints it.
std::string describe(const Expansion& expansion);

}  // namespace axlewright
