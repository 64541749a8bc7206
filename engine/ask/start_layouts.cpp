#include "engine/ask/start_layouts.h"

#include <utility>

#include "engine/ask/start_entries.h"
#include "engine/ask/start_linkages.h"

namespace axlewright {
namespace {

/// What one layout has and others have not.
struct Own {
  Lines points, parts;
  Lines pitman_arm = pitman_arm_part("sector_shaft_low", "sector_shaft_high", "from above");
  Lines tie_rod_ends = tie_rod_points();
  Lines tie_rod = tie_rod_part(false);
};

/// The file's order is that of the sheet: first what is measured while the truck stands as measured, then that for which it is moved.
Lines lines_of(const Own& own) {
  return joined({head_lines(), wheel_and_kingpin_points(), own.tie_rod_ends, link_points(),
                 own.points, kingpin_part(), own.tie_rod, link_parts(), own.parts, wheel_lines(),
                 own.pitman_arm, gear_lines(), axle_stop_lines(), travel_lines(), limit_lines()});
}

/// The drag link's end in the knuckle on the other side from what moves it.
PointForm far_knuckle() {
  return {"drag_link_knuckle",
          "knuckle_right",
          {175, -700, 470},
          kTape,
          "Drag link's far end: centre of its ball in the knuckle on the other side "
          "from the gear. Gear on the right: write on = \"knuckle_left\", y above 0."};
}

StartLayout plain() {
  const Own own{joined({cross_steer_gear_points(kTape), drag_link_end(far_knuckle()),
                        track_bar_points({110, 520, 610}, {110, -610, 480})}),
                joined({drag_link_part("drag_link_knuckle", 1137.5), track_bar_part(1137.5)})};
  return StartLayout{"plain", "track bar, drag link to the far knuckle",
                     "It suits a truck with plain bars whose drag link runs across to the knuckle "
                     "on the other side.",
                     lines_of(own)};
}

StartLayout plain_tie_rod() {
  const PointForm end{"drag_link_tie_rod",
                      "tie_rod",
                      {175, -600, 420},
                      kTape,
                      "Drag link's far end: centre of its ball on the tie rod. Off the rod's own "
                      "line it lets the rod roll: `check` tells by how much that steers."};
  Own own{joined({cross_steer_gear_points(kTape), drag_link_end(end),
                  track_bar_points({110, 520, 610}, {110, -510, 430})}),
          joined({drag_link_part("drag_link_tie_rod", 1045.6), track_bar_part(1045.6)})};
  own.tie_rod = tie_rod_part(true);
  return StartLayout{"plain-tie-rod", "track bar, drag link to the tie rod",
                     "It suits a truck with plain bars whose drag link ends on the tie rod.",
                     lines_of(own)};
}

StartLayout push_pull() {
  const PointForm end{
      "drag_link_knuckle",
      "knuckle_left",
      {10, 590, 620},
      kTape,
      "Drag link's far end: centre of its ball in the arm of the knuckle on the "
      "gear's own side. Gear on the right: write on = \"knuckle_right\", y below 0."};
  Own own{joined({push_pull_gear_points(), drag_link_end(end),
                  track_bar_points({110, 520, 610}, {110, -610, 480})}),
          joined({drag_link_part("drag_link_knuckle", 639.0), track_bar_part(1137.5)})};
  own.pitman_arm =
      pitman_arm_part("sector_shaft_inner", "sector_shaft_outer", "from outside the truck");
  return StartLayout{"push-pull", "track bar, push-pull drag link to the near knuckle",
                     "It suits a truck whose drag link runs fore-aft, from a pitman arm that "
                     "swings fore-aft to the knuckle on its own side.",
                     lines_of(own)};
}

StartLayout inverted_y() {
  Own own{joined({cross_steer_gear_points(kTape), drag_link_end(far_knuckle()),
                  track_bar_points({110, 520, 610}, {110, -610, 480})}),
          joined({inverted_y_parts(), track_bar_part(1137.5)})};
  own.tie_rod_ends = inverted_y_points();
  own.tie_rod = {};
  return StartLayout{
      "inverted-y", "track bar, drag link that carries the tie rod",
      "It suits a truck whose tie rod runs from one knuckle to the drag link, an inverted Y seen "
      "from the front.",
      lines_of(own)};
}

StartLayout relay() {
  Own own{joined({push_pull_gear_points(), relay_points(), drag_link_end(far_knuckle()),
                  track_bar_points({110, 520, 610}, {110, -610, 480})}),
          joined({relay_parts(), track_bar_part(1137.5)})};
  own.pitman_arm =
      pitman_arm_part("sector_shaft_inner", "sector_shaft_outer", "from outside the truck");
  return StartLayout{
      "relay", "track bar, relay with two arms between pitman arm and drag link",
      "It suits a truck whose pitman arm swings fore-aft and moves a relay on the frame, from "
      "which the drag link runs across.",
      lines_of(own)};
}

StartLayout four_bar() {
  const Own own{
      joined({cross_steer_gear_points(kTape), drag_link_end(far_knuckle()), four_bar_points()}),
      joined({drag_link_part("drag_link_knuckle", 1137.5), four_bar_part()})};
  return StartLayout{
      "four-bar", "lateral four-bar, drag link to the far knuckle",
      "It suits a truck whose axle is held sideways by a crank between two arms, and steered by "
      "a plain drag link.",
      lines_of(own)};
}

StartLayout half_converted() {
  Own own{joined({cross_steer_gear_points(kCareful), steering_guide_points(),
                  track_bar_points({-90, 470, 640}, {-90, -430, 540})}),
          joined({guided_steering_part(), keeper_part(), track_bar_part(905.5)})};
  own.tie_rod = tie_rod_part(true);
  return StartLayout{"half-converted",
                     "guided steering on a plain track bar",
                     "It suits a truck whose steering is guided while a track bar still holds the "
                     "axle sideways: all of the bar's walk then goes into the steering.",
                     lines_of(own),
                     {"guided steering"}};
}

StartLayout guided() {
  Own own{joined({cross_steer_gear_points(kCareful), steering_guide_points(), locator_points()}),
          joined({guided_steering_part(), keeper_part(), locator_part()})};
  own.tie_rod = tie_rod_part(true);
  return StartLayout{"guided",
                     "guided steering and a guided locator",
                     "It suits a truck whose axle and steering are both guided.",
                     lines_of(own),
                     {"guided steering", "locator"}};
}

StartLayout rocker_guided() {
  Own own{joined({cross_steer_gear_points(kCareful), steering_rocker_points(),
                  locator_rocker_points()}),
          joined({guided_steering_on_rocker_part(), keeper_part(), locator_on_rocker_part()})};
  own.tie_rod = tie_rod_part(true);
  return StartLayout{
      "rocker-guided",
      "guided steering and a guided locator, both on rockers",
      "It suits a truck whose axle and steering are both guided, by rockers in place of guides.",
      lines_of(own),
      {"guided steering", "locator"}};
}

}  // namespace

const std::vector<StartLayout>& start_layouts() {
  static const std::vector<StartLayout> layouts{plain(),          plain_tie_rod(), push_pull(),
                                                inverted_y(),     relay(),         four_bar(),
                                                half_converted(), guided(),        rocker_guided()};
  return layouts;
}

}  // namespace axlewright
