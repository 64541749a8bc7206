// Microseconds per pose of a height sweep, ours against a general multibody library at its best, in one run on one core. Checks
// the answers, prints a table for people and rows for bench/results. Ends with 1 if an answer is wrong or a ratio is lost.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "bench/simbody_sweep.h"
#include "bench/times.h"
#include "engine/base/units.h"
#include "engine/solve/follower.h"
#include "engine/truck/expand.h"
#include "tests/oracle/restate.h"
#include "tests/oracle/truck_families.h"

namespace axlewright::oracle {
namespace {

constexpr int kPoses = 101;
constexpr double kRise = 0.235;       // [m]
constexpr double kTolerance = 1e-10;  // [m] asked of both
constexpr int kRepeats = 41;

double lower_at(int pose) {
  // The axle sinks in the frame as the truck rises.
  return kRise * pose / (kPoses - 1);
}

class OurSweep {
 public:
  explicit OurSweep(const Expansion& x)
      : x_(x), follower_(assemble(x.mechanism, {x.height.left, x.height.right, x.pitman_turn})) {
    inputs_ = follower_.as_measured_inputs();
    left_ = inputs_[index(x.height.left)];
    right_ = inputs_[index(x.height.right)];
  }

  void restart() { follower_.restart(); }

  const SolveReport& go_to(int pose) {
    inputs_[index(x_.height.left)] = left_ - lower_at(pose);
    inputs_[index(x_.height.right)] = right_ - lower_at(pose);
    return follower_.go_to(inputs_);
  }

  const PathFollower& follower() const { return follower_; }

 private:
  static std::size_t index(InputId id) { return static_cast<std::size_t>(id.value); }

  const Expansion& x_;
  PathFollower follower_;
  std::vector<double> inputs_;
  double left_ = 0, right_ = 0;
};

/// Every body by the joint that a person would hang it on, and constraints for what is left.
struct Tree {
  Problem constraints;
  std::vector<Hung> hung;
};

class TreeMaker {
 public:
  explicit TreeMaker(const Expansion& x) : x_(x), m_(x.mechanism), done_(m_.joints.size(), false) {}

  Tree make() {
    // Body ids of the family trucks put parents first; see truck_families.cpp.
    for (int b = 1; b < static_cast<int>(m_.bodies.size()); ++b) hang(BodyId{b});
    Mechanism rest = m_;
    rest.joints.clear();
    for (std::size_t j = 0; j < done_.size(); ++j) {
      if (!done_[j]) rest.joints.push_back(m_.joints[j]);
    }
    tree_.constraints = restate(rest, {}, Assembly{}).problem;
    return tree_;
  }

 private:
  void hang(BodyId body) {
    Hung hung;
    if (body == x_.axle) {
      hung.kind = Mobilizer::axle;
      hung.place = triple(
          0.5 * (m_.anchor(x_.wheel_on_axle.left).at + m_.anchor(x_.wheel_on_axle.right).at));
      tree_.hung.push_back(hung);
      return;
    }
    const int j = stiffest_joint_inward(body);
    const Joint& joint = m_.joints[static_cast<std::size_t>(j)];
    done_[static_cast<std::size_t>(j)] = true;
    hung.parent = joint.body_b == body ? joint.body_a.value : joint.body_b.value;
    hung.place = triple(m_.anchor(joint.a).at);
    hung.kind = joint.kind == JointKind::pin     ? Mobilizer::pin
                : joint.kind == JointKind::slide ? Mobilizer::slider
                                                 : Mobilizer::ball;
    if (joint.kind != JointKind::ball) hung.axis = triple(m_.axis(joint.axis_a).direction);
    // The steering wheel stands still in this sweep.
    if (body == x_.pitman) hung.kind = Mobilizer::weld;
    tree_.hung.push_back(hung);
  }

  /// The joint with the fewest coordinates that leads to a body listed before.
  int stiffest_joint_inward(BodyId body) const {
    int best = -1, most = 0;
    for (std::size_t j = 0; j < m_.joints.size(); ++j) {
      const Joint& joint = m_.joints[j];
      const BodyId other = joint.body_b == body ? joint.body_a : joint.body_b;
      const bool meets = joint.body_a == body || joint.body_b == body;
      const bool fits = joint.kind == JointKind::pin || joint.kind == JointKind::slide ||
                        joint.kind == JointKind::ball;
      if (!meets || !fits || other.value > body.value || held_by(joint.kind) <= most) continue;
      best = static_cast<int>(j);
      most = held_by(joint.kind);
    }
    return best;
  }

