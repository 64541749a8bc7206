#include "engine/truck/quantity_keys.h"

namespace axlewright {

const std::vector<QuantityKey>& known_quantities() {
  static const std::vector<QuantityKey> quantities{
      {"reach", QuantityUnit::none},
      {"steering_wheel", QuantityUnit::angle},
      {"steering_wheel_off_centre", QuantityUnit::angle},
      {"pitman_angle", QuantityUnit::angle},
      {"mean_steer", QuantityUnit::angle},
      {"steer_left", QuantityUnit::angle},
      {"steer_right", QuantityUnit::angle},
      {"toe", QuantityUnit::angle},
      {"camber_left", QuantityUnit::angle},
      {"camber_right", QuantityUnit::angle},
      {"caster_left", QuantityUnit::angle},
      {"caster_right", QuantityUnit::angle},
      {"kingpin_inclination_left", QuantityUnit::angle},
      {"kingpin_inclination_right", QuantityUnit::angle},
      {"axle_caster_left", QuantityUnit::angle},
      {"axle_caster_right", QuantityUnit::angle},
      {"axle_kingpin_inclination_left", QuantityUnit::angle},
      {"axle_kingpin_inclination_right", QuantityUnit::angle},
      {"scrub_radius_left", QuantityUnit::length},
      {"scrub_radius_right", QuantityUnit::length},
      {"trail_left", QuantityUnit::length},
      {"trail_right", QuantityUnit::length},
      {"bump_steer", QuantityUnit::angle_per_bump},
      {"bump_steer_left", QuantityUnit::angle_per_bump},
      {"bump_steer_right", QuantityUnit::angle_per_bump},
      {"one_wheel_bump_steer_left", QuantityUnit::angle_per_bump},
      {"one_wheel_bump_steer_right", QuantityUnit::angle_per_bump},
      {"lean_steer", QuantityUnit::angle_per_angle},
      {"roll_centre_height", QuantityUnit::length},
      {"axle_walk_side", QuantityUnit::length},
      {"axle_walk_forward", QuantityUnit::length},
      {"axle_yaw", QuantityUnit::angle},
      {"pinion_angle", QuantityUnit::angle},
      {"steering_ratio", QuantityUnit::ratio},
      {"ackermann_error", QuantityUnit::angle},
      {"pad_left", QuantityUnit::length},
      {"pad_right", QuantityUnit::length},
      {"rear_walk_side", QuantityUnit::length},
      {"rear_walk_forward", QuantityUnit::length},
      {"thrust_angle", QuantityUnit::angle},
      {"rear_lean_steer", QuantityUnit::angle_per_angle},
      {"parallel_miss", QuantityUnit::angle},
      {"length_miss", QuantityUnit::length},
      {"lock_to_lock_turns", QuantityUnit::turns},
      {"turning_circle_left", QuantityUnit::length},
      {"turning_circle_right", QuantityUnit::length},
      {"ackermann_error_left", QuantityUnit::angle},
      {"ackermann_error_right", QuantityUnit::angle},
      {"length.", QuantityUnit::length},
      {"front_angle.", QuantityUnit::angle},
      {"side_angle.", QuantityUnit::angle},
      {"tilt.", QuantityUnit::angle},
      {"slide.", QuantityUnit::length},
      {"half_link_angle.", QuantityUnit::angle},
      {"near_end_offset.", QuantityUnit::length},
      {"turn.", QuantityUnit::angle},
      {"spin.", QuantityUnit::angle},
  };
  return quantities;
}

const QuantityKey* find_quantity(const std::string& quantity, std::string& subject) {
  const std::size_t dot = quantity.find('.');
  const std::string head = dot == std::string::npos ? quantity : quantity.substr(0, dot + 1);
  subject = dot == std::string::npos ? "" : quantity.substr(dot + 1);
  for (const QuantityKey& known : known_quantities()) {
    if (head == known.key) return &known;
  }
  return nullptr;
}

}  // namespace axlewright
