// [parts] of kind "guided bar": a straight-line linkage.

#include "engine/truck/expander.h"

namespace axlewright {

void add_part_bodies(Expander& x, const Part& part, const GuidedBar& bar) {
  x.add_body(part.name + "_through", part.words + " through-link");
  if (bar.half_link != HalfLink::distance)
    x.add_body(part.name + "_half", part.words + " half-link");
  if (bar.carriage == Carriage::slide)
    x.add_body(part.name + "_carriage", part.words + " carriage");
  if (bar.carriage == Carriage::rocker) x.add_body(part.name + "_rocker", part.words + " rocker");
}

namespace {

void add_half_link(Expander& x, const Part& part, const GuidedBar& bar, const GuidedPlace& place,
                   const std::string& through) {
  const std::string half = part.name + "_half";
  const std::string words = part.words + " half-link";
  if (bar.half_link == HalfLink::distance) {
    x.distance(words, place.pivot, place.middle, {});
    x.note_ball(part.name, bar.pivot, bar.carries, "", place.pivot, place.middle);
    x.note_ball(part.name, bar.middle, through, "", place.middle, place.pivot);
    return;
  }
  x.ball(words + " pivot", part.name, bar.pivot, bar.carries, half);
  if (bar.half_link == HalfLink::ball_body) {
    x.ball(words + " middle ball", part.name, bar.middle, through, half);
    return;
  }
  const Vec3 along = x.point(bar.guide_end).at - x.point(bar.near_end).at;
  const Vec3 square = cross(along, Vec3(x.point(bar.middle).at - x.point(bar.pivot).at));
  x.m().add_joint({.name = words + " middle pin",
                   .kind = JointKind::pin,
                   .body_a = x.body(through),
                   .body_b = x.body(half),
                   .a = place.middle,
                   .b = x.anchor(bar.middle, half),
                   .axis_a = x.m().add_axis(words + " pin", x.body(through), square),
                   .axis_b = x.m().add_axis(words + " pin", x.body(half), square)});
}

void add_carriage(Expander& x, const Part& part, const GuidedBar& bar, const GuidedPlace& place,
                  const std::string& through) {
  if (bar.carriage == Carriage::point) {
    x.m().add_joint({.name = part.words + " guide",
                     .kind = JointKind::point_on_line,
                     .body_a = x.body(bar.carries),
                     .body_b = x.body(through),
                     .a = place.slide_origin,
                     .b = place.guide_end,
                     .axis_a = place.guide});
    return;
  }
  if (bar.carriage == Carriage::rocker) {
    const std::string rocker = part.name + "_rocker";
    x.turning(part.words + " rocker", rocker, bar.carries, bar.rocker_pivot, bar.rocker_axis);
    x.ball(part.words + " guide end", part.name, bar.guide_end, rocker, through);
    return;
  }
  const std::string carriage = part.name + "_carriage";
  x.m().add_joint({.name = part.words + " carriage slide",
                   .kind = JointKind::slide,
                   .body_a = x.body(bar.carries),
                   .body_b = x.body(carriage),
                   .a = place.slide_origin,
                   .b = x.anchor(bar.guide_end, carriage),
                   .axis_a = place.guide});
  x.ball(part.words + " guide end", part.name, bar.guide_end, carriage, through);
}

}  // namespace

void expand_part(Expander& x, const Part& part, const GuidedBar& bar) {
  const std::string through = part.name + "_through";
  GuidedPlace place;
  place.name = part.name;
  place.words = part.words;
  place.through = x.body(through);
  if (bar.half_link != HalfLink::distance) place.half = x.body(part.name + "_half");
  place.near_end = x.anchor(bar.near_end, through);
  place.guide_end = x.anchor(bar.guide_end, through);
  place.middle = x.anchor(bar.middle, through);
  place.pivot = x.anchor(bar.pivot, bar.carries);
  place.slide_origin = x.anchor(bar.guide_end, bar.carries);
  place.guide = x.axis(part.words + " guide", bar.carries, bar.guide);
  x.ball(part.words + " near end", part.name, bar.near_end, bar.near_end_on, through);
  add_half_link(x, part, bar, place, through);
  add_carriage(x, part, bar, place, through);
  const Vec3 span = x.m().anchor(place.guide_end).at - x.m().anchor(place.near_end).at;
  x.out().lines.push_back(
      {through, part.words + " through-link", place.through, span / span.norm()});
  x.out().guided.push_back(place);
}

}  // namespace axlewright
