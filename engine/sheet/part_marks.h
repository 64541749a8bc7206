#pragma once

#include <string>
#include <vector>

#include "engine/sheet/pen.h"
#include "engine/truck/truck.h"

namespace axlewright {

/// A part named on a sheet: its number, its words.
struct PartMark {
  int number = 0;
  std::string part, words;
};

/// A view on a sheet, and the height of the row over it where its marks stand [m of paper].
///   both_sides  it shows the left and the right of a pair apart
struct MarkedView {
  const Drawing* drawing = nullptr;
  double row = 0;
  double left = 0, right = 0;
  bool both_sides = true;
};

/// Gives every part a number, in a circle over the view that shows most of it (one of a pair: that shows it apart from the other), with an arrow to it. In the order of the marks: from
/// view to view, left to right.
std::vector<PartMark> mark_parts(const std::vector<MarkedView>& views, const Truck& truck,
                                 Pen& pen);

}  // namespace axlewright
