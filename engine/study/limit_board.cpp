#include "engine/study/limit_board.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "engine/base/index.h"

namespace axlewright {
namespace {

constexpr const char* kReach = "reach";

struct LockValue {
  double value;
  const LockSide* side;  ///< that it is told of
};

/// What is told of a lock rather than of a pose; nothing if the key is none of those.
std::optional<LockValue> lock_quantity(const Lock& lock, const std::string& key) {
  const LockSide &left = lock.left, &right = lock.right;
  if (key == "lock_to_lock_turns" && left.reached && right.reached)
    return LockValue{lock.turns(), &left};
  if (key == "turning_circle_left" && left.reached) return LockValue{left.turning_circle, &left};
  if (key == "turning_circle_right" && right.reached)
    return LockValue{right.turning_circle, &right};
  if (key == "ackermann_error_left" && left.solved)
    return LockValue{left.ackermann_error_20, &left};
  if (key == "ackermann_error_right" && right.solved)
    return LockValue{right.ackermann_error_20, &right};
  return {};
}

}  // namespace

LimitBoard::LimitBoard(const Truck& truck, const std::vector<QuantityInfo>& infos) {
  for (const Limit& limit : truck.limits) {
    Judged judged;
    judged.result.limit = limit;
    judged.quantities = quantities_of(infos, limit.quantity);
    if (!judged.quantities.empty()) judged.result.quantity = judged.quantities.front();
    judged.result.margin = std::numeric_limits<double>::infinity();
    judged_.push_back(std::move(judged));
  }
}

void LimitBoard::take(const NotedPose& note) {
  const PoseResult& pose = note.pose;
  for (Judged& judged : judged_) {
    const Limit& limit = judged.result.limit;
    const bool of_its_kind =
        note.wheel == Wheel::turned || limit.held == (note.wheel == Wheel::held);
    if (!of_its_kind || !(limit.over_grid || note.on_height_line)) continue;
    if (limit.quantity == kReach) {
      judge_reach(judged.result, pose);
      continue;
    }
    for (const int quantity : judged.quantities) {
      if (!is_told_of(note.wheel, quantity)) continue;
      if (pose.report.usable()) {
        judge(judged, pose.values[index(quantity)], quantity, pose.request);
      } else if (!judged.missed) {
        judged.missed = pose.request;
      }
    }
  }
}

void LimitBoard::take(const Lock& lock, const PoseRequest& at_height) {
  for (Judged& judged : judged_) {
    const std::optional<LockValue> told = lock_quantity(lock, judged.result.limit.quantity);
    if (!told) continue;
    PoseRequest where = at_height;
    where.steer_by = SteerBy::steering_wheel;
    where.steer = told->side->steering_wheel;
    judge(judged, told->value, -1, where);
  }
}

std::vector<LimitResult> LimitBoard::results() const {
  std::vector<LimitResult> results;
  for (const Judged& judged : judged_) {
    results.push_back(judged.result);
    // What is broken somewhere stays broken, whatever cannot be looked at elsewhere.
    if (!judged.missed || judged.result.verdict == Verdict::broken) continue;
    results.back().verdict = Verdict::not_reached;
    results.back().where = *judged.missed;
  }
  return results;
}

void LimitBoard::judge_reach(LimitResult& result, const PoseResult& pose) {
  if (result.verdict == Verdict::broken) return;
  result.verdict = pose.report.usable() ? Verdict::met : Verdict::broken;
  result.where = pose.request;
}

void LimitBoard::judge(Judged& judged, double value, int quantity, const PoseRequest& where) {
  LimitResult& result = judged.result;
  if (std::isnan(value)) return;
  const double above =
      result.limit.max ? *result.limit.max - value : std::numeric_limits<double>::infinity();
  const double below =
      result.limit.min ? value - *result.limit.min : std::numeric_limits<double>::infinity();
  const double margin = std::min(above, below);
  if (margin >= result.margin - kSameValue) return;
  result.margin = margin;
  result.worst = value;
  result.quantity = quantity;
  result.where = where;
  result.verdict = margin < -kSameValue ? Verdict::broken : Verdict::met;
}

}  // namespace axlewright