  const Expansion& x_;
  const Mechanism& m_;
  std::vector<bool> done_;
  Tree tree_;
};

/// Largest way between the two answers over wheels, axle and knuckles, at every pose; infinity where one has none.
double largest_difference(OurSweep& ours, SimbodySweep& theirs, const SweepCall& call,
                          const Expansion& x) {
  ours.restart();
  theirs.restart();
  double largest = 0;
  for (int pose = 0; pose < kPoses; ++pose) {
    if (!ours.go_to(pose).usable() || !theirs.go_to(lower_at(pose), call)) return INFINITY;
    for (const Anchor& anchor : x.mechanism.anchors) {
      const bool spins =
          anchor.body != x.axle && anchor.body != x.knuckle.left && anchor.body != x.knuckle.right;
      if (spins) continue;
      const Vec3 here =
          ours.follower().kinematics().pose[static_cast<std::size_t>(anchor.body.value)].place(
              anchor.at);
      const Vec3 there = pose_of(theirs.placement(anchor.body.value)).place(anchor.at);
      largest = std::max(largest, (here - there).norm());
    }
  }
  return largest;
}

double sweep_us(SimbodySweep& theirs, const SweepCall& call) {
  theirs.restart();
  const double start = thread_seconds();
  for (int pose = 0; pose < kPoses; ++pose) theirs.go_to(lower_at(pose), call);
  return 1e6 * (thread_seconds() - start) / kPoses;
}

double sweep_us(OurSweep& ours) {
  // Several times over, so that the clock's own cost and grain do not count.
  constexpr int kTimes = 20;
  const double start = thread_seconds();
  for (int k = 0; k < kTimes; ++k) {
    ours.restart();
    for (int pose = 0; pose < kPoses; ++pose) ours.go_to(pose);
  }
  return 1e6 * (thread_seconds() - start) / kPoses / kTimes;
}

/// The loosest accuracy of Simbody's that still gives every place within the tolerance: its quickest.
SweepCall loosest_call(OurSweep& ours, SimbodySweep& theirs, const Expansion& x, bool extrapolate) {
  for (const double accuracy : {1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11}) {
    const SweepCall call{extrapolate, accuracy};
    if (largest_difference(ours, theirs, call, x) <= kTolerance) return call;
  }
  return {extrapolate, 0};
}

bool check_ours(OurSweep& ours) {
  ours.restart();
  int iterations = 0, steps = 0;
  double residual = 0, step = 0;
  for (int pose = 0; pose < kPoses; ++pose) {
    const SolveReport& report = ours.go_to(pose);
    if (!report.usable() || report.certificate != Certificate::followed) {
      fmt::print("pose {}: {}\n", pose, report.message);
      return false;
    }
    iterations += report.iterations;
    steps += report.path_steps;
    residual = std::max(residual, report.residual);
    step = std::max(step, report.last_step);
  }
  fmt::print(
      "  {} unknowns, {:.2f} iterations and {:.2f} path steps per pose, residual {:.1e} m, last "
      "step {:.1e} m\n",
      ours.follower().system().coordinates, static_cast<double>(iterations) / kPoses,
      static_cast<double>(steps) / kPoses, residual, step);
  return residual <= kTolerance && step <= kTolerance;
}

bool run_case(const std::string& name, const Truck& truck, double least, std::string& rows) {
  const Expansion x = expand(truck);
  OurSweep ours(x);
  const Tree tree = TreeMaker(x).make();
  SimbodySweep theirs(tree.constraints, tree.hung);
  fmt::print("{}\n", name);
  if (!check_ours(ours)) return false;
  const SweepCall own = loosest_call(ours, theirs, x, false);
  const SweepCall helped = loosest_call(ours, theirs, x, true);
  const double apart = std::max(largest_difference(ours, theirs, own, x),
                                largest_difference(ours, theirs, helped, x));
  if (!(apart <= kTolerance)) {
    fmt::print("  WRONG: the answers are {:.1e} m apart\n", apart);
    return false;
  }
  std::vector<double> ours_us, own_us, helped_us;  // a pose, each repeat
  for (int repeat = 0; repeat < kRepeats; ++repeat) {
    ours_us.push_back(sweep_us(ours));
    own_us.push_back(sweep_us(theirs, own));
    helped_us.push_back(sweep_us(theirs, helped));
  }
  const Times our_times(ours_us), own_times(own_us), helped_times(helped_us);
  const double ratio = own_times.median() / our_times.median();
  const double helped_ratio = helped_times.median() / our_times.median();
  fmt::print("  answers {:.1e} m apart at most\n", apart);
  fmt::print("  ours                                  {:8.3f} us\n", our_times.median());
  fmt::print("  Simbody from the last pose  ({:.0e}) {:8.3f} us, {:.1f} times (least {:.0f})\n",
             own.accuracy, own_times.median(), ratio, least);
  fmt::print("  Simbody from extrapolation  ({:.0e}) {:8.3f} us, {:.1f} times\n", helped.accuracy,
             helped_times.median(), helped_ratio);
  const auto row = [&](const char* what, const Times& times, const std::string& ratio_text) {
    rows += fmt::format("height_sweep_{}{},{:.3f},{:.3f},{}\n", name, what, times.median(),
                        times.share(0.95), ratio_text);
  };
  row("", our_times, "");
  row("_simbody", own_times, fmt::format("{:.1f}", ratio));
  row("_simbody_extrapolated", helped_times, fmt::format("{:.1f}", helped_ratio));
  return ratio >= least;
}

}  // namespace
}  // namespace axlewright::oracle

int main() {
  using namespace axlewright;
  using namespace axlewright::oracle;
  const FamilyChoice plain;
  const FamilyChoice four_bar{.four_bar_locator = true};
  const FamilyChoice guided{.guided_steering = true, .guided_locator = true, .keeper = true};
  FamilyChoice bodies = guided;
  bodies.half_link = HalfLink::pinned_body;
  bodies.carriage = Carriage::slide;
  std::string rows;
  bool all = run_case("plain", family_truck(plain), 25, rows);
  all = run_case("four_bar", family_truck(four_bar), 25, rows) && all;
  all = run_case("guided", family_truck(guided), 50, rows) && all;
  all = run_case("guided_bodies", family_truck(bodies), 50, rows) && all;
  fmt::print("\n{}", rows);
  return all ? 0 : 1;
}
