#include "tests/oracle/truck_poses.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright::oracle {
namespace {

constexpr double kPitman =
    from_deg(25);  // steering looked at, either side, where the truck says none

}  // namespace

std::vector<double> inputs_at(const Expansion& x, const PathFollower& follower, const Corner& at) {
  const Mechanism& m = x.mechanism;
  std::vector<double> inputs = follower.as_measured_inputs();
  const auto raise = [&](const PerSide<AnchorId>& wheels, const PerSide<InputId>& heights) {
    const double half_track = (m.anchor(wheels.left).at - m.anchor(wheels.right).at).norm() / 2;
    const double lean = half_track * std::sin(at.lean);
    inputs[static_cast<std::size_t>(heights.left.value)] -= at.height + lean;
    inputs[static_cast<std::size_t>(heights.right.value)] -= at.height - lean;
  };
  raise(x.wheel_on_axle, x.height);
  if (x.rear) raise(x.rear->wheel, x.rear->height);
  inputs[static_cast<std::size_t>(x.pitman_turn.value)] += at.pitman;
  return inputs;
}

std::vector<Corner> corners(const Truck& truck, double share) {
  const double pitman_most =
      truck.steering ? *truck.steering / truck.gear.ratio.front().ratio : kPitman;
  const double low = truck.height_range[0], high = truck.height_range[1];
  std::vector<Corner> all;
  for (const double height : {low, 0.5 * (low + high), high}) {
    for (const double lean : {-1.0, 0.0, 1.0}) {
      for (const double pitman : {-1.0, 0.0, 1.0}) {
        all.push_back({share * height, share * truck.lean * lean, share * pitman_most * pitman});
      }
    }
  }
  return all;
}

std::string words_for(const Corner& at) {
  return fmt::format("height {:.0f} mm, lean {:.1f} deg, pitman {:.0f} deg", to_mm(at.height),
                     to_deg(at.lean), to_deg(at.pitman));
}

std::vector<InputId> held_of(const Expansion& x) {
  std::vector<InputId> held = {x.height.left, x.height.right, x.pitman_turn};
  if (x.rear) held.insert(held.end(), {x.rear->height.left, x.rear->height.right});
  return held;
}

double share_within_reach(const Truck& truck) {
  const Expansion x = expand(truck);
  PathFollower follower(assemble(x.mechanism, held_of(x)));
  for (const double share : {1.0, 0.8, 0.6, 0.4, 0.2}) {
    bool reached = true;
    for (const Corner& at : corners(truck, share)) {
      reached = reached && follower.go_to(inputs_at(x, follower, at)).usable();
    }
    if (reached) return share < 1 ? 0.7 * share : 1;
    follower.restart();
  }
  return 0;
}

}  // namespace axlewright::oracle
