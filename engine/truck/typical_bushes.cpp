#include "engine/truck/typical_bushes.h"

#include <algorithm>

#include "engine/base/invariant.h"
#include "engine/base/units.h"

namespace axlewright {

const std::vector<TypicalBush>& typical_bushes() {
  constexpr double kPerMm = 1e6;                     // kN/mm in N/m
  constexpr double kPerDeg = 1 / kRadiansPerDegree;  // N m/deg in N m/rad
  static const std::vector<TypicalBush> kinds = {
      {"link end", 10 * kPerMm, 1.5 * kPerMm, 10 * kPerDeg, 2 * kPerDeg},
      {"radius arm at axle", 15 * kPerMm, 2.5 * kPerMm, 25 * kPerDeg, 6 * kPerDeg},
      {"radius arm at frame", 6 * kPerMm, 3 * kPerMm, 12 * kPerDeg, 4 * kPerDeg},
      {"leaf eye", 12 * kPerMm, 2.5 * kPerMm, 20 * kPerDeg, 4 * kPerDeg},
  };
  return kinds;
}

const TypicalBush& typical_bush(const std::string& kind) {
  const std::vector<TypicalBush>& kinds = typical_bushes();
  const auto found = std::find_if(kinds.begin(), kinds.end(),
                                  [&](const TypicalBush& bush) { return bush.kind == kind; });
  AXLEWRIGHT_INVARIANT(found != kinds.end());
  return *found;
}

}  // namespace axlewright
