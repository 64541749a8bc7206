#pragma once

#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "engine/truck/read.h"

// A small truck with one of everything, for tests to change one word of. Invented numbers.

namespace axlewright::sample {

inline constexpr const char* kTruck = R"(# Every kind of entry once.
format = 1
units = "mm"
name = "Sample"

[truck]
wheelbase = 4060
height_range = [-110, 125]
aligned_height = 10
lean = 5
tolerance = 3

[points]
wheel_left = { on = "axle", at = [0, 875, 470], mirror = true }
kingpin_low_left = { on = "axle", at = [20, 700, 380], mirror = true }
kingpin_high_left = { on = "axle", at = [-10, 670, 560], mirror = true }
tie_rod_left = { on = "knuckle_left", at = [-150, 650, 400], mirror = true }
bar_frame = { on = "frame", at = [150, 450, 620] }
bar_axle = { on = "axle", at = [150, -450, 520], plus_minus = "2 mm" }
lower_axle_left = { on = "axle", at = [-50, 450, 400], mirror = true }
lower_frame_left = { on = "frame", at = [-950, 450, "18 3/4 in"], mirror = true }
sector_low = { on = "frame", at = [400, 500, 700] }
sector_high = { on = "frame", at = [400, 500, 800] }
steer_near = { on = "pitman", at = [230, 480, 600] }
steer_pivot = { on = "tie_rod", at = [-150, 200, 400] }
steer_inner = { on = "tie_rod", at = [-150, 0, 400] }
steer_outer = { on = "tie_rod", at = [-150, -400, 400] }
steer_middle = { on = "steer_through", at = [40, 90, 500] }
steer_end = { on = "steer_through", at = [-150, -300, 400] }
crank_pivot = { on = "frame", at = [600, 0, 500] }
crank_end = { on = "bell_crank", at = [600, 100, 600] }
crank_stop = { on = "frame", at = [900, 100, 600] }
rail_low = { on = "frame", at = [1000, 0, 400] }
rail_high = { on = "frame", at = [1000, 0, 800] }
shoe = { on = "slider", at = [1000, 0, 500] }
pad = { on = "axle", at = [100, 300, 480] }

[bodies.bell_crank]
[bodies.slider]
words = "sliding shoe"

[parts.kingpin_left]
kind = "kingpin"
knuckle = "knuckle_left"
lower = "kingpin_low_left"
upper = "kingpin_high_left"
style = "two balls"
mirror = true

[parts.tie_rod]
kind = "tie rod"
ends = ["tie_rod_left", "tie_rod_right"]
body = true

[parts.bar]
kind = "track bar"
ends = ["bar_frame", "bar_axle"]
length = "905.5 mm"
sleeve = 1.5

[parts.lower_left]
kind = "lower link"
words = "lower link, left"
ends = ["lower_frame_left", "lower_axle_left"]
mirror = true

[parts.pitman_arm]
kind = "pitman arm"
axis = ["sector_low", "sector_high"]
turns = "clockwise"

[parts.steer]
kind = "guided bar"
near_end = "steer_near"
guide_end = "steer_end"
middle = "steer_middle"
pivot = "steer_pivot"
guide = ["steer_inner", "steer_outer"]
half_link = "pinned body"
carries = "tie_rod"
near_end_on = "pitman"

[parts.bracket]
kind = "clamp"
body = "bracket"
to = "tie_rod"

[parts.keeper]
kind = "keeper"
holds = "tie_rod"
against = "axle"

[joints.crank_pin]
kind = "pin"
between = ["frame", "bell_crank"]
at = "crank_pivot"
axis = [1, 0, 0]

[joints.crank_bar]
kind = "distance"
between = ["frame", "bell_crank"]
ends = ["crank_stop", "crank_end"]
length = 300

[joints.rail]
kind = "point on line"
between = ["frame", "slider"]
point = "shoe"
line = ["rail_low", "rail_high"]

[joints.ball]
kind = "ball"
between = ["slider", "axle"]
at = "pad"

[joints.square]
kind = "perpendicular"
between = ["frame", "slider"]
first = ["rail_low", "rail_high"]
second = [1, 0, 0]

[studs.tie_rod_left]
ball = "tie_rod_left"
on = "knuckle_left"
axis = [0, 0, 1]
largest_tilt = 25
mirror = true

[wheels]
centre_left = "wheel_left"
centre_right = "wheel_right"
loaded_radius = 470
section = "12.5 in"
toe_in = "0 deg 6 min"

[gear]
ratio_table = [[0, 16.0], [360, 13.5]]
stop_left = "2 turns"
stop_right = 720

[axle_stops]
turn_left = 35
turn_right = 33

[travel]
bump = 90
droop = 110

[limits.off_centre]
quantity = "steering_wheel_off_centre"
min = -3
max = 3

[limits.bar_tilt]
quantity = "tilt.bar_axle"
max = "20 deg"
over = "grid"
wheel = "held"
)";

/// The text with the first `from` changed into `to`; the text as it is if `from` is empty.
inline std::string changed_in(std::string text, const std::string& from, const std::string& to) {
  if (from.empty()) return text;
  const std::size_t at = text.find(from);
  return at == std::string::npos ? "the sample has no: " + from : text.replace(at, from.size(), to);
}

inline std::string changed(const std::string& from, const std::string& to) {
  return changed_in(kTruck, from, to);
}

/// Serves texts by path.
inline TextOf serve(std::map<std::string, std::string> files) {
  return [files =
              std::move(files)](const std::string& path) -> tl::expected<std::string, std::string> {
    const auto found = files.find(path);
    if (found == files.end()) return tl::unexpected<std::string>("no such file");
    return found->second;
  };
}

inline Result<Truck> read(const std::string& text, const std::vector<Setting>& settings = {}) {
  return read_truck("truck.toml", serve({{"truck.toml", text}}), settings);
}

}  // namespace axlewright::sample
