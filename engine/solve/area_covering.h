#pragma once

#include "engine/base/progress.h"
#include "engine/solve/covering.h"

// A proof over an area of inputs: a parallelogram is covered by strips (covering.h) side by side.
//
// A *spine*, itself a covered path, runs across the area; from the middle of each strip's width a strip runs to both ends of
// the area. Where it starts, a strip's poses are the spine's: they are at the middle, and stay so across the width by the argument of covering.h.
// So on the line in which two strips touch both have the pose of the spine where it crosses that line, and then, by the same
// argument, the same poses all along it. Where the balls have no room for a strip's width it goes on as two of half the width, from
// the ends of a covered path across: by the same argument again they have its poses where they start, and each other's where they touch. The
// poses of the whole area make one smooth sheet: whichever way the inputs take within the area, each of its places has its
// one pose, joined to as measured.

namespace axlewright {

/// Inputs origin + a along + b across, 0 <= a, b <= 1. `spine` is the a of the spine.
struct InputArea {
  std::vector<double> origin, along, across;
  double spine = 0;
};

/// How far a proof over an area went.
struct AreaCovering {
  bool complete = false;
  bool cancelled = false;
  int strips = 0;                                ///< covered whole
  int steps = 0;                                 ///< balls, of strips given up too
  double smallest_radius = 0, largest_h = 0;     ///< as Covering has them, of what is covered
  std::string stopped_by;                        ///< as Covering has it
  double stopped_along = 0, stopped_across = 0;  ///< a and b where it stopped
};

/// Covers an area, going on from where a proof stands: first in a straight line to the spine's end at b = 0. Progress is told with each
/// strip.
AreaCovering cover_area(BranchProof from, const InputArea& area, const Progress& progress = {});

}  // namespace axlewright
