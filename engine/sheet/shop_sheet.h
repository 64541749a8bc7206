#pragma once

#include <string>
#include <vector>

#include "engine/sheet/view.h"

namespace axlewright {

/// A size of paper, wider than high [m].
struct PaperSize {
  const char* name;
  Vec2 size;
};
const std::vector<PaperSize>& paper_sizes();

/// What a sheet says besides its drawing.
///   inches   dimensions in inches, not in mm
///   place    the pose in words
///   notes    sentences over the title block: where the pose asked for could not be had
///   cautions the sentences that every sheet carries
struct SheetPlan {
  PaperSize paper{"A3", Vec2(0.42, 0.297)};
  bool inches = false;
  std::string place;
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
};

/// Front, side and top view in third-angle projection (ISO 5456-2) with centre lines, hidden edges, dimensions, numbered parts
/// and a title block.
Drawing compose_sheet(const DrawnTruck& drawn, const SheetPlan& plan);

}  // namespace axlewright
