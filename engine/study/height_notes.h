#pragma once

#include <vector>

#include "engine/study/lock.h"
#include "engine/study/rig.h"
#include "engine/study/sweep.h"

// What a sweep sees at one height. It hangs on the truck, the plan and the height alone, so heights may be looked at in any order, and
// several at once with a rig for each; a sweep makes its findings of the notes in the order of the heights.

namespace axlewright {

/// Values that differ by less are the same (SI): a band may be a single value, and of several worst places the first one
/// counts, whatever a compiler's rounding makes of them.
inline constexpr double kSameValue = 1e-9;

/// How the steering wheel stands in a pose of the grid.
enum class Wheel { rolling, held, turned };

/// What the steering wheel is at going straight is no finding where the wheel itself was set.
bool is_told_of(Wheel wheel, int quantity);

/// A pose of the plan, or why it cannot be had.
struct NotedPose {
  PoseResult pose;
  bool on_height_line = false;  ///< no travel, no lean, not steered
  Wheel wheel = Wheel::rolling;
};

/// Going straight at a height, and with the wheel held.
struct HeightLineNotes {
  HeightRow row;
  std::vector<NotedPose> poses;
};
HeightLineNotes look_along_line(Rig& rig, const SweepPlan& plan, double height);

/// The grid of a height: travel x lean, rolling and held, and with the wheel turned; and how far it can be turned.
struct HeightGridNotes {
  Lock lock;
  std::vector<NotedPose> poses;
};
HeightGridNotes look_over_grid(Rig& rig, const SweepPlan& plan, double height);

/// One height of the plan, travel and lean zero, going straight.
PoseRequest straight_at(const SweepPlan& plan, double height);

}  // namespace axlewright
