#pragma once

#include <string>
#include <vector>

#include "engine/study/rig.h"

namespace axlewright {

/// How far one input may go before the mechanism binds (definition 17), beyond what the truck file asks of it.
struct Margin {
  std::string input;  ///< "height, up", "lean, left side up", "steering, to the left"
  bool is_angle = false;
  double asked = 0;    ///< where the truck's range ends [m, rad]
  double end = 0;      ///< where the mechanism ends, or the search [m, rad]
  bool binds = false;  ///< false: nothing ends within the search
  std::string what_ran_out;
  double margin() const { return end - asked; }  ///< signed along the input
};

/// Margins of height (both ways, straight ahead), lean (both ways, at both ends of the height range; the worse is given) and steering
/// (both ways, at both ends of the height range; the worse is given).
std::vector<Margin> find_margins(Rig& rig);

}  // namespace axlewright
