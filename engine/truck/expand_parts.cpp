// [parts]: everything but guided bars and four-bars, which have files of their own.

#include "engine/truck/expander.h"

namespace axlewright {

void add_part_bodies(Expander& x, const Part& part, const Bar& bar) {
  if (bar.body) x.add_body(part.name, part.words);
}

void expand_part(Expander& x, const Part& part, const Bar& bar) {
  BarPlace place;
  place.name = part.name;
  place.words = part.words;
  place.kind = bar.kind;
  place.rear = locates_rear_axle(x.truck(), bar);
  place.sleeve = bar.sleeve.value_or(0);
  place.a = x.own_anchor(bar.ends[0]);
  place.b = x.own_anchor(bar.ends[1]);
  const Vec3 span = x.m().anchor(place.b).at - x.m().anchor(place.a).at;
  place.given_misfit = bar.length ? *bar.length - span.norm() : 0;
  if (bar.body) {
    place.body = x.body(part.name);
    for (const std::string& end : bar.ends) {
      x.ball(part.words + " ball at " + words_of(end), part.name, end, x.point(end).on, part.name);
    }
    x.out().lines.push_back({part.name, part.words, place.body, span / span.norm()});
  } else {
    x.distance(part.words, place.a, place.b, bar.length);
    place.length = LengthId{static_cast<int>(x.m().lengths.size()) - 1};
    x.note_ball(part.name, bar.ends[0], x.point(bar.ends[0]).on, "", place.a, place.b);
    x.note_ball(part.name, bar.ends[1], x.point(bar.ends[1]).on, "", place.b, place.a);
  }
  x.out().bars.push_back(place);
}

void add_part_bodies(Expander& x, const Part&, const Kingpin& kingpin) {
  const bool left = x.point(kingpin.lower).at.y() > 0;
  const BodyId id = x.add_body(kingpin.knuckle, left ? "left knuckle" : "right knuckle");
  (left ? x.out().knuckle.left : x.out().knuckle.right) = id;
}

void expand_part(Expander& x, const Part& part, const Kingpin& kingpin) {
  const bool left = x.point(kingpin.lower).at.y() > 0;
  const std::string side = left ? "left" : "right";
  const AnchorId lower = x.anchor(kingpin.lower, "axle");
  const AnchorId upper = x.anchor(kingpin.upper, "axle");
  const AxisId line = x.m().add_axis("kingpin, " + side, x.out().axle, lower, upper);
  (left ? x.out().kingpin_lower.left : x.out().kingpin_lower.right) = lower;
  (left ? x.out().kingpin_upper.left : x.out().kingpin_upper.right) = upper;
  (left ? x.out().kingpin.left : x.out().kingpin.right) = line;
  if (kingpin.style == KingpinStyle::two_balls) {
    x.ball("lower kingpin ball, " + side, part.name, kingpin.lower, "axle", kingpin.knuckle);
    x.ball("upper kingpin ball, " + side, part.name, kingpin.upper, "axle", kingpin.knuckle);
    return;
  }
  const AnchorId lower_k = x.anchor(kingpin.lower, kingpin.knuckle);
  const AnchorId upper_k = x.anchor(kingpin.upper, kingpin.knuckle);
  x.m().add_joint(
      {.name = "kingpin, " + side,
       .kind = JointKind::pin,
       .body_a = x.out().axle,
       .body_b = x.body(kingpin.knuckle),
       .a = lower,
       .b = lower_k,
       .axis_a = line,
       .axis_b = x.m().add_axis("kingpin, " + side, x.body(kingpin.knuckle), lower_k, upper_k)});
}

void add_part_bodies(Expander& x, const Part&, const PitmanArm&) {
  x.out().pitman = x.add_body("pitman", "pitman arm");
}

void expand_part(Expander& x, const Part& part, const PitmanArm& arm) {
  // The axis points so that the arm turns positively about it as the steering wheel turns left.
  const std::string& from = arm.anticlockwise ? arm.axis[0] : arm.axis[1];
  const std::string& to = arm.anticlockwise ? arm.axis[1] : arm.axis[0];
  x.shaft = x.pin(part.words + " shaft", "sector shaft", from, to, "frame", "pitman");
}

void add_part_bodies(Expander& x, const Part& part, const Relay&) {
  x.add_body(part.name, part.words);
}

void expand_part(Expander& x, const Part& part, const Relay& relay) {
  x.turning(part.words, part.name, relay.carries, relay.axis[0],
            Direction{relay.axis[0], relay.axis[1], Vec3::Zero()});
}

void add_part_bodies(Expander& x, const Part& part, const Clamp& clamp) {
  x.add_body(clamp.body, part.words);
}

void expand_part(Expander& x, const Part& part, const Clamp& clamp) {
  x.clamp(part.words, x.body(clamp.to), x.body(clamp.body));
}

void add_part_bodies(Expander&, const Part&, const Keeper&) {}

namespace {

/// The line through the two ends of a body made by a tie rod or a guided bar, wherever its part stands in the file.
Vec3 own_line(const Expander& x, const std::string& body_name) {
  Vec3 span = Vec3::UnitY();
  for (const Part& part : x.truck().parts) {
    if (const auto* bar = std::get_if<Bar>(&part.what);
        bar != nullptr && bar->body && part.name == body_name) {
      span = x.point(bar->ends[1]).at - x.point(bar->ends[0]).at;
    } else if (const auto* guided = std::get_if<GuidedBar>(&part.what);
               guided != nullptr && part.name + "_through" == body_name) {
      span = x.point(guided->guide_end).at - x.point(guided->near_end).at;
    }
  }
  return span / span.norm();
}

}  // namespace

void expand_part(Expander& x, const Part& part, const Keeper& keeper) {
  x.keeper(part.words, keeper.holds, keeper.against, own_line(x, keeper.holds));
}

}  // namespace axlewright
