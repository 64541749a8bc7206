// Microseconds per pose of a height sweep of truck files, those on bushes against Simbody's own minimiser of energy, in one run on one
// core. Checks the answers; ends with 1 if one is wrong.

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "bench/times.h"
#include "engine/base/index.h"
#include "engine/disk/read_file.h"
#include "engine/solve/follower.h"
#include "engine/truck/expand.h"
#include "engine/truck/read.h"
#include "tests/oracle/restate.h"

namespace axlewright::oracle {
namespace {

constexpr int kPoses = 101;
constexpr int kSimbodyPoses = 11;    // of the same range: a pose takes it tenths of a second
constexpr double kTolerance = 1e-8;  // [m] asked of Simbody; ours stops at 1e-10
constexpr int kRepeats = 15;

class HeightSweep {
 public:
  explicit HeightSweep(const Truck& truck)
      : range_(truck.height_range[1] - truck.height_range[0]),
        x_(expand(truck)),
        held_{x_.height.left, x_.height.right, x_.pitman_turn},
        follower_(assemble(x_.mechanism, held_)) {}

  bool gives() const { return !follower_.assembly().bushes.empty(); }

  void restart() { follower_.restart(); }

  bool go_to(double share) {
    std::vector<double> inputs = follower_.as_measured_inputs();
    inputs[index(x_.height.left.value)] -= share * range_;
    inputs[index(x_.height.right.value)] -= share * range_;
    return follower_.go_to(inputs).usable();
  }

  Problem problem_here() const {
    const std::vector<double> inputs = follower_.inputs();
    std::vector<HeldInput> held;
    for (const InputId id : held_) held.push_back({id, inputs[index(id.value)]});
    return restate(x_.mechanism, held, follower_.assembly()).problem;
  }

  std::vector<Placement> placements() const {
    std::vector<Placement> all;
    const std::vector<Pose>& poses = follower_.kinematics().pose;
    for (std::size_t b = 1; b < poses.size(); ++b) all.push_back(placement_of(poses[b]));
    return all;
  }

  double apart(const std::vector<Placement>& placements) const {
    double largest = 0;
    for (const Anchor& anchor : x_.mechanism.anchors) {
      if (anchor.body == kFrame) continue;
      const Pose theirs = pose_of(placements[index(anchor.body.value - 1)]);
      const Pose& ours = follower_.kinematics().pose[index(anchor.body.value)];
      largest = std::max(largest, (theirs.place(anchor.at) - ours.place(anchor.at)).norm());
    }
    return largest;
  }

 private:
  double range_;
  Expansion x_;
  std::vector<InputId> held_;
  PathFollower follower_;
};

/// One sweep of ours; nothing where a pose is out of reach.
std::optional<double> ours_us(HeightSweep& sweep) {
  sweep.restart();
  const double start = thread_seconds();
  for (int pose = 0; pose < kPoses; ++pose) {
    if (!sweep.go_to(static_cast<double>(pose) / (kPoses - 1))) return std::nullopt;
  }
  return 1e6 * (thread_seconds() - start) / kPoses;
}

/// Simbody's times at the heights where it gets within the tolerance, each started from our place at the height before: of the
/// quickest call that does.
std::vector<double> simbody_us(HeightSweep& sweep) {
  sweep.restart();
  std::vector<double> times;
  std::vector<Placement> before;
  for (int pose = 0; pose < kSimbodyPoses; ++pose) {
    if (!sweep.go_to(static_cast<double>(pose) / (kSimbodyPoses - 1))) return {};
    const Problem problem = sweep.problem_here();
    double quickest = INFINITY;
    for (const double gradient : {1.0, 1e-1, 1e-2, 1e-3, 1e-4}) {
      const double start = thread_seconds();
      const std::optional<Rest> rest = minimise_energy(problem, before, gradient);
      const double spent = 1e6 * (thread_seconds() - start);
      if (rest && sweep.apart(rest->placements) <= kTolerance) quickest = std::min(quickest, spent);
    }
    // As measured it starts at rest: no search.
    if (pose > 0 && std::isfinite(quickest)) times.push_back(quickest);
    before = sweep.placements();
  }
  return times;
}

bool run_case(const std::string& name, std::string& rows) {
  const Result<Truck> truck =
      read_truck(std::string(AXLEWRIGHT_ROOT) + "/trucks/" + name + ".toml", texts_on_disk());
  if (!truck) {
    fmt::print("{}: cannot be read\n", name);
    return false;
  }
  HeightSweep sweep(*truck);
  if (!ours_us(sweep)) {
    fmt::print("{}: a height is out of reach\n", name);
    return false;
  }
  std::vector<double> repeats;
  for (int repeat = 0; repeat < kRepeats; ++repeat) repeats.push_back(*ours_us(sweep));
  const Times ours(repeats);
  std::string key = name;
  std::replace(key.begin(), key.end(), '-', '_');
  fmt::print("{:12} ours {:10.2f} us", name, ours.median());
  rows += fmt::format("rest_sweep_{},{:.3f},{:.3f},\n", key, ours.median(), ours.share(0.95));
  if (sweep.gives()) {
    const std::vector<double> heights = simbody_us(sweep);
    fmt::print(", Simbody gets there at {} of {} heights", heights.size(), kSimbodyPoses - 1);
    if (!heights.empty()) {
      const Times theirs(heights);
      const double times = theirs.median() / ours.median();
      fmt::print(", in {:.0f} us: {:.0f} times", theirs.median(), times);
      rows += fmt::format("rest_sweep_{}_simbody,{:.3f},{:.3f},{:.1f}\n", key, theirs.median(),
                          theirs.share(0.95), times);
    }
  }
  fmt::print("\n");
  return true;
}

}  // namespace
}  // namespace axlewright::oracle

int main() {
  using namespace axlewright::oracle;
  std::string rows;
  bool all = true;
  for (const char* truck : {"radius-arm", "leaf"}) all = run_case(truck, rows) && all;
  fmt::print("\n{}", rows);
  return all ? 0 : 1;
}
