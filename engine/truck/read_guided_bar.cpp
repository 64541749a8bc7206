// [parts] of kind "guided bar": a straight-line linkage.

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// Complains if the point rides on a body that is none of `allowed`.
void check_rides_on(ReadContext& context, Fields& fields, const std::string& key,
                    const std::string& point, const std::vector<std::string>& allowed) {
  const std::string on = body_of(context, point);
  if (on.empty() || point.empty()) return;
  for (const std::string& body : allowed) {
    if (body.empty() || body == on) return;
  }
  const Node* node = fields.get(key);
  context.complaints.error(node != nullptr ? node->place : fields.place(),
                           fmt::format("'{}' of '{}' rides on {}", point, key, on),
                           fmt::format("let it ride on {}", one_of(allowed)));
}

/// The body named by `key`, or else the one that the point rides on: the point says it already.
std::string body_or_that_of(ReadContext& context, Fields& fields, const std::string& key,
                            const std::string& point) {
  const Node* node = fields.get(key);
  if (node != nullptr) return read_body_name(context, *node, key).value_or("");
  return body_of(context, point);
}

/// A body of the part itself carries neither near end nor guide: then the file must say what does.
void reject_own_body(ReadContext& context, Fields& fields, const std::string& key,
                     const std::string& body, const std::string& part) {
  if (body.rfind(part + "_", 0) != 0) return;
  const std::string own = body.substr(part.size());
  if (own != "_through" && own != "_half" && own != "_carriage") return;
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

/// A carriage without a body is a point that must lie on the guide's line.
void check_on_guide(ReadContext& context, Fields& fields, const GuidedBar& bar) {
  if (bar.carriage == Carriage::slide) return;
  const auto miss = distance_from_line(context, bar.guide_end, bar.guide);
  if (!miss || *miss <= context.truck.tolerance) return;
  const Node* node = fields.get("guide_end");
  context.complaints.error(
      node->place,
      fmt::format("the guide end '{}' misses the guide's line by {}", bar.guide_end,
                  length_words(*miss, context.unit)),
      fmt::format("place it on the line from '{}' to '{}', or say carriage = \"slide\"",
                  bar.guide[0], bar.guide[1]));
}

void check_bodies(ReadContext& context, Fields& fields, const Part& part, const GuidedBar& bar) {
  const std::string through = part.name + "_through", half = part.name + "_half";
  const std::string carriage = part.name + "_carriage";
  reject_own_body(context, fields, "carries", bar.carries, part.name);
  reject_own_body(context, fields, "near_end_on", bar.near_end_on, part.name);
  if (!bar.carries.empty() && bar.carries == bar.near_end_on) {
    context.complaints.error(
        fields.place(),
        fmt::format("near end and guide are both on {}: nothing is guided", bar.carries),
        "let 'carries' and 'near_end_on' be different bodies");
  }
  const bool has_half = bar.half_link != HalfLink::distance;
  const bool has_carriage = bar.carriage == Carriage::slide;
  check_rides_on(context, fields, "near_end", bar.near_end, {bar.near_end_on, through});
  check_rides_on(context, fields, "pivot", bar.pivot,
                 has_half ? std::vector<std::string>{bar.carries, half}
                          : std::vector<std::string>{bar.carries});
  check_rides_on(
      context, fields, "middle", bar.middle,
      has_half ? std::vector<std::string>{through, half} : std::vector<std::string>{through});
  check_rides_on(context, fields, "guide_end", bar.guide_end,
                 has_carriage ? std::vector<std::string>{through, carriage}
                              : std::vector<std::string>{through, bar.carries});
  for (const std::string& end : bar.guide)
    check_rides_on(context, fields, "guide", end, {bar.carries});
}

void read_points_of(ReadContext& context, Fields& fields, GuidedBar& bar) {
  bar.near_end = need_point(context, fields, "near_end").value_or("");
  bar.guide_end = need_point(context, fields, "guide_end").value_or("");
  bar.middle = need_point(context, fields, "middle").value_or("");
  bar.pivot = need_point(context, fields, "pivot").value_or("");
  if (const auto guide = need_point_pair(context, fields, "guide")) {
    bar.guide = *guide;
    check_line(context, bar.guide, "the guide", fields.get("guide")->place);
  }
}

}  // namespace

void read_guided_bar(ReadContext& context, Fields& fields, Part& part) {
  GuidedBar bar;
  read_points_of(context, fields, bar);
  const auto half = fields.choice("half_link", {"distance", "pinned body", "ball body"}, 0);
  bar.half_link = static_cast<HalfLink>(half.value_or(0));
  const auto carriage = fields.choice("carriage", {"point", "slide"}, 0);
  bar.carriage = static_cast<Carriage>(carriage.value_or(0));
  bar.carries = body_or_that_of(context, fields, "carries", bar.pivot);
  bar.near_end_on = body_or_that_of(context, fields, "near_end_on", bar.near_end);
  if (half && carriage) check_bodies(context, fields, part, bar);
  check_apart(context, fields, "the through-link", bar.near_end, bar.guide_end);
  check_apart(context, fields, "the half-link", bar.middle, bar.pivot);
  check_apart(context, fields, "the near half of the through-link", bar.near_end, bar.middle);
  if (carriage) check_on_guide(context, fields, bar);
  context.touched_bodies.insert({bar.carries, bar.near_end_on});
  context.ball_points.insert({bar.near_end, bar.pivot});
  if (bar.half_link != HalfLink::pinned_body) context.ball_points.insert(bar.middle);
  if (bar.carriage == Carriage::slide) context.ball_points.insert(bar.guide_end);
  part.what = bar;
}

}  // namespace axlewright
