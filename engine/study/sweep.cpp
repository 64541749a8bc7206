#include "engine/study/sweep.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/study/height_notes.h"
#include "engine/study/limit_board.h"

namespace axlewright {
namespace {

/// Notes are made into findings after so many heights, so that memory does not grow with the poses; few enough, and more than any
/// machine has cores to look at them.
constexpr std::size_t kHeightsAtOnce = 64;

// Shares of the progress: heights alone take a tenth of the time or so, and so do margins.
constexpr double kLinesDone = 0.1;
constexpr double kGridsDone = 0.9;

/// Makes findings of what is seen, in the order of the heights, whatever the order in which they were looked at.
class Sweeper {
 public:
  Sweeper(const Rig& rig, SweepPlan plan, const ForEach& for_each)
      : rig_(rig), for_each_(for_each), board_(rig.truck(), rig.quantities()) {
    sweep_.truck = rig.truck().name;
    sweep_.plan = std::move(plan);
    sweep_.infos = rig.quantities();
    sweep_.aligned_wheel = rig.aligned_wheel();
    sweep_.lowest.resize(sweep_.infos.size());
    sweep_.highest.resize(sweep_.infos.size());
  }

  Sweep run(const Progress& progress) {
    sweep_.cancelled = !(look_along_lines(part_of(progress, 0, kLinesDone)) &&
                         look_over_grids(part_of(progress, kLinesDone, kGridsDone)) &&
                         look_for_margins(part_of(progress, kGridsDone, 1)));
    sweep_.limits = board_.results();
    return std::move(sweep_);
  }

 private:
  bool look_along_lines(const Progress& progress) {
    const std::vector<double>& heights = sweep_.plan.heights;
    std::vector<HeightLineNotes> lines(heights.size());
    const auto look = [&](std::size_t k) {
      Rig rig = rig_;
      lines[k] = look_along_line(rig, sweep_.plan, heights[k]);
    };
    if (!for_each_(heights.size(), look, progress)) return false;
    for (HeightLineNotes& line : lines) {
      sweep_.rows.push_back(std::move(line.row));
      take(line.poses);
    }
    return true;
  }

  bool look_over_grids(const Progress& progress) {
    const std::size_t count = sweep_.plan.heights.size();
    const auto share = [&](std::size_t k) {
      return static_cast<double>(k) / static_cast<double>(count);
    };
    for (std::size_t first = 0; first < count; first += kHeightsAtOnce) {
      const std::size_t behind = std::min(first + kHeightsAtOnce, count);
      if (!look_over_grids(first, behind, part_of(progress, share(first), share(behind))))
        return false;
    }
    return true;
  }

  bool look_over_grids(std::size_t first, std::size_t behind, const Progress& progress) {
    const std::vector<double>& heights = sweep_.plan.heights;
    std::vector<HeightGridNotes> grids(behind - first);
    const auto look = [&](std::size_t k) {
      Rig rig = rig_;
      grids[k] = look_over_grid(rig, sweep_.plan, heights[first + k]);
    };
    if (!for_each_(grids.size(), look, progress)) return false;
    for (std::size_t k = 0; k < grids.size(); ++k) {
      take(grids[k].lock, first + k);
      take(grids[k].poses);
    }
    return true;
  }

  bool look_for_margins(const Progress& progress) {
    if (sweep_.plan.heights.size() < 2) return true;
    sweep_.margins = find_margins(rig_, for_each_, progress);
    return !sweep_.margins.empty();
  }

  /// Both locks, kept for the ends of the heights.
  void take(const Lock& lock, std::size_t at) {
    const std::vector<double>& heights = sweep_.plan.heights;
    board_.take(lock, straight_at(sweep_.plan, heights[at]));
    if (at == 0) sweep_.lock_low = lock;
    if (at + 1 == heights.size()) sweep_.lock_high = lock;
  }

  void take(const std::vector<NotedPose>& notes) {
    for (const NotedPose& note : notes) {
      ++sweep_.poses;
      board_.take(note);
      if (note.pose.report.usable()) {
        take_values(note);
        continue;
      }
      ++sweep_.refused;
      if (sweep_.refusals.size() < kRefusalsKept)
        sweep_.refusals.push_back({note.pose.request, note.pose.report});
    }
  }

  void take_values(const NotedPose& note) {
    const PoseResult& pose = note.pose;
    for (std::size_t k = 0; k < pose.values.size(); ++k) {
      const double value = pose.values[k];
      if (std::isnan(value) || !is_told_of(note.wheel, static_cast<int>(k))) continue;
      Extreme& low = sweep_.lowest[k];
      Extreme& high = sweep_.highest[k];
      if (!low.found || value < low.value - kSameValue) low = {value, pose.request, true};
      if (!high.found || value > high.value + kSameValue) high = {value, pose.request, true};
    }
  }

  const Rig& rig_;
  const ForEach& for_each_;
  LimitBoard board_;
  Sweep sweep_;
};

}  // namespace

double rear_height_at(const SweepPlan& plan, double height) {
  return plan.rear_with_front ? height : plan.rear_height;
}

TravelRange travel_range(const Truck& truck, double height) {
  const Travel& travel = truck.travel;
  if (!travel.fixed_in_truck) return {travel.bump, travel.droop};
  // Stop and strap sit in the truck: what raising adds to bump it takes from droop.
  const double raised = height - truck.aligned_height;
  return {std::max(0.0, travel.bump + raised), std::max(0.0, travel.droop - raised)};
}

SweepPlan sweep_plan(const Truck& truck, int count) {
  SweepPlan plan;
  const double low = truck.height_range[0], high = truck.height_range[1];
  for (int k = 0; k < count; ++k) plan.heights.push_back(low + (high - low) * k / (count - 1));
  plan.travels = {0, -0.5, -1, 0.5, 1};
  if (truck.travel.bump == 0 && truck.travel.droop == 0) plan.travels = {0};
  plan.leans = {0};
  if (truck.lean > 0) plan.leans = {0, -truck.lean / 2, -truck.lean, truck.lean / 2, truck.lean};
  plan.steerings = {0, -0.5, -1, 0.5, 1};
  return plan;
}

Sweep run_sweep(const Rig& rig, SweepPlan plan, const Progress& progress, const ForEach& for_each) {
  return Sweeper(rig, std::move(plan), for_each).run(progress);
}

}  // namespace axlewright
