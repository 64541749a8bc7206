#include "engine/truck/set_straight.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/base/index.h"
#include "engine/solve/assembly.h"
#include "engine/solve/follower.h"
#include "engine/truck/expand.h"
#include "engine/truck/measured_stance.h"

namespace axlewright {

namespace {

// A lean that lifts a wheel by less than this changes nothing that anybody can measure [m].
constexpr double kNoLift = 1e-9;

/// Pose of a body by its name in the file.
class Poses {
 public:
  Poses(const Expansion& x, const Kinematics& kin) : x_(x), kin_(kin) {}

  const Pose& of(const std::string& body) const {
    const auto found = std::find(x_.body_names.begin(), x_.body_names.end(), body);
    return kin_.pose[static_cast<std::size_t>(found - x_.body_names.begin())];
  }

 private:
  const Expansion& x_;
  const Kinematics& kin_;
};

/// Directions that the file gives by numbers stay: they are meant for the truck as it stands straight, not measured.
void move(Truck& truck, const Poses& poses) {
  for (Point& point : truck.points) point.at = poses.of(point.on).place(point.at);
}

/// Toe and camber are told to the road, and the wheels stood on it: so their spin axes leaned with it, under the frame.
void stand_wheels_on_the_road(double lean, Expansion& x) {
  MeasuredStance leaning;
  leaning.lean = lean;
  std::vector<AxisId> spins = {x.stub.left, x.stub.right};
  if (x.rear) spins.push_back(x.rear->spin);
  for (const AxisId stub : spins) {
    // One told by two points leans with them.
    if (x.mechanism.axis(stub).from.value >= 0) continue;
    Vec3& direction = x.mechanism.axes[index(stub.value)].direction;
    direction = leaning.from_road(direction);
  }
}

}  // namespace

std::string set_straight(Truck& truck) {
  const double lean = truck.fit->stance.lean;
  Expansion x = expand(truck);
  const double lift = half_track(x) * std::sin(lean);
  if (std::abs(lift) < kNoLift) return {};
  stand_wheels_on_the_road(lean, x);
  std::vector<InputId> held = height_inputs(x);
  held.push_back(x.straight);
  const Assembly assembly = assemble(x.mechanism, held);
  if (assembly.soundness != Soundness::sound) return assembly.message;
  PathFollower follower(assembly);
  std::vector<double> inputs = follower.as_measured_inputs();
  inputs[index(x.height.left.value)] += lift;
  inputs[index(x.height.right.value)] -= lift;
  if (x.rear) {
    const double rear_lift = rear_half_track(x) * std::sin(lean);
    inputs[index(x.rear->height.left.value)] += rear_lift;
    inputs[index(x.rear->height.right.value)] -= rear_lift;
  }
  const SolveReport& report = follower.go_to(inputs);
  if (!report.usable()) return report.message;
  move(truck, Poses(x, follower.kinematics()));
  return {};
}

}  // namespace axlewright
