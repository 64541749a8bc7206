#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/study/rig.h"

namespace axlewright {

/// What to turn on one bar so that steering wheel and axle are centred at a height.
struct Adjustment {
  std::string bar, words;
  double length_now = 0, length_then = 0;  ///< centre to centre [m]
  double sleeve = 0;  ///< change of length per turn [m]; 0 if the file gives none
  std::optional<double> turns() const {
    return sleeve > 0 ? std::optional<double>((length_then - length_now) / sleeve) : std::nullopt;
  }
};

/// What the new lengths do at another height: told from the frame's middle and the gear's centre.
struct SetupRow {
  double height = 0;
  SolveReport report;
  double wheel_before = 0,
         wheel_after = 0;  ///< steering-wheel angle from the gear's centre, going straight [rad]
  double walk_before = 0, walk_after = 0;  ///< axle's middle from y = 0, left positive [m]
};

/// What centres the steering wheel and the axle at a height, and what the truck then does at the others.
struct Setup {
  double height = 0;
  bool found = false;
  std::string message;                   ///< why not
  double wheel_left = 0, walk_left = 0;  ///< what no length could centre at `height` [rad, m]
  std::vector<Adjustment> adjustments;
  std::vector<SetupRow> rows;
};

/// The drag-link and track-bar lengths that put the steering wheel at the gear's centre and the axle's middle on y = 0, going
/// straight at `height`; by Newton on the two lengths. A truck without one of the bars has only the other adjusted; what is then left
/// off centre is told.
Setup find_setup(const Truck& truck, double height, const std::vector<double>& heights);

}  // namespace axlewright
