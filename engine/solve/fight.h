#pragma once

#include <string>
#include <vector>

#include "engine/mechanism/mechanism.h"

// Closures that fight: more of them than the parts have freedom, and not in agreement, so that rigid parts cannot go there. What has
// to give is told as the gap at a joint if that one alone were left open.

namespace axlewright {

/// One joint of those that fight.
///   gap       by how much its halves would miss each other with every other joint closed as well as can be [m], or of a joint
///             that only holds a direction [rad]
struct JointGap {
  JointId joint{};
  double gap = 0;
  bool is_angle = false;
};

/// The same mechanism without give: a bush is a ball, or a pin where it says so (Bush::stiff_as_pin).
Mechanism rigid_of(const Mechanism& mechanism);

/// The joints that fight when a mechanism without bushes is brought from as measured to the given values of its held inputs: the
/// smallest gap first, those that hardly take part left out. Empty where everything closes.
/// Method: least squares over all closures (angles at kAngleLength), in steps from as measured; what is left over tells who takes part.
/// Then each of these is left open in turn and the rest closed anew, as well as it can be where more than one thing fights.
std::vector<JointGap> find_fight(const Mechanism& rigid, const std::vector<InputId>& held,
                                 const std::vector<double>& inputs);

/// The inputs of a mechanism as measured.
std::vector<double> measured_inputs(const Mechanism& mechanism);

}  // namespace axlewright
