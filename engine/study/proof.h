#pragma once

#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/study/rig.h"

// What is proved of a truck's range (definition 16): that every pose of it is there and joined to as measured, with no other way
// to put the parts together met on the way. A part that can turn about its own line is held as measured. How: engine/solve/covering.h and area_covering.h, which also tell what such a proof leaves out.
//
// Heights, travel and lean come down to two numbers, the rise of either wheel centre (definition 1). So an *area* of these two is all
// there is to cover of them: height - travel from the lowest height less its bump travel to the highest plus its droop travel, by the
// file's lean both ways. It is covered twice, going straight and with the steering wheel held; one wheel's travel is in it as far as it
// comes to such a pair. Rear height only pitches the road; a rear axle of its own is proved at the rear height as measured, in every lean.
// The steering wheel turned is a third number. There only *paths* are covered: from held to the stop on either side (to where the file
// asks the steering to go, LockSide::asked), without travel and lean, at the lowest, the middle and the highest height.

namespace axlewright {

/// One thing to prove.
struct ProofPart {
  enum class Of {
    straight_ahead,  ///< the area, going straight
    held,            ///< the area, the steering wheel at its aligned angle
    steering         ///< as far as the file asks both ways, at `height`
  };
  Of of = Of::straight_ahead;
  double height = 0;  ///< of the steering [m]
  bool complete = false;
  PoseRequest stopped_at;  ///< unless complete: one place that the proof does not get beyond
  std::string stopped_by;  ///< unless complete: a clause, "drag link and left knuckle run straight"
};

/// What the coverings of the truck's range prove.
struct RangeProof {
  /// `proved` if every part is; else `followed`, which is what the poses of all other answers are; `none` of a truck that cannot be posed.
  Certificate certificate = Certificate::none;
  bool cancelled = false;
  std::vector<ProofPart> parts;               ///< without a pitman arm: straight ahead alone
  int steps = 0;                              ///< balls of the coverings
  double smallest_radius = 0, largest_h = 0;  ///< as Covering has them
  bool rests_on_bushes =
      false;  ///< then nothing is proved: poses are places of rest, not closures alone
  bool holds_loose_parts =
      false;  ///< parts can turn about their own lines: proved only as measured
};

/// Proves what it can. The rig is left at the as-measured pose. Once cancelled no more is tried.
RangeProof prove_range(Rig& rig, const Progress& progress = {});

}  // namespace axlewright
