#pragma once

#include <vector>

#include "engine/sheet/silhouette.h"

namespace axlewright {

/// How a stretch of an edge is seen.
///   visible  nothing in front of it
///   hidden   behind another part
///   merged   within the outline of its own part: there is no edge
enum class Seen { visible, hidden, merged };

/// A part of a curve that is seen in one way.
struct Stretch {
  double from = 0, to = 1;  ///< shares of the curve
  Seen seen = Seen::visible;
};

/// Cuts an edge of `silhouettes[own]` where what is in front of it begins and ends. `adjacent` silhouettes hide nothing.
/// Found by sampling and halving: what is narrower than a sample's distance (20 mm) may be missed.
std::vector<Stretch> stretches_of(const Curve& curve, std::size_t own,
                                  const std::vector<Silhouette>& silhouettes);

}  // namespace axlewright
