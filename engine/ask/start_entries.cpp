#include "engine/ask/start_entries.h"

#include <utility>

#include <fmt/format.h>

namespace axlewright {
Lines head_lines() {
  Lines lines = as_they_are({"", "[truck]"});
  lines.push_back(key(
      "truck", "height_range", {length(0), length(235)},
      {"",
       "Run the truck to its lowest and its highest setting; at each, frame rail to floor over the "
       "front axle, the mean of left and right. Then set it to the height at which all else is "
       "measured and block it there. In the file: lowest and highest less the height measured at, "
       "so one is 0 or below, the other 0 or above.",
       "floor",
       kTape,
       {"lowest", "highest", "measured at"}}));
  lines.push_back(key("truck", "wheelbase", {length(4060)},
                      {"",
                       "Front wheel centre to rear wheel centre along the truck, by plumb bob on "
                       "the floor. In the file: the mean of left and right.",
                       "wheel centres",
                       kTape,
                       {"left", "right"}}));
  add(lines, as_they_are(
                 {"# Where the steering wheel is centred and toe is set, from as measured: 0 if",
                  "# the truck stands so now.", "aligned_height = 0",
                  "# The largest lean to look at, either side: your choice.", "lean = \"4 deg\""}));
  return lines;
}

Lines wheel_and_kingpin_points() {
  Lines lines = as_they_are({"", "[points]", "# Wheels and kingpins.", ""});
  lines.push_back(point(
      {"wheel_centre_left",
       "axle",
       {0, 875, 462},
       kTape,
       "Centre of the wheel: on the hub's axis, halfway between the tyre's inner and outer side "
       "walls."}));
  lines.push_back(
      point({"kingpin_lower_left",
             "axle",
             {6.5, 747, 390},
             kCareful,
             "Lower end of the kingpin's line: centre of the lower ball, or of the pin's lower "
             "end.",
             kDatums,
             "kingpin points stand close together: 2 mm here is most of a degree of caster"}));
  lines.push_back(
      point({"kingpin_upper_left",
             "axle",
             {-6.6, 723.2, 540},
             kCareful,
             "Upper end of the kingpin's line: centre of the upper ball, or of the pin's upper "
             "end."}));
  return lines;
}

Lines tie_rod_points() {
  Lines lines;
  lines.push_back(
      point({"tie_rod_ball_left",
             "knuckle_left",
             {175, 765, 420},
             kTape,
             "Centre of the tie rod's ball in the steering arm. A rod ahead of the axle has x "
             "above 0, one behind it below 0."}));
  return lines;
}

Lines link_points() {
  Lines lines = as_they_are({"", "# The links that hold the axle fore-aft.", ""});
  lines.push_back(point({"lower_link_axle_left",
                         "axle",
                         {-40, 520, 400},
                         kTape,
                         "Lower link's axle end: centre of the bolt, in the middle of the eye."}));
  lines.push_back(point({"lower_link_frame_left",
                         "frame",
                         {-1090, 520, 290},
                         kTape,
                         "Lower link's frame end: centre of the bolt, in the middle of the eye."}));
  lines.push_back(point({"upper_link_axle",
                         "axle",
                         {-40, 250, 640},
                         kTape,
                         "Upper link's axle end: centre of the bolt, in the middle of the eye."}));
  lines.push_back(point({"upper_link_frame",
                         "frame",
                         {-1090, 250, 530},
                         kTape,
                         "Upper link's frame end: centre of the bolt, in the middle of the eye."}));
  return lines;
}

Lines cross_steer_gear_points(Accuracy of_the_ball) {
  Lines lines =
      as_they_are({"", "# Steering gear. On the left it has y above 0, on the right below.", ""});
  lines.push_back(point({"sector_shaft_low",
                         "frame",
                         {340, 430, 590},
                         kTape,
                         "Centre of the sector shaft at its lower end, at the pitman arm's nut."}));
  lines.push_back(
      point({"sector_shaft_high",
             "frame",
             {340, 430, 720},
             kTape,
             "A second point of the sector shaft's centre line, at the gear's upper cover."}));
  lines.push_back(point({"pitman_ball",
                         "pitman",
                         {175, 430, 600},
                         of_the_ball,
                         "Centre of the ball in the pitman arm, gear at its centre."}));
  return lines;
}

Lines push_pull_gear_points() {
  Lines lines = as_they_are({"", "# Steering gear, its sector shaft across the truck.", ""});
  lines.push_back(point({"sector_shaft_inner",
                         "frame",
                         {-620, 520, 680},
                         kTape,
                         "Centre of the sector shaft at its end towards the truck's middle."}));
  lines.push_back(point({"sector_shaft_outer",
                         "frame",
                         {-620, 640, 680},
                         kTape,
                         "Centre of the sector shaft at its outer end, at the pitman arm's nut."}));
  lines.push_back(point({"pitman_ball",
                         "pitman",
                         {-620, 610, 515},
                         kTape,
                         "Centre of the ball in the pitman arm, gear at its centre."}));
  return lines;
}

Lines kingpin_part() {
  return as_they_are({"", "[parts.kingpin_left]", "kind = \"kingpin\"",
                      "knuckle = \"knuckle_left\"", "lower = \"kingpin_lower_left\"",
                      "upper = \"kingpin_upper_left\"", "style = \"pin\" # or \"two balls\"",
                      "mirror = true"});
}

Lines tie_rod_part(bool as_body) {
  Lines lines = as_they_are({"", "[parts.tie_rod]", "kind = \"tie rod\"",
                             "ends = [\"tie_rod_ball_left\", \"tie_rod_ball_right\"]"});
  if (as_body) lines.push_back(FileLine{"body = true # other parts sit on it"});
  return lines;
}

Lines link_parts() {
  return as_they_are({"", "[parts.lower_link_left]", "kind = \"lower link\"",
                      "ends = [\"lower_link_frame_left\", \"lower_link_axle_left\"]",
                      "mirror = true", "", "[parts.upper_link]", "kind = \"upper link\"",
                      "ends = [\"upper_link_frame\", \"upper_link_axle\"]"});
}

Lines pitman_arm_part(const std::string& near, const std::string& far, const std::string& seen) {
  Lines lines = as_they_are({"", "[parts.pitman_arm]", "kind = \"pitman arm\""});
  lines.push_back(FileLine{fmt::format("axis = [\"{}\", \"{}\"]", near, far)});
  lines.push_back(key(
      "parts.pitman_arm", "turns", {Blank{BlankKind::word, 0, "clockwise"}},
      {"",
       fmt::format("Turn the steering wheel to the left and watch the pitman arm {}: does it turn "
                   "\"clockwise\" or \"anticlockwise\"? Write the word, in quotes.",
                   seen),
       "the arm, by eye",
       kBySight,
       {"turns"},
       false,
       "",
       true}));
  return lines;
}

Lines wheel_lines() {
  Lines lines = as_they_are({"", "[wheels]", "centre_left = \"wheel_centre_left\"",
                             "centre_right = \"wheel_centre_right\""});
  lines.push_back(key("wheels", "loaded_radius", {length(462)},
                      {"",
                       "Floor to the wheel's centre, the truck standing on its tyres at the "
                       "pressure it drives with. In the file: the mean of left and right.",
                       "floor",
                       kTape,
                       {"left", "right"}}));
  lines.push_back(key("wheels", "section", {length(318)},
                      {"",
                       "Width of the tyre at its widest, above the bulge at the floor.",
                       "the tyre's side walls",
                       kTape,
                       {"section"}}));
  lines.push_back(key(
      "wheels", "toe_in", {angle(0)},
      {"",
       "Total toe of both wheels in degrees, wheels closer together in front positive. From two "
       "lengths: (behind less ahead) / (distance between the two places) x 57.3.",
       "wheel rims, at hub height",
       kAngleGauge,
       {"ahead", "behind", "toe"}}));
  lines.push_back(key("wheels", "camber", {angle(0)},
                      {"",
                       "Camber of each wheel, top out positive, gauge upright against the rim. In "
                       "the file: the mean of left and right.",
                       "level floor",
                       kAngleGauge,
                       {"left", "right"}}));
  return lines;
}

Lines gear_lines() {
  Lines lines = as_they_are({"", "[gear]"});
  lines.push_back(key("gear", "ratio", {Blank{BlankKind::plain, 16, ""}},
                      {"",
                       "Steering wheel's turn for one turn of the pitman arm. Angle gauge on the "
                       "arm, half a turn of the wheel either side of centre: 360 / (the arm's turn "
                       "in degrees); or as the gear's maker says.",
                       "gear at its centre",
                       kRatio,
                       {"arm's turn", "ratio"}}));
  for (const char* side : {"left", "right"})
    lines.push_back(key("gear", fmt::format("stop_{}", side), {turns(1.9)},
                        {"",
                         fmt::format("Turns of the steering wheel from the gear's centre to the "
                                     "gear's own stop on the {}, the drag link taken off so that "
                                     "no axle stop is met first; written as \"1.9 turns\".",
                                     side),
                         "gear at its centre",
                         kSteeringWheel,
                         {"turns"}}));
  return lines;
}

Lines axle_stop_lines() {
  Lines lines =
      as_they_are({"", "# How far the left knuckle turns on the axle until it meets its stop.",
                   "[axle_stops]"});
  struct Side {
    const char* name;
    double example;
  };
  for (const Side& side : {Side{"left", 36}, Side{"right", 34}})
    lines.push_back(
        key("axle_stops", fmt::format("turn_{}", side.name), {angle(side.example)},
            {"",
             fmt::format("Turn of the left wheel from straight ahead to its axle stop, to the {}; "
                         "turn plates, drag link off.",
                         side.name),
             "straight ahead",
             kTurnPlate,
             {"turn"}}));
  return lines;
}

Lines travel_lines() {
  Lines lines =
      as_they_are({"", "# Without this section no travel over bumps is looked at.", "[travel]"});
  lines.push_back(key("travel", "bump", {length(90)},
                      {"",
                       "How far the axle can go up in the frame from the height setting until it "
                       "comes to the bump stop's end.",
                       "axle to bump stop",
                       kBumpStops,
                       {"left", "right"}}));
  lines.push_back(key("travel", "droop", {length(110)},
                      {"",
                       "How far the axle can go down in the frame from the height setting until "
                       "strap or damper stops it. Last of all: the frame is lifted for it.",
                       "axle to frame",
                       kBumpStops,
                       {"left", "right"}}));
  add(lines,
      as_they_are({"# or \"fixed in truck\": stop and strap sit in the truck, height uses them up",
                   "kind = \"about every height\""}));
  return lines;
}

Lines limit_lines() {
  return as_they_are(
      {"",
       "# What the shop asks of the truck: yours to change, to add to or to take away.",
       "[limits.wheel_off_centre]",
       "quantity = \"steering_wheel_off_centre\"",
       "min = \"-5 deg\"",
       "max = \"5 deg\"",
       "",
       "[limits.bump_steer]",
       "quantity = \"bump_steer\"",
       "min = \"-0.1 deg\"",
       "max = \"0.1 deg\"",
       "",
       "[limits.lean_steer]",
       "quantity = \"lean_steer\"",
       "min = -0.1",
       "max = 0.1",
       "",
       "[limits.caster]",
       "quantity = \"caster_left\"",
       "min = \"3 deg\"",
       "max = \"9 deg\"",
       "",
       "[limits.walk]",
       "quantity = \"axle_walk_side\"",
       "min = \"-10 mm\"",
       "max = \"10 mm\""});
}

Lines track_bar_points(const Place& on_frame, const Place& on_axle) {
  Lines lines = as_they_are({"", "# Track bar.", ""});
  lines.push_back(point({"track_bar_frame", "frame", on_frame, kTape,
                         "Track bar's frame end: centre of the bolt or ball, in the middle of the "
                         "eye."}));
  lines.push_back(point({"track_bar_axle", "axle", on_axle, kTape,
                         "Track bar's axle end: centre of the bolt or ball, in the middle of the "
                         "eye."}));
  return lines;
}

Lines drag_link_end(PointForm form) {
  Lines lines = as_they_are({"", "# Drag link.", ""});
  lines.push_back(point(std::move(form)));
  return lines;
}

Lines sleeved_bar(const std::string& name, const std::string& kind, const std::string& from,
                  const std::string& to, double length_mm) {
  Lines lines = as_they_are({""});
  lines.push_back(FileLine{fmt::format("[parts.{}]", name)});
  lines.push_back(FileLine{fmt::format("kind = \"{}\"", kind)});
  lines.push_back(FileLine{fmt::format("ends = [\"{}\", \"{}\"]", from, to)});
  const std::string section = "parts." + name;
  lines.push_back(key(section, "length", {length(length_mm)},
                      {"",
                       fmt::format("The {} from ball centre to ball centre, by the tape along it. "
                                   "It must agree with its two points: `check` says if not.",
                                   kind),
                       "ball centres",
                       kTape,
                       {"length"}}));
  lines.push_back(key(section, "sleeve", {length(3.175)},
                      {"",
                       fmt::format("How much longer one turn of the {}'s sleeve makes it: the "
                                   "pitches of its two ends together.",
                                   kind),
                       "thread gauge, or turn it ten times",
                       kThread,
                       {"per turn"}}));
  return lines;
}

Lines drag_link_part(const std::string& end, double length_mm) {
  return sleeved_bar("drag_link", "drag link", "pitman_ball", end, length_mm);
}

Lines track_bar_part(double length_mm) {
  return sleeved_bar("track_bar", "track bar", "track_bar_frame", "track_bar_axle", length_mm);
}

Lines keeper_part() {
  return as_they_are(
      {"", "# Take this away if nothing keeps the tie rod's bracket from turning over.",
       "[parts.keeper]", "kind = \"keeper\"", "holds = \"tie_rod\"", "against = \"axle\""});
}

}  // namespace axlewright
