// [parts] of kind "four-bar" and "relay": bodies on a pin, with bars that end on them.

#include <fmt/format.h>

#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// An arm reaches from another body to the crank. Both ends are given even if only one of them is good.
void need_arm(ReadContext& context, Fields& fields, const std::string& key,
              const std::string& crank, const FourBar& four_bar, std::array<std::string, 2>& arm) {
  const auto ends = need_point_pair(context, fields, key);
  if (!ends) return;
  arm = *ends;
  const Node& node = *fields.get(key);
  const std::string outer = body_of(context, arm[0]);
  if (!outer.empty() && (outer == crank || outer == four_bar.carries)) {
    context.complaints.error(
        node.place,
        fmt::format("the outer end '{}' of '{}' rides on {}: the arm holds nothing but the crank",
                    arm[0], key, outer),
        "name the end on the other body first, then the crank's end");
  }
  check_rides_on_one_of(context, fields, key, arm[1], {crank});
  check_bar_length(context, arm, node.place, node.unit);
  check_line(context, {four_bar.pivot, arm[1]}, fmt::format("the crank, at '{}',", key),
             node.place);
  context.touched_bodies.insert(outer);
  context.ball_points.insert(arm.begin(), arm.end());
}

}  // namespace

void read_four_bar(ReadContext& context, Fields& fields, Part& part) {
  FourBar four_bar;
  const std::string crank = part.name + "_crank";
  four_bar.pivot = need_point(context, fields, "pivot").value_or("");
  four_bar.carries = body_or_that_of(context, fields, "carries", four_bar.pivot);
  if (four_bar.carries == crank) {
    context.complaints.error(fields.place(), "the crank's pivot rides on the crank alone",
                             "add carries = \"BODY\", the body that carries the crank");
  }
  check_rides_on_one_of(context, fields, "pivot", four_bar.pivot, {four_bar.carries, crank});
  four_bar.axis = need_direction(context, fields, "axis", four_bar.carries).value_or(Direction{});
  need_arm(context, fields, "upper_arm", crank, four_bar, four_bar.upper_arm);
  need_arm(context, fields, "lower_arm", crank, four_bar, four_bar.lower_arm);
  context.touched_bodies.insert({four_bar.carries, crank});
  part.what = four_bar;
}

void read_relay(ReadContext& context, Fields& fields, Part& part) {
  Relay relay;
  if (const auto axis = need_point_pair(context, fields, "axis")) {
    relay.axis = *axis;
    relay.carries = body_of(context, relay.axis[0]);
    const Node& node = *fields.get("axis");
    if (relay.carries == part.name) {
      context.complaints.error(node.place, "the relay's axis rides on the relay itself",
                               "give both points of the axis on = \"frame\" or on = \"axle\"");
    } else if (!relay.carries.empty()) {
      check_rides_on_one_of(context, fields, "axis", relay.axis[1], {relay.carries});
    }
    check_line(context, relay.axis, "the relay's axis", node.place);
    context.touched_bodies.insert(relay.carries);
  }
  context.touched_bodies.insert(part.name);
  part.what = relay;
}

}  // namespace axlewright
