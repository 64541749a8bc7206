#include "engine/ask/height_quantities.h"

namespace axlewright {

const QuantityInfo& held_steer_info() {
  static const QuantityInfo info{"held_steer", "steer with the wheel held", QuantityUnit::angle,
                                 "to the left", "to the right"};
  return info;
}

const QuantityInfo& bump_sweep_info() {
  static const QuantityInfo info{"bump_sweep", "largest steer over the travel", QuantityUnit::angle,
                                 "to the left", "to the right"};
  return info;
}

}  // namespace axlewright
