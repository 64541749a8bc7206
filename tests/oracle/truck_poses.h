#pragma once

#include <string>
#include <vector>

#include "engine/solve/follower.h"
#include "engine/truck/expand.h"

// Poses of a truck that tests put to both solvers.

namespace axlewright::oracle {

/// Heights from as measured, positive as the frame rises; lean positive as its left side lifts (definition 1).
struct Corner {
  double height, lean, pitman;  // [m, rad, rad]
};

/// Inputs of the follower's mechanism there.
std::vector<double> inputs_at(const Expansion& x, const PathFollower& follower, const Corner& at);

/// 27 poses (height x lean x steering) over a share of the truck's ranges, which are told from as measured.
std::vector<Corner> corners(const Truck& truck, double share);

std::string words_for(const Corner& at);

/// Both heights and the pitman arm's turn.
std::vector<InputId> held_of(const Expansion& x);

/// The share of its ranges that the truck itself can go over. Some layouts reach their ends before: then a share that leaves
/// room for the moved points.
double share_within_reach(const Truck& truck);

}  // namespace axlewright::oracle
