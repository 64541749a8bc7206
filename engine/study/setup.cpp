#include "engine/study/setup.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <variant>

namespace axlewright {
namespace {

constexpr double kCentred = 1e-8;  // rad of steering wheel, m of walk
constexpr int kMostSteps = 20;
constexpr double kProbe = 1e-6;  // [m] of length, for the derivative

/// Of the front axle.
Bar* find_bar(Truck& truck, BarKind kind, std::string* words) {
  for (Part& part : truck.parts) {
    Bar* bar = std::get_if<Bar>(&part.what);
    if (bar == nullptr || bar->kind != kind || locates_rear_axle(truck, *bar)) continue;
    *words = part.words;
    return bar;
  }
  return nullptr;
}

struct Centre {
  bool usable = false;
  SolveReport report;
  double wheel = 0, walk = 0;
};

Centre look(Rig& rig, double height) {
  PoseRequest request = rig.aligned_request();
  request.height = height;
  const PoseResult pose = rig.solve(request);
  Centre centre;
  centre.report = pose.report;
  centre.usable = pose.report.usable();
  if (!centre.usable) return centre;
  centre.wheel = pose.values[kSteeringWheel];
  const PathFollower& there = rig.follower();
  centre.walk = axle_middle<double>(rig.expansion(), there.design(), there.kinematics()).y();
  return centre;
}

double length_of(const Truck& truck, const Bar& bar) {
  if (bar.length) return *bar.length;
  return (find_point(truck, bar.ends[1])->at - find_point(truck, bar.ends[0])->at).norm();
}

struct Adjustable {
  std::string name, words;
  Bar* bar = nullptr;
  double before = 0;
  std::function<double(const Centre&)> miss;
};

}  // namespace

Setup find_setup(const Truck& truck, double height, const std::vector<double>& heights) {
  Setup setup;
  setup.height = height;
  Truck changed = truck;
  std::vector<Adjustable> bars;
  const auto add = [&](BarKind kind, std::function<double(const Centre&)> miss) {
    Adjustable a;
    a.bar = find_bar(changed, kind, &a.words);
    if (a.bar == nullptr || a.bar->body) return;
    a.before = length_of(changed, *a.bar);
    a.bar->length = a.before;
    a.miss = std::move(miss);
    bars.push_back(std::move(a));
  };
  // The track bar first: it moves the axle, and the axle moves the steering.
  add(BarKind::track_bar, [](const Centre& c) { return c.walk; });
  const bool has_wheel = std::any_of(truck.parts.begin(), truck.parts.end(), [](const Part& part) {
    return std::holds_alternative<PitmanArm>(part.what);
  });
  if (has_wheel) add(BarKind::drag_link, [](const Centre& c) { return c.wheel; });
  const auto solve = [&] {
    Rig rig(changed);
    return look(rig, height);
  };
  Centre now = solve();
  // One bar after the other, each by its own Newton step: the track bar does not feel the drag link.
  for (int k = 0; k < kMostSteps && now.usable; ++k) {
    bool centred = true;
    for (const Adjustable& a : bars) {
      const double miss = a.miss(now);
      if (std::abs(miss) <= kCentred) continue;
      centred = false;
      const double length = *a.bar->length;
      a.bar->length = length + kProbe;
      const Centre probe = solve();
      if (!probe.usable) {
        now = probe;
        break;
      }
      const double slope = (a.miss(probe) - miss) / kProbe;
      a.bar->length = length - miss / slope;
      now = solve();
      if (!now.usable) break;
    }
    if (centred) break;
  }
  setup.found = now.usable;
  for (const Adjustable& a : bars) setup.found = setup.found && std::abs(a.miss(now)) <= kCentred;
  if (!setup.found) {
    setup.message = now.usable ? "the lengths did not settle" : now.report.message;
    return setup;
  }
  setup.wheel_left = now.wheel;
  setup.walk_left = now.walk;
  for (const Adjustable& a : bars) {
    Adjustment adjustment;
    adjustment.bar = adjustment.words = a.words;
    adjustment.length_now = a.before;
    adjustment.length_then = *a.bar->length;
    adjustment.sleeve = a.bar->sleeve.value_or(0);
    setup.adjustments.push_back(adjustment);
  }
  Rig before(truck), after(changed);
  for (const double h : heights) {
    SetupRow row;
    row.height = h;
    const Centre b = look(before, h);
    const Centre c = look(after, h);
    row.report = c.usable ? b.report : c.report;
    row.wheel_before = b.wheel;
    row.walk_before = b.walk;
    row.wheel_after = c.wheel;
    row.walk_after = c.walk;
    setup.rows.push_back(row);
  }
  return setup;
}

}  // namespace axlewright
