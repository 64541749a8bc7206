#include "engine/ask/start_linkages.h"

namespace axlewright {

Lines four_bar_points() {
  Lines lines = as_they_are(
      {"", "# Lateral four-bar: a crank on the axle between two arms from the frame.", ""});
  lines.push_back(point({"four_bar_pivot",
                         "axle",
                         {-90, -0.4, 560},
                         kCareful,
                         "Centre of the crank's pin on the axle, in the middle of its length."}));
  lines.push_back(
      point({"four_bar_crank_top",
             "locator_crank",
             {-90, 16, 658.7},
             kMatched,
             "Upper arm's end on the crank: centre of its ball or bolt, the truck as measured.",
             "the crank's pin, by straightedge",
             "where the pin divides the crank sets the path: 1 mm along it is 0.2 mm of walk where "
             "the crank has turned by 10 deg"}));
  lines.push_back(point({"four_bar_crank_bottom",
                         "locator_crank",
                         {-90, -16.8, 461.3},
                         kMatched,
                         "Lower arm's end on the crank: centre of its ball or bolt.",
                         "the crank's pin, by straightedge"}));
  lines.push_back(
      point({"four_bar_upper_frame",
             "frame",
             {-90, 430, 542.5},
             kTape,
             "Upper arm's outer end: centre of its ball or bolt on the frame. On the left it "
             "has y above 0, on the right below; the lower arm's is on the other side."}));
  lines.push_back(point({"four_bar_lower_frame",
                         "frame",
                         {-90, -430, 342.5},
                         kTape,
                         "Lower arm's outer end: centre of its ball or bolt on the frame."}));
  return lines;
}

Lines four_bar_part() {
  return as_they_are(
      {"", "[parts.locator]", "kind = \"four-bar\"",
       "upper_arm = [\"four_bar_upper_frame\", \"four_bar_crank_top\"]",
       "lower_arm = [\"four_bar_lower_frame\", \"four_bar_crank_bottom\"]",
       "pivot = \"four_bar_pivot\"",
       "axis = [1, 0, 0] # the crank's pin lies fore-aft; a tilted one: two points of it"});
}

Lines relay_points() {
  Lines lines = as_they_are({"", "# Relay with two arms, on the frame.", ""});
  lines.push_back(point({"relay_low",
                         "frame",
                         {340, 430, 560},
                         kTape,
                         "Centre of the relay's pin at its lower end."}));
  lines.push_back(point({"relay_high",
                         "frame",
                         {340, 430, 690},
                         kTape,
                         "A second point of the pin's centre line, at its upper end."}));
  lines.push_back(
      point({"relay_arm_in",
             "relay",
             {340, 600, 560},
             kTape,
             "Centre of the ball in the relay's arm that the pitman arm moves, gear at its "
             "centre."}));
  lines.push_back(
      point({"relay_arm_out",
             "relay",
             {175, 430, 600},
             kTape,
             "Centre of the ball in the relay's other arm, from which the drag link runs "
             "across the truck."}));
  return lines;
}

Lines relay_parts() {
  Lines lines = as_they_are(
      {"", "[parts.relay]", "kind = \"relay\"", "axis = [\"relay_low\", \"relay_high\"]"});
  add(lines, sleeved_bar("pitman_link", "link", "pitman_ball", "relay_arm_in", 961.1));
  add(lines, sleeved_bar("drag_link", "drag link", "relay_arm_out", "drag_link_knuckle", 1137.5));
  return lines;
}

Lines inverted_y_points() {
  Lines lines;
  lines.push_back(
      point({"tie_rod_ball",
             "knuckle_left",
             {175, 765, 420},
             kTape,
             "Centre of the tie rod's ball in the steering arm of the gear's own side. Gear on "
             "the right: write on = \"knuckle_right\", y below 0."}));
  lines.push_back(
      point({"tie_rod_drag_link",
             "drag_link",
             {175, -600, 481.5},
             kTape,
             "Centre of the tie rod's other ball, on the drag link. Off the drag link's own line "
             "it lets the drag link roll: `check` tells by how much that steers."}));
  return lines;
}

Lines inverted_y_parts() {
  Lines lines = as_they_are({"", "[parts.drag_link]", "kind = \"drag link\"",
                             "ends = [\"pitman_ball\", \"drag_link_knuckle\"]",
                             "body = true # the tie rod sits on it"});
  add(lines, sleeved_bar("tie_rod", "tie rod", "tie_rod_ball", "tie_rod_drag_link", 1366.4));
  return lines;
}

}  // namespace axlewright
