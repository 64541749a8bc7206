#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "engine/base/vec.h"

// A mechanism: bodies, places on them, joints between them and inputs. It knows no truck word beyond
// the names it carries for its messages. All places and directions are those of the as-measured
// assembly, in frame axes (x forward, y left, z up) [m]; every body's pose is the identity there.

namespace axlewright {

/// An index that says what it counts. `BodyId{0}` is the frame, which never moves.
template <class Tag>
struct Id {
  int value = -1;
  friend bool operator==(Id a, Id b) { return a.value == b.value; }
  friend bool operator!=(Id a, Id b) { return a.value != b.value; }
};
using BodyId = Id<struct BodyTag>;
using AnchorId = Id<struct AnchorTag>;
using AxisId = Id<struct AxisTag>;
using LengthId = Id<struct LengthTag>;
using JointId = Id<struct JointTag>;
using InputId = Id<struct InputTag>;

inline constexpr BodyId kFrame{0};

///   carrier  the body against which its turn about its own line counts (for a tie rod: the axle)
struct Body {
  std::string name;  ///< as in the truck file: "axle", "knuckle_left", "tie_rod"
  BodyId carrier = kFrame;
};

/// A place fixed on a body.
///   point  index of the file point it comes from, -1 if it comes from none. Several anchors can come
///          from one point (both halves of a ball joint): a *design move* moves them together, a
///          *build error* each on its own.
///   towards  another file point that it lies towards, by `share` of the way: it moves with both. -1: on `point` itself
struct Anchor {
  std::string name;
  BodyId body{};
  Vec3 at = Vec3::Zero();
  int point = -1;
  int towards = -1;
  double share = 0;
};

/// A direction fixed on a body: unit length. If `from` and `to` are set the direction is that from one
/// anchor to the other and follows them; `side` then picks the line itself (0) or one of two unit
/// vectors square to it (1, 2; a right-handed set, see axis_direction()).
struct Axis {
  std::string name;
  BodyId body{};
  Vec3 direction = Vec3::UnitZ();  ///< as measured, whichever way it is defined
  AnchorId from{}, to{};
  int side = 0;
};

/// A length of its own: that of a bar. `follows` tells that no length was given, so that a design move
/// of an end changes it; else the length stays as given (definition 3).
struct Length {
  std::string name;
  double value = 0;
  AnchorId from{}, to{};
  bool follows = true;
};

/// How two bodies are joined. `a` and `b` are anchors on the two bodies; `axis_a`, `axis_b` directions.
///
///   ball           a and b coincide                                                      holds 3
///   pin            ball at a, b and axis_a parallel to axis_b (alike as measured)        holds 5
///   slide          b rides along axis_a through a, no turn                               holds 5
///   clamp          no relative motion                                                    holds 6
///   distance       |a - b| = length                                                      holds 1
///   point_on_line  b on the line through a along axis_a                                  holds 2
///   point_on_plane b in the plane through a square to axis_a                             holds 1
///   perpendicular  axis_a . axis_b = 0                                                   holds 1
///   spin_keeper    the same equation as perpendicular, kept apart for its words: axis_a is the bar's
///                  own line crossed with "up" (on the bar), axis_b is "up" on the carrier  holds 1
///   held_coordinate axis_a . (b - a) keeps its as-measured value                         holds 1
///   bush           elastic: pulls b back to a and body_b back to its turn as measured    holds 0, gives by its Bush
enum class JointKind {
  ball,
  pin,
  slide,
  clamp,
  distance,
  point_on_line,
  point_on_plane,
  perpendicular,
  spin_keeper,
  held_coordinate,
  bush
};

/// How a bush gives: forces against its deflections and moments against its turns, each in proportion; relaxed as measured.
/// The axes are those of body_a: x and y the two sides (1, 2) of the joint's axis_a, z that axis itself, the bush's own.
///   along  [N/m]      against the way of anchor b from anchor a
///   about  [N m/rad]  against the angles of three successive turns about x, y and z that take body_a's axes to body_b's (the
///                     body-fixed 1-2-3 set of Kane, Likins, Levinson, Spacecraft Dynamics, 1983, app. I, from memory)
/// 0 leaves a way or turn free; none is negative. `stiff_as_pin` tells what it would be if it did not give: a pin about its own
/// axis; else a ball. Without stiffness along it is only ever one about its axis: other joints hold its place.
struct Bush {
  Vec3 along = Vec3::Zero();
  Vec3 about = Vec3::Zero();
  bool stiff_as_pin = false;
};

/// A joint between two bodies; its kind says which of the members count.
struct Joint {
  std::string name;  ///< in shop words: "track bar", "tie rod ball, left"
  JointKind kind = JointKind::ball;
  BodyId body_a{}, body_b{};
  AnchorId a{}, b{};          ///< a on body_a, b on body_b, where the kind uses them
  AxisId axis_a{}, axis_b{};  ///< axis_a on body_a, axis_b on body_b, where the kind uses them
  LengthId length{};          ///< distance only
  Bush bush{};                ///< bush only
};

/// What a person sets. The value is absolute, the as-measured value included.
///   coordinate  direction . (place of anchor) = value, direction fixed in the frame (axis on kFrame) [m]
///   turn        the turn of the pin `joint` = value; positive along its axis_a, body_b against body_a; it stood at
///               `as_measured` when the places were taken [rad]
///   heading     the mean heading about z of `headings`, less that of `axis` where there is one (else against the frame) = value;
///               positive to the left [rad]
enum class InputKind { coordinate, turn, heading };

/// A direction whose heading counts: of an axle stub that points to the left (+y) as measured.
struct HeadingOf {
  AxisId axis{};
};

/// One input; its kind says which of the members count.
struct Input {
  std::string name;
  InputKind kind = InputKind::coordinate;
  AnchorId anchor{};
  AxisId axis{};
  JointId joint{};
  std::vector<HeadingOf> headings{};
  double as_measured = 0;  ///< turn only; the others read theirs off the places
};

/// The whole mechanism; a value. Built by add_* so that ids are right by construction.
struct Mechanism {
  std::vector<Body> bodies{Body{"frame"}};
  std::vector<Anchor> anchors;
  std::vector<Axis> axes;
  std::vector<Length> lengths;
  std::vector<Joint> joints;
  std::vector<Input> inputs;

