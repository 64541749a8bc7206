// [parts]: the radius arm.

#include <fmt/format.h>

#include "engine/truck/read_context.h"

namespace axlewright {

void check_rides_on(ReadContext& context, Fields& fields, const std::string& key,
                    const std::string& point, const std::string& body) {
  const std::string on = body_of(context, point);
  if (point.empty() || on.empty() || on == body) return;
  const Node* node = fields.get(key);
  context.complaints.error(
      node != nullptr ? node->place : fields.place(),
      fmt::format("'{}' of {} rides on {}, not on {}", point, fields.owner(), on, body),
      fmt::format("give it on = \"{}\"", body));
}

void read_radius_arm(ReadContext& context, Fields& fields, Part& part) {
  RadiusArm arm;
  arm.frame_end = need_point(context, fields, "frame_end").value_or("");
  check_rides_on(context, fields, "frame_end", arm.frame_end, "frame");
  if (const auto ends = need_point_pair(context, fields, "axle_ends")) {
    arm.axle_ends = *ends;
    check_line(context, *ends, "the radius arm's place on the axle", fields.place());
    for (const std::string& end : *ends) check_rides_on(context, fields, "axle_ends", end, "axle");
  }
  for (const std::string& ball : {arm.frame_end, arm.axle_ends[0], arm.axle_ends[1]}) {
    if (!ball.empty()) context.ball_points.insert(ball);
  }
  context.touched_bodies.insert({part.name, "frame", "axle"});
  part.what = arm;
}

}  // namespace axlewright
