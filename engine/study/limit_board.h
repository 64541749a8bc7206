#pragma once

#include <optional>
#include <vector>

#include "engine/study/height_notes.h"
#include "engine/study/sweep.h"

namespace axlewright {

/// Holds what is seen to the limits of the truck's file. Of several worst places the first that was taken counts.
class LimitBoard {
 public:
  LimitBoard(const Truck& truck, const std::vector<QuantityInfo>& infos);

  /// A turned pose counts for every limit over the grid, a straight one for those of its own kind.
  void take(const NotedPose& note);

  /// Limits on what a lock tells, at one height.
  void take(const Lock& lock, const PoseRequest& at_height);

  /// In the order of the file.
  std::vector<LimitResult> results() const;

 private:
  struct Judged {
    LimitResult result;
    std::vector<int> quantities;        ///< all that the key names: the worst counts
    std::optional<PoseRequest> missed;  ///< the first pose without its quantity
  };

  static void judge_reach(LimitResult& result, const PoseResult& pose);
  static void judge(Judged& judged, double value, int quantity, const PoseRequest& where);

  std::vector<Judged> judged_;
};

}  // namespace axlewright
