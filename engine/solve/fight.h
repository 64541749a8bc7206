#pragma once

#include <string>
#include <vector>

#include "engine/mechanism/mechanism.h"

// Closures that fight: more of them than the parts have freedom, and not in agreement, so that rigid parts cannot go there. What has
// to give is told as gaps at the joints that take part.

namespace axlewright {

/// One joint of those that fight.
///   gap       how far its halves are apart [m], or of a joint that only holds a direction [rad]
struct JointGap {
  JointId joint{};
  double gap = 0;
  bool is_angle = false;
};

/// What cannot all close.
///   one_opens  one closure is too many: with any of the joints left open all others close, and `gap` is how far it then is apart; the
///              smallest first. Else more than one thing fights: `gap` is how far each is apart where all are closed as well as can
///              be, in the sense of least squares with angles at kAngleLength; the largest first
struct Fight {
  bool one_opens = false;
  std::vector<JointGap>
      gaps;  ///< those that hardly take part left out; empty where everything closes
};

/// The same mechanism without give: a bush is a ball, or a pin where it says so (Bush::stiff_as_pin).
Mechanism rigid_of(const Mechanism& mechanism);

/// What fights when a mechanism without bushes is brought from as measured to the given values of its held inputs.
Fight find_fight(const Mechanism& rigid, const std::vector<InputId>& held,
                 const std::vector<double>& inputs);

}  // namespace axlewright
