#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/solve/covering.h"
#include "engine/study/rig.h"
#include "engine/study/sweep.h"
#include "tests/oracle/truck_families.h"
#include "tests/robust/bad_truck.h"
#include "tests/support/truck_files.h"

// Trucks with much wrong with them, over the whole grid of height x travel x lean x steering. Whatever is asked of them, the
// answer comes after a bounded number of steps and is either a pose on the branch of the truck as measured or a reason that holds.

namespace axlewright::robust {
namespace {

/// [m] Two ways to one pose end nearer than this: each ends within kStepTolerance, over hundreds of metres of path rounding adds to that.
constexpr double kSamePlace = 1e-7;
/// Corrections and steps for one pose.
constexpr int kMostSteps = 20000;

std::uint64_t seeds_asked() {
  const char* asked = std::getenv("AXLEWRIGHT_BAD_TRUCKS");
  return asked != nullptr ? std::strtoull(asked, nullptr, 10) : 200;
}
std::uint64_t first_seed() {
  const char* asked = std::getenv("AXLEWRIGHT_FIRST_BAD_TRUCK");
  return asked != nullptr ? std::strtoull(asked, nullptr, 10) : 1;
}

/// The whole grid, coarse: three heights, three travels, three leans, and the steering wheel left alone, rolling and turned.
std::vector<PoseRequest> grid_of(const Rig& rig) {
  const Truck& truck = rig.truck();
  std::vector<PoseRequest> grid;
  const SweepPlan plan = sweep_plan(truck, 3);
  for (const double height : plan.heights) {
    for (const double travel : {0.0, -1.0, 1.0}) {
      for (const double lean : {0.0, -1.0, 1.0}) {
        PoseRequest request;
        request.height = height;
        const TravelRange range = travel_range(truck, height);
        request.travel = travel * (travel > 0 ? range.bump : range.droop);
        request.lean = lean * truck.lean;
        grid.push_back(request);
        if (rig.expansion().pitman_turn.value < 0) continue;
        request.steer_by = SteerBy::held;
        grid.push_back(request);
        request.steer_by = SteerBy::steering_wheel;
        for (const double turn : {-1.0, -0.5, 0.5, 1.0}) {
          request.steer = turn * (turn > 0 ? truck.gear.stop_left : truck.gear.stop_right);
          grid.push_back(request);
        }
      }
    }
  }
  return grid;
}

[[maybe_unused]] double apart(const std::vector<double>& a, const std::vector<double>& b) {
  double most = 0;
  for (std::size_t k = 0; k < a.size(); ++k) most = std::max(most, std::abs(a[k] - b[k]));
  return most;
}

TEST(Explore, Grid) {
  std::map<std::string, int> outcomes, faults, unsound;
  int trucks = 0, poses = 0, usable = 0, most = 0, reversed_diff = 0, reversed_reach = 0,
      proved = 0, unproved = 0;
  std::uint64_t most_seed = 0;
  for (std::uint64_t seed = first_seed(); seed < first_seed() + seeds_asked(); ++seed) {
    if (std::getenv("RIGID") && seed % 3 == 0) continue;
    if (std::getenv("ELASTIC") && seed % 3 != 0) continue;
    const BadTruck bad = bad_truck(seed);
    SCOPED_TRACE(bad.words());
    const Result<Truck> truck = bad.read();
    if (!truck) {
      ++faults[truck.error().front().what.substr(0, 50)];
      continue;
    }
    ++trucks;
    Rig rig(*truck);
    const std::vector<PoseRequest> grid = grid_of(rig);
    std::vector<PoseResult> there;
    for (const PoseRequest& request : grid) {
      ++poses;
      PoseResult pose = rig.solve(request);
      const int steps = pose.report.iterations + pose.report.path_steps;
      if (steps > most) most = steps, most_seed = seed;
      ++outcomes[std::string(word_for(pose.report.outcome)) +
                 (pose.report.message.empty() ? " NO MESSAGE" : "") +
                 (pose.report.what_ran_out.empty() ? " NOTHING" : "")];
      if (!pose.report.usable() &&
          (pose.report.message.empty() || pose.report.outcome == Outcome::iteration_limit)) {
        fmt::print("{}\n   {} {} lean {} travel {} steer {} {}\n", bad.words(),
                   word_for(pose.report.outcome), request.height, request.lean, request.travel,
                   static_cast<int>(request.steer_by), request.steer);
      }
      usable += pose.report.usable();
      there.push_back(std::move(pose));
      if (rig.held().assembly().soundness != Soundness::sound) {
        ++unsound[rig.held().assembly().message.substr(0, 60)];
        break;
      }
    }
    if (there.size() < grid.size()) continue;
    Rig other(*truck);
    for (std::size_t k = grid.size(); k-- > 0;) {
      const PoseResult pose = other.solve_place(grid[k]);
      if (pose.report.usable() != there[k].report.usable()) {
        ++reversed_reach;
        fmt::print("REACH {}\n   {} h {} lean {} travel {} steer {} {}: {} / {}\n", bad.words(), k,
                   grid[k].height, grid[k].lean, grid[k].travel, static_cast<int>(grid[k].steer_by),
                   grid[k].steer, there[k].report.message, pose.report.message);
      } else if (pose.report.usable()) {
        double most = 0;
        for (std::size_t a = 0; a < pose.values.size(); ++a)
          most = std::max(most, std::abs(pose.values[a] - there[k].values[a]));
        (void)most;
        if (false) {
          // compared below by inputs
        }
        double d = 0;
        for (std::size_t a = 0; a < pose.inputs.size(); ++a)
          d = std::max(d, std::abs(pose.inputs[a] - there[k].inputs[a]));
        if (d > 1e-7) {
          ++reversed_diff;
          fmt::print("JUMP {}\n   {} h {} lean {} travel {} steer {} {}: {}\n", bad.words(), k,
                     grid[k].height, grid[k].lean, grid[k].travel,
                     static_cast<int>(grid[k].steer_by), grid[k].steer, d);
        }
      }
    }
  }
  (void)proved;
  (void)unproved;
  fmt::print(
      "{} trucks, {} poses, {} usable, most steps {} (seed {}), reach differs {}, place differs "
      "{}\n",
      trucks, poses, usable, most, most_seed, reversed_reach, reversed_diff);
  for (auto& [w, n] : outcomes) fmt::print("  {} {}\n", n, w);
  for (auto& [w, n] : faults) fmt::print("  fault {} {}\n", n, w);
  for (auto& [w, n] : unsound) fmt::print("  unsound {} {}\n", n, w);
}

TEST(Debug, Jump) {
  const BadTruck bad = bad_truck(12);
  const Truck truck = *bad.read();
  Rig rig(truck);
  const auto grid = grid_of(rig);
  Rig other(truck);
  std::vector<double> a;
  for (int k = 0; k <= 5; ++k) {
    auto p = rig.solve(grid[index(k)]);
    fmt::print("forward {}: {} {} inputs {} sv {:.2e} {}\n", k, word_for(p.report.outcome),
               p.report.path_steps, fmt::join(p.inputs, " "),
               p.report.usable() ? rig.follower().smallest_singular_value() : 0, p.report.message);
  }
  for (int k = 53; k >= 3; --k) {
    auto p = other.solve_place(grid[index(k)]);
    if (k < 9 || (k >= 20))
      fmt::print("back {}: by {} h {} l {} t {} {} {} inputs {} sv {:.2e} {}\n", k,
                 int(grid[index(k)].steer_by), grid[index(k)].height, grid[index(k)].lean,
                 grid[index(k)].travel, word_for(p.report.outcome), p.report.path_steps,
                 fmt::join(p.inputs, " "),
                 p.report.usable() ? other.follower().smallest_singular_value() : 0,
                 p.report.message);
  }
  // fine steps to grid[4]
  for (int n : {50, 200, 1000}) {
    PathFollower f(rig.held());
    f.restart();
    PoseRequest up;
    up.height = grid[4].height;
    up.steer_by = SteerBy::pitman;
    std::vector<double> from = f.as_measured_inputs();
    bool ok = true;
    for (const auto& to : {rig.inputs_for(up), rig.inputs_for(grid[4])}) {
      for (int s = 1; s <= n && ok; ++s) {
        std::vector<double> at(from.size());
        for (std::size_t i = 0; i < at.size(); ++i) at[i] = from[i] + (to[i] - from[i]) * s / n;
        const auto& r = f.go_to(at);
        if (!r.usable()) {
          fmt::print("  n {} stopped at {} {}\n", n, s, r.message);
          ok = false;
        }
      }
      from = to;
    }
    fmt::print("fine {}: {}\n", n, fmt::join(f.inputs(), " "));
  }
}
TEST(Debug, Limit) {
  const BadTruck bad = bad_truck(std::strtoull(std::getenv("SEED"), nullptr, 10));
  fmt::print("{}\n", bad.words());
  const Truck truck = *bad.read();
  Rig rig(truck);
  const auto grid = grid_of(rig);
  for (std::size_t k = 0; k < grid.size() && k < 60; k += 1) {
    auto p = rig.solve_place(grid[k]);
    if (p.report.usable()) continue;
    auto last = rig.last_on_the_way_to(grid[k]);
    fmt::print("{} by {} h {:.3f} l {:.3f} t {:.3f} {} it {} st {} {} {} last {} sv {:.2e} {}\n", k,
               int(grid[k].steer_by), grid[k].height, grid[k].lean, grid[k].travel,
               p.report.path_reached, p.report.iterations, p.report.path_steps,
               p.report.what_ran_out, p.report.message, word_for(last.report.outcome),
               rig.follower().smallest_singular_value(), rig.held().report().message);
  }
}
}  // namespace
}  // namespace axlewright::robust
