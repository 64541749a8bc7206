#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/pieces.h"
#include "engine/base/progress.h"
#include "engine/study/lock.h"
#include "engine/study/margin.h"
#include "engine/study/rig.h"

namespace axlewright {

/// What is looked at. Empty lists are filled from the truck by sweep_plan().
struct SweepPlan {
  std::vector<double> heights;    ///< rising [m]
  std::vector<double> travels;    ///< share of the travel range, -1 (full droop) to 1 (full bump)
  std::vector<double> leans;      ///< [rad]
  std::vector<double> steerings;  ///< share of the lock at that height, -1 (right) to 1 (left)
  double rear_height = 0;         ///< at every height [m], unless
  bool rear_with_front = false;   ///< the rear is raised as much as the front
};

/// How high the rear stands when the front stands at a height [m].
double rear_height_at(const SweepPlan& plan, double height);

/// `count` heights over the truck's range, at least 2, and the grid that goes with its travel, lean and lock.
SweepPlan sweep_plan(const Truck& truck, int count);

/// Bump and droop travel at a height (definition 14) [m], both >= 0.
struct TravelRange {
  double bump = 0, droop = 0;
};
TravelRange travel_range(const Truck& truck, double height);

/// One height, travel and lean zero.
struct HeightRow {
  double height = 0;
  PoseResult rolling;  ///< going straight
  double smallest_singular_value =
      0;  ///< there, dimensionless: how far from binding (0 at a limit point)
  std::optional<double>
      held_steer;  ///< mean steer with the steering wheel held at its aligned angle [rad]; none without a pitman arm
  std::optional<double>
      bump_sweep;  ///< largest deviation of mean steer over the travel, wheel held from going straight here [rad]
};

/// Where a quantity is lowest or highest over a whole grid.
struct Extreme {
  double value = 0;
  PoseRequest where;
  bool found = false;
};

/// Memory does not grow with the poses that cannot be had.
inline constexpr std::size_t kRefusalsKept = 20;

/// A pose that cannot be had, and why.
struct Refusal {
  PoseRequest request;
  SolveReport report;
};

enum class Verdict {
  not_told,  ///< no pose of the plan has the quantity (Ackermann error where lock comes before 20 deg)
  met,
  broken,
  not_reached  ///< a pose where the limit holds cannot be had: its quantity is not known there
};

/// What became of one limit of the file.
struct LimitResult {
  Limit limit;
  int quantity = -1;  ///< -1 for `reach` and for what is told of a lock
  Verdict verdict = Verdict::not_told;
  double worst = 0;   ///< the value nearest to, or farthest beyond, the band [SI]
  double margin = 0;  ///< distance left to the band's edge, negative when broken [SI]
  PoseRequest where;
};

/// Everything that was seen on the way up.
struct Sweep {
  std::string truck;
  SweepPlan plan;
  std::vector<QuantityInfo> infos;
  double aligned_wheel = 0;
  std::vector<HeightRow> rows;
  std::vector<Extreme> lowest,
      highest;                    ///< by quantity, over the whole grid, wheel held and turned
  std::vector<Refusal> refusals;  ///< the first kRefusalsKept
  int refused = 0;                ///< all of them
  int poses = 0;                  ///< poses asked of the grid, the heights included
  Lock lock_low, lock_high;       ///< at the ends of the height range
  std::vector<Margin> margins;
  std::vector<LimitResult> limits;
  bool cancelled = false;  ///< then all this is of a part of the plan, and nothing to show
};

/// Raises the truck from bottom to top and looks at every pose of the plan.
/// Memory is in proportion to the number of heights, not of poses. Heights are pieces of work, each with a copy of the rig; no digit
/// hangs on how they are run. Progress is told once a height or more often.
Sweep run_sweep(const Rig& rig, SweepPlan plan, const Progress& progress = {},
                const ForEach& for_each = one_by_one);

}  // namespace axlewright
