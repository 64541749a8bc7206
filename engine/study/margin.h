#pragma once

#include <string>
#include <vector>

#include "engine/base/pieces.h"
#include "engine/base/progress.h"
#include "engine/study/rig.h"

namespace axlewright {

/// What ends an input's way.
enum class WayEnd {
  search,  ///< nothing did as far as was looked
  bind,    ///< a limit point: the mechanism cannot follow
  dead_centre  ///< the road wheels stop answering the steering wheel, while the mechanism itself still moves
};

/// How far one input may go before the mechanism binds (definition 17), beyond what the truck file asks of it.
struct Margin {
  std::string input;  ///< "height, up", "lean, left side up", "steering, to the left"
  bool is_angle = false;
  double way = 1;    ///< +1 or -1: the sense in which the input goes
  double asked = 0;  ///< where the truck's range ends [m, rad]
  double end = 0;    ///< where the mechanism ends, or the search [m, rad]
  WayEnd by = WayEnd::search;
  std::string what_ran_out, how_it_ran_out;  ///< as SolveReport has them
  /// What is left beyond what is asked; negative where the end comes before that.
  double margin() const { return way * (end - asked); }
};

/// Margins of height (both ways, straight ahead), lean (both ways, at both ends of the height range; the worse is given) and steering
/// (both ways, at both ends of the height range; the worse is given). Steering is followed from the steering wheel: a dead centre of the
/// other direction, where the road wheels cannot drive the pitman arm, is a bind of this one. Each search is a piece of work, with a copy of the
/// rig. Empty if it was cancelled.
std::vector<Margin> find_margins(const Rig& rig, const ForEach& for_each = one_by_one,
                                 const Progress& progress = {});

}  // namespace axlewright
