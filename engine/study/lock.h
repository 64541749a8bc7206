#pragma once

#include <numbers>
#include <string>

#include "engine/study/rig.h"

namespace axlewright {

/// Steering one way from straight ahead to the first stop (definition 13).
struct LockSide {
  bool solved = false;   ///< the steered end is a pose; else nothing below but `stop` and `asked`
  bool reached = false;  ///< a stop was met
  std::string stop;      ///< "gear stop", "left wheel's axle stop", or why none was met
  /// Where the file asks the steering to go, of the steering wheel, from the gear's centre, signed [rad]: to the stop that was met, or that lies behind. Where
  /// none could be: to the gear's stop, to the file's `steering` without one, just beyond where the linkage ran out without either.
  double asked = 0;
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

/// The steering at its ends, to the left and to the right.
struct Lock {
  LockSide left, right;
  double turns() const {
    return (left.steering_wheel - right.steering_wheel) / (2 * std::numbers::pi);
  }
};

/// Both locks at a height and rear height; the request's steering is not looked at, its travel and lean are zero. A truck without a pitman
/// arm has none: neither side is solved and nothing is asked of it.
Lock find_lock(Rig& rig, const PoseRequest& at);

/// How far the steering wheel may go each way, from the gear's centre [rad].
struct SteeringRange {
  double left = 0, right = 0;
};

/// What find_lock() tells in `asked`, at a pose beside one whose lock is known (the same height, another travel or lean): a few poses
/// instead of a search. Where nothing can be found, that of the lock known, so that poses asked up to it say why.
SteeringRange steering_range_beside(Rig& rig, const PoseRequest& at, const Lock& known);

}  // namespace axlewright
