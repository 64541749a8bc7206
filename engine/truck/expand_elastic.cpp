// Parts that give: bushes in the place of balls, radius arms, leaf springs.

#include <fmt/format.h>

#include "engine/truck/expander.h"
#include "engine/truck/leaf_halves.h"
#include "engine/truck/typical_bushes.h"

namespace axlewright {

namespace {

constexpr const char* kLeafEye = "leaf eye";

/// Of an entry of the file, or of a usual kind.
template <class Rubber>
Bush gives(const Rubber& rubber) {
  return {.along = Vec3(rubber.radial, rubber.radial, rubber.axial),
          .about = Vec3(rubber.tilt, rubber.tilt, rubber.twist)};
}

/// The bush of a leaf spring's eye or of its shackle's hanger, whose pin lies across the truck.
void add_eye(Expander& x, const Part& part, const std::string& point_name, const std::string& a,
             const std::string& b) {
  const std::string words = part.words + " bush at " + words_of(point_name);
  const BushEntry* entry = x.find_bush(point_name, part.name);
  Bush bush = entry != nullptr ? gives(*entry) : gives(typical_bush(kLeafEye));
  bush.stiff_as_pin = true;
  x.bush(words, point_name, a, b, entry != nullptr ? x.line_of(entry->axis) : Vec3(Vec3::UnitY()),
         bush);
  x.note_ball(part.name, point_name, a, b, AnchorId{}, AnchorId{});
}

/// Half a leaf spring: a chain of pieces that hangs on the axle, and what its end is joined to.
struct LeafHalf {
  std::string body;  ///< of the last piece: "spring_left_front"
  std::string words;
  std::string eye;
  double clamped = 0;  ///< share of the way from seat to eye that cannot bend
  double bending = 0;  ///< the share that can
};

void add_part_body(Expander& x, const Part& part, const std::string& name,
                   const std::string& words) {
  x.out().part_bodies.push_back({part.words, x.add_body(name, words)});
}

/// The body of a piece; `from_eye` 1 is the one next to that which carries the eye.
std::string piece_name(const std::string& half, std::size_t from_eye) {
  return fmt::format("{}_{}", half, from_eye);
}

void add_hinge(Expander& x, const LeafHalf& half, const std::string& seat, const LeafHinge& hinge,
               BodyId inner, BodyId outer, const std::string& words) {
  const Point &from = x.point(seat), &to = x.point(half.eye);
  const double share = half.clamped + hinge.along * half.bending;
  const Vec3 at = from.at + share * (to.at - from.at);
  const auto anchor_on = [&](BodyId body) {
    const AnchorId id = x.m().add_anchor(words, body, at);
    Anchor& anchor = x.m().anchors[static_cast<std::size_t>(id.value)];
    anchor.point = static_cast<int>(&from - x.truck().points.data());
    anchor.towards = static_cast<int>(&to - x.truck().points.data());
    anchor.share = share;
    return id;
  };
  Joint joint{.name = words, .kind = JointKind::ball, .body_a = inner, .body_b = outer};
  joint.a = anchor_on(inner);
  joint.b = anchor_on(outer);
  x.m().add_joint(joint);
  joint.kind = JointKind::bush;
  joint.axis_a = x.m().add_axis(words, inner, Vec3::UnitY());
  joint.axis_b = x.m().add_axis(words, outer, Vec3::UnitY());
  // The two sides of the cross line are up and fore-aft.
  joint.bush = {.about = Vec3(hinge.sideways, hinge.twist, hinge.up), .stiff_as_pin = true};
  x.m().add_joint(joint);
}

void add_half(Expander& x, const LeafHalf& half, const std::string& seat,
              const std::vector<LeafHinge>& hinges) {
  BodyId inner = x.out().axle;
  for (std::size_t k = 0; k < hinges.size(); ++k) {
    const std::size_t left = hinges.size() - 1 - k;
    const BodyId outer = x.body(left == 0 ? half.body : piece_name(half.body, left));
    add_hinge(x, half, seat, hinges[k], inner, outer,
              fmt::format("{} hinge {}", half.words, k + 1));
    inner = outer;
  }
}

}  // namespace

const BushEntry* Expander::find_bush(const std::string& point_name, const std::string& of) const {
  for (const BushEntry& bush : truck_.bushes) {
    if (bush.ball == point_name && (bush.of.empty() || bush.of == of)) return &bush;
  }
  return nullptr;
}

JointId Expander::bush(const std::string& words, const std::string& point_name,
                       const std::string& a, const std::string& b, const Vec3& line,
                       const Bush& gives) {
  return m().add_joint({.name = words,
                        .kind = JointKind::bush,
                        .body_a = body(a),
                        .body_b = body(b),
                        .a = anchor(point_name, a),
                        .b = anchor(point_name, b),
                        .axis_a = m().add_axis(words, body(a), line),
                        .axis_b = m().add_axis(words, body(b), line),
                        .bush = gives});
}

JointId Expander::ball(const std::string& words, const std::string& of,
                       const std::string& point_name, const std::string& a, const std::string& b) {
  const std::string& stud_body = point(point_name).on == b ? b : a;
  note_ball(of, point_name, stud_body, stud_body == a ? b : a, AnchorId{}, AnchorId{});
  if (const BushEntry* entry = find_bush(point_name, of)) {
    return bush(words, point_name, a, b, line_of(entry->axis), gives(*entry));
  }
  return m().add_joint({.name = words,
                        .kind = JointKind::ball,
                        .body_a = body(a),
                        .body_b = body(b),
                        .a = anchor(point_name, a),
                        .b = anchor(point_name, b)});
}

void add_part_bodies(Expander& x, const Part& part, const RadiusArm&) {
  add_part_body(x, part, part.name, part.words);
}

void expand_part(Expander& x, const Part& part, const RadiusArm& arm) {
  x.ball(part.words + " frame end", part.name, arm.frame_end, "frame", part.name);
  for (const std::string& end : arm.axle_ends)
    x.ball(part.words + " at " + words_of(end), part.name, end, "axle", part.name);
}

void add_part_bodies(Expander& x, const Part& part, const LeafSpring& leaf) {
  for (const char* side : {"eye", "shackle"}) {
    const std::string name = fmt::format("{}_{}_half", part.name, side);
    const std::string words = fmt::format("{}, {} half", part.words, side);
    add_part_body(x, part, name, words);
    for (int piece = 1; piece < leaf.pieces; ++piece)
      add_part_body(x, part, piece_name(name, static_cast<std::size_t>(piece)),
                    fmt::format("{}, piece {}", words, piece));
  }
  add_part_body(x, part, part.name + "_shackle", part.words + " shackle");
}

void expand_part(Expander& x, const Part& part, const LeafSpring& leaf) {
  const double a = (x.point(leaf.eye).at - x.point(leaf.seat).at).norm();
  const double b = (x.point(leaf.shackle_eye).at - x.point(leaf.seat).at).norm();
  const LeafHalves halves = leaf_halves(leaf, a, b);
  const std::string eye_half = part.name + "_eye_half", shackle_half = part.name + "_shackle_half",
                    shackle = part.name + "_shackle";
  add_half(x,
           {eye_half, part.words + " eye half", leaf.eye, 1 - halves.eye_length / a,
            halves.eye_length / a},
           leaf.seat, halves.eye);
  add_half(x,
           {shackle_half, part.words + " shackle half", leaf.shackle_eye,
            1 - halves.shackle_length / b, halves.shackle_length / b},
           leaf.seat, halves.shackle);
  add_eye(x, part, leaf.eye, "frame", eye_half);
  add_eye(x, part, leaf.shackle_eye, shackle, shackle_half);
  add_eye(x, part, leaf.shackle, "frame", shackle);
}

}  // namespace axlewright
