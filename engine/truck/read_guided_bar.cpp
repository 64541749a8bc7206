// [parts] of kind "guided bar": a straight-line linkage.

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// A body of the part itself carries neither near end nor guide: then the file must say what does.
void reject_own_body(ReadContext& context, Fields& fields, const std::string& key,
                     const std::string& body, const std::string& part) {
  if (body.rfind(part + "_", 0) != 0) return;
  const std::string own = body.substr(part.size());
  if (own != "_through" && own != "_half" && own != "_carriage" && own != "_rocker") return;
  context.complaints.error(fields.place(),
                           fmt::format("'{}' is {}, a body of the guided bar itself", key, body),
                           fmt::format("add {} = \"BODY\", a body outside the guided bar", key));
}

/// Two points of the linkage must be apart, else it is no linkage.
void check_apart(ReadContext& context, Fields& fields, const std::string& what,
                 const std::string& a, const std::string& b) {
  if (a.empty() || b.empty()) return;
  check_line(context, {a, b}, what, fields.place());
}

/// A carriage that is no body is a point that must lie on the guide's line.
void check_on_guide(ReadContext& context, Fields& fields, const GuidedBar& bar) {
  if (bar.carriage != Carriage::point ||
      is_for_the_fit(context, {bar.guide_end, bar.guide.from, bar.guide.to}))
    return;
  const auto miss = distance_from_line(context, bar.guide_end, {bar.guide.from, bar.guide.to});
  if (!miss || *miss <= context.truck.tolerance) return;
  const Node* node = fields.get("guide_end");
  context.complaints.error(
      node->place,
      fmt::format("the guide end '{}' misses the guide's line by {}", bar.guide_end,
                  length_words(*miss, context.unit)),
      fmt::format("place it on the line from '{}' to '{}', or say carriage = \"slide\"",
                  bar.guide.from, bar.guide.to));
}

void check_bodies(ReadContext& context, Fields& fields, const Part& part, const GuidedBar& bar) {
  const std::string through = part.name + "_through", half = part.name + "_half";
  const std::string carriage =
      part.name + (bar.carriage == Carriage::rocker ? "_rocker" : "_carriage");
  reject_own_body(context, fields, "carries", bar.carries, part.name);
  reject_own_body(context, fields, "near_end_on", bar.near_end_on, part.name);
  if (!bar.carries.empty() && bar.carries == bar.near_end_on) {
    context.complaints.error(
        fields.place(),
        fmt::format("near end and guide are both on {}: nothing is guided", bar.carries),
        "let 'carries' and 'near_end_on' be different bodies");
  }
  const bool has_half = bar.half_link != HalfLink::distance;
  const bool has_carriage = bar.carriage != Carriage::point;
  check_rides_on_one_of(context, fields, "near_end", bar.near_end, {bar.near_end_on, through});
  check_rides_on_one_of(context, fields, "pivot", bar.pivot,
                        has_half ? std::vector<std::string>{bar.carries, half}
                                 : std::vector<std::string>{bar.carries});
  check_rides_on_one_of(
      context, fields, "middle", bar.middle,
      has_half ? std::vector<std::string>{through, half} : std::vector<std::string>{through});
  check_rides_on_one_of(context, fields, "guide_end", bar.guide_end,
                        has_carriage ? std::vector<std::string>{through, carriage}
                                     : std::vector<std::string>{through, bar.carries});
  for (const std::string& end : {bar.guide.from, bar.guide.to})
    check_rides_on_one_of(context, fields, "guide", end, {bar.carries});
  check_rides_on_one_of(context, fields, "rocker_pivot", bar.rocker_pivot, {bar.carries, carriage});
}

void read_points_of(ReadContext& context, Fields& fields, GuidedBar& bar) {
  bar.near_end = need_point(context, fields, "near_end").value_or("");
  bar.guide_end = need_point(context, fields, "guide_end").value_or("");
  bar.middle = need_point(context, fields, "middle").value_or("");
  bar.pivot = need_point(context, fields, "pivot").value_or("");
}

void reject_rocker_key(ReadContext& context, Fields& fields, const std::string& key) {
  const Node* node = fields.get(key);
  if (node == nullptr) return;
  context.complaints.error(node->place,
                           fmt::format("'{}' belongs to a guided bar on a rocker", key),
                           "say carriage = \"rocker\", or take this key away");
}

void read_guide(ReadContext& context, Fields& fields, GuidedBar& bar) {
  reject_rocker_key(context, fields, "rocker_pivot");
  reject_rocker_key(context, fields, "rocker_axis");
  const auto guide = need_point_pair(context, fields, "guide");
  if (!guide) return;
  bar.guide.from = (*guide)[0];
  bar.guide.to = (*guide)[1];
  check_line(context, *guide, "the guide", fields.get("guide")->place);
}

void read_rocker(ReadContext& context, Fields& fields, GuidedBar& bar) {
  bar.rocker_pivot = need_point(context, fields, "rocker_pivot").value_or("");
  bar.rocker_axis =
      need_direction(context, fields, "rocker_axis", bar.carries).value_or(Direction{});
  bar.guide = need_direction(context, fields, "guide", bar.carries).value_or(Direction{});
  check_apart(context, fields, "the rocker", bar.rocker_pivot, bar.guide_end);
}

}  // namespace

void read_guided_bar(ReadContext& context, Fields& fields, Part& part) {
  GuidedBar bar;
  read_points_of(context, fields, bar);
  const auto half = fields.choice("half_link", {"distance", "pinned body", "ball body"}, 0);
  bar.half_link = static_cast<HalfLink>(half.value_or(0));
  const auto carriage = fields.choice("carriage", {"point", "slide", "rocker"}, 0);
  bar.carriage = static_cast<Carriage>(carriage.value_or(0));
  bar.carries = body_or_that_of(context, fields, "carries", bar.pivot);
  bar.near_end_on = body_or_that_of(context, fields, "near_end_on", bar.near_end);
  // Where the word is misspelt, the other keys tell what was meant.
  const bool rocker =
      carriage ? bar.carriage == Carriage::rocker : fields.get("rocker_pivot") != nullptr;
  rocker ? read_rocker(context, fields, bar) : read_guide(context, fields, bar);
  if (half && carriage) check_bodies(context, fields, part, bar);
  check_apart(context, fields, "the through-link", bar.near_end, bar.guide_end);
  check_apart(context, fields, "the half-link", bar.middle, bar.pivot);
  check_apart(context, fields, "the near half of the through-link", bar.near_end, bar.middle);
  if (carriage) check_on_guide(context, fields, bar);
  context.touched_bodies.insert({bar.carries, bar.near_end_on});
  context.ball_points.insert({bar.near_end, bar.pivot});
  if (bar.half_link != HalfLink::pinned_body) context.ball_points.insert(bar.middle);
  if (bar.carriage != Carriage::point) context.ball_points.insert(bar.guide_end);
  part.what = bar;
}

}  // namespace axlewright
