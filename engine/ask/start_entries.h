#pragma once

#include <string>

#include "engine/ask/start_lines.h"

// What truck files to fill in are made of: points, parts and sections in trade words, with what to measure for each and the numbers of
// an invented truck. Each function gives whole blocks of lines.

namespace axlewright {

/// [truck]
Lines head_lines();

/// [points] with its heading, and what every truck has.
Lines wheel_and_kingpin_points();
Lines tie_rod_points();
Lines link_points();
/// Gear with an upright sector shaft, its arm swinging across the truck.
Lines cross_steer_gear_points(Accuracy of_the_ball);
/// Gear with its sector shaft across the truck, its arm swinging fore-aft.
Lines push_pull_gear_points();
Lines drag_link_end(PointForm form);
Lines track_bar_points(const Place& on_frame, const Place& on_axle);
Lines steering_guide_points();
Lines steering_rocker_points();
Lines locator_points();
Lines locator_rocker_points();

Lines kingpin_part();
/// `as_body`: other parts sit on it.
Lines tie_rod_part(bool as_body);
Lines link_parts();
/// A bar with a sleeve, whose length `setup` may turn.
Lines sleeved_bar(const std::string& name, const std::string& kind, const std::string& from,
                  const std::string& to, double length_mm);
Lines drag_link_part(const std::string& end, double length_mm);
Lines track_bar_part(double length_mm);
Lines guided_steering_part();
Lines guided_steering_on_rocker_part();
Lines locator_part();
Lines locator_on_rocker_part();
Lines keeper_part();

/// `near`, `far`: the points of the sector shaft; how the arm turns is told looking `seen`, with `far` towards the eye. The first thing
/// to be measured for which the steering wheel is turned.
Lines pitman_arm_part(const std::string& near, const std::string& far, const std::string& seen);

/// [wheels]
Lines wheel_lines();
/// [gear], [axle_stops] and [travel]
Lines gear_lines();
Lines axle_stop_lines();
Lines travel_lines();
/// [limits], the same for all.
Lines limit_lines();

}  // namespace axlewright
