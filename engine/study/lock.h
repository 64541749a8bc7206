#pragma once

#include <numbers>
#include <string>

#include "engine/study/rig.h"

namespace axlewright {

/// Steering one way from straight ahead to the first stop (definition 13).
struct LockSide {
  bool solved = false;   ///< the steered end is a pose; else nothing below but `stop` counts
  bool reached = false;  ///< a stop was met
  std::string stop;  ///< "gear stop", "left wheel's axle stop", or what ran out when none was met
  double steering_wheel = 0;    ///< from the gear's centre, signed [rad]
  double pitman = 0;            ///< signed [rad]
  double mean_steer = 0;        ///< signed [rad]
  double outer = 0, inner = 0;  ///< steer of outer and inner wheel, magnitudes [rad]
  double turning_circle = 0;    ///< diameter at the outer contact (definition 12) [m]
  double kerb_circle = 0;       ///< with the tyre's section [m]
  double ackermann_error = 0;   ///< at lock [rad]
  double ackermann_error_20 =
      0;                      ///< with the outer wheel at 20 deg; NaN where lock comes first [rad]
  double steering_ratio = 0;  ///< at lock
};

struct Lock {
  LockSide left, right;
  double turns() const {
    return (left.steering_wheel - right.steering_wheel) / (2 * std::numbers::pi);
  }
};

/// Both locks at a height, travel and lean zero.
Lock find_lock(Rig& rig, double height);

}  // namespace axlewright