  BodyId add_body(std::string name, BodyId carrier = kFrame);
  /// `at` in frame axes as measured [m].
  AnchorId add_anchor(std::string name, BodyId body, const Vec3& at, int point = -1);
  /// A fixed direction; it is normalised. It must not be zero.
  AxisId add_axis(std::string name, BodyId body, const Vec3& direction);
  /// The direction from one anchor to another (side 0), or one square to it (side 1 or 2). Both anchors must
  /// ride on `body` and be apart.
  AxisId add_axis(std::string name, BodyId body, AnchorId from, AnchorId to, int side = 0);
  /// The distance between two anchors as measured.
  LengthId add_length(std::string name, AnchorId from, AnchorId to);
  JointId add_joint(Joint joint);
  InputId add_input(Input input);

  // The commonest joints, each with the anchors and axes that it needs, made at a place in frame axes as measured [m]. All
  // carry the joint's name.
  JointId add_ball(const std::string& name, BodyId a, BodyId b, const Vec3& at);
  /// `axis` must not be zero.
  JointId add_pin(const std::string& name, BodyId a, BodyId b, const Vec3& at, const Vec3& axis);
  /// b slides on a along `way`, which must not be zero.
  JointId add_slide(const std::string& name, BodyId a, BodyId b, const Vec3& way);
  /// Rubber that is relaxed as measured, its `line` (which must not be zero) the third of its directions.
  JointId add_bush(const std::string& name, BodyId a, BodyId b, const Vec3& at, const Vec3& line,
                   const Bush& bush);
  /// A bar with ball ends that is no body: it keeps the distance of its two ends.
  JointId add_bar(const std::string& name, BodyId a, const Vec3& end_a, BodyId b,
                  const Vec3& end_b);

  const Body& body(BodyId id) const { return bodies[static_cast<std::size_t>(id.value)]; }
  const Anchor& anchor(AnchorId id) const { return anchors[static_cast<std::size_t>(id.value)]; }
  const Axis& axis(AxisId id) const { return axes[static_cast<std::size_t>(id.value)]; }
  const Length& length(LengthId id) const { return lengths[static_cast<std::size_t>(id.value)]; }
  const Joint& joint(JointId id) const { return joints[static_cast<std::size_t>(id.value)]; }
};

/// One of three right-handed unit vectors that go with a line's unit direction: side 0 is the direction itself, 1 and
/// 2 are square to it. `hint` (the direction as measured) only picks which frame axis they lean on, so that small
/// changes of `line` change them smoothly.
template <class T>
Vec3T<T> direction_on_side(const Vec3T<T>& line, int side, const Vec3& hint) {
  if (side == 0) return line;
  int least = 0;
  for (int k = 1; k < 3; ++k) {
    if (std::abs(hint[k]) < std::abs(hint[least])) least = k;
  }
  Vec3T<T> lean = Vec3T<T>::Zero();
  lean[least] = T(1);
  using std::sqrt;
  Vec3T<T> first = cross(line, lean);
  first = first * (T(1) / sqrt(first.dot(first)));
  return side == 1 ? first : cross(line, first);
}

/// How many degrees of freedom a joint of this kind takes away.
int held_by(JointKind kind);

/// A short word for the kind, as the truck file spells it: "ball", "point on line".
const char* word_for(JointKind kind);

}  // namespace axlewright
