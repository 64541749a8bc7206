#pragma once

#include <vector>

#include "engine/mechanism/mechanism.h"
#include "engine/solve/assembly.h"
#include "tests/oracle/simbody_oracle.h"

// A mechanism told to the second solver: joint by joint from its own description, with nothing of our tree or equations.

namespace axlewright::oracle {

/// Labels: joints first, by JointId; then the held inputs; then the gauges.
struct Restated {
  Problem problem;
  int first_input = 0;
  int first_gauge = 0;
};

struct HeldInput {
  InputId input{};
  double value = 0;  ///< absolute [m, rad]
};

/// The mechanism with some inputs held: coordinates and turns; a mean heading is not among what it knows. The spin gauges of
/// an assembly are taken over, since where an idle spin stands is by agreement.
Restated restate(const Mechanism& mechanism, const std::vector<HeldInput>& held,
                 const Assembly& gauges_of);

Triple triple(const Vec3& v);
Vec3 vec3(const Triple& v);
Pose pose_of(const Placement& placement);
Placement placement_of(const Pose& pose);

}  // namespace axlewright::oracle
