// Trucks with much wrong with them (bad_truck.h), over the whole grid of height x travel x lean x steering. Whatever is asked of them,
// the answer comes after a bounded number of steps, and is either a pose on the branch of the truck as measured or a reason that holds.
//
// AXLEWRIGHT_BAD_TRUCKS says how many trucks (tools/check: thousands), AXLEWRIGHT_FIRST_BAD_TRUCK from which seed on.

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/solve/covering.h"
#include "engine/solve/linearise.h"
#include "engine/study/rig.h"
#include "engine/study/sweep.h"
#include "tests/oracle/truck_families.h"
#include "tests/robust/bad_truck.h"
#include "tests/support/truck_files.h"

namespace axlewright::robust {
namespace {

/// Corrections and steps for one pose. A path of a metre or two in steps of no more than 60 mm, halved twenty times down to the shortest
/// before each of up to three ways to a pose is given up, twelve corrections each.
constexpr int kMostSteps = 3 * 2 * 20 * 12 * 2;
/// Where a path ends the smallest singular value is 0. It falls as the root of the way left: at the shortest step, 1e-6 of the way or so,
/// to about a thousandth of what a healthy pose has, some 0.2.
constexpr double kNearItsEnd = 0.02;
/// Or it falls, as the root of the way left, to less than a third over the last tenth of a millimetre [m]: all of it within 10 um of the end.
constexpr double kBack = 1e-4;
constexpr double kFallen = 0.3;
/// Between a pose and the same one by finer steps [m, rad]: both stop at corrections below kStepTolerance.
constexpr double kSamePlace = 1e-7;

#if defined(__SANITIZE_ADDRESS__)
constexpr std::uint64_t kUsualTrucks = 20;  // each takes ten times as long there
#else
constexpr std::uint64_t kUsualTrucks = 100;
#endif

std::uint64_t number_from(const char* variable, std::uint64_t usual) {
  const char* text = std::getenv(variable);
  return text != nullptr ? std::strtoull(text, nullptr, 10) : usual;
}

/// Calls `look(bad, truck)` for every bad truck that the reader lets pass, every `stride`th one, and counts them.
template <class Look>
int for_bad_trucks(int stride, const Look& look) {
  const std::uint64_t first = number_from("AXLEWRIGHT_FIRST_BAD_TRUCK", 1);
  const std::uint64_t count = number_from("AXLEWRIGHT_BAD_TRUCKS", kUsualTrucks);
  int looked_at = 0;
  for (std::uint64_t seed = first; seed < first + count;
       seed += static_cast<std::uint64_t>(stride)) {
    const BadTruck bad = bad_truck(seed);
    SCOPED_TRACE(bad.words());
    const Result<Truck> truck = bad.read();
    if (truck) {
      ++looked_at;
      look(bad, *truck);
    } else {
      for (const Fault& fault : truck.error()) {
        EXPECT_FALSE(fault.what.empty());
        EXPECT_FALSE(fault.fix.empty());
      }
    }
  }
  return looked_at;
}

bool is_elastic(const Rig& rig) {
  return !rig.held().assembly().bushes.empty();
}

/// The corners of height x travel x lean x steering and the middle of each range. Bushes take ten times as long: corners alone.
std::vector<PoseRequest> grid_of(const Rig& rig) {
  const Truck& truck = rig.truck();
  const bool corners = is_elastic(rig);
  const std::vector<double> ends =
      corners ? std::vector<double>{-1, 1} : std::vector<double>{0, -1, 1};
  std::vector<PoseRequest> grid;
  for (const double height : sweep_plan(truck, corners ? 2 : 3).heights) {
    const TravelRange range = travel_range(truck, height);
    for (const double travel : ends) {
      for (const double lean : ends) {
        PoseRequest request;
        request.height = height;
        request.travel = travel * (travel > 0 ? range.bump : range.droop);
        request.lean = lean * truck.lean;
        grid.push_back(request);
        if (rig.expansion().pitman_turn.value < 0) continue;
        request.steer_by = SteerBy::held;
        grid.push_back(request);
        request.steer_by = SteerBy::steering_wheel;
        for (const double steer : {-truck.gear.stop_right, truck.gear.stop_left}) {
          request.steer = steer;
          grid.push_back(request);
        }
      }
    }
  }
  return grid;
}

std::string words_for(const PoseRequest& at) {
  return fmt::format("height {}, travel {}, lean {}, steered by {} to {}", at.height, at.travel,
                     at.lean, static_cast<int>(at.steer_by), at.steer);
}

bool is_of_the_path(Outcome outcome) {
  return outcome == Outcome::out_of_reach || outcome == Outcome::bound;
}

/// The inputs of a pose's height alone, as the rig goes by it.
std::vector<double> inputs_at_height(const Rig& rig, const PoseRequest& request) {
  PoseRequest raised;
  raised.height = request.height;
  if (request.steer_by != SteerBy::straight_ahead) raised.steer_by = SteerBy::pitman;
  return rig.inputs_for(raised);
}

/// The smallest singular value of closures that do not give: where they run out among themselves no bush can yield.
double smallest_of_closures(const PathFollower& at) {
  const Assembly& assembly = at.assembly();
  const Matrix all =
      scaled_jacobian(assembly.system, at.design(), at.state(), at.kinematics(), at.inputs());
  Matrix closures(static_cast<int>(assembly.active.size()), all.cols());
  for (std::size_t k = 0; k < assembly.active.size(); ++k)
    closures.row(static_cast<int>(k)) = all.row(assembly.active[k]);
  const Vector values = svd(closures).values;
  return values[values.size() - 1];
}

/// The least cosine of the second of a bush's three turns: at 90 deg the first and the third are told about one and the same line.
double least_cosine_of_bushes(const PathFollower& at) {
  const Mechanism& m = at.system().mechanism;
  const auto direction = [&](AxisId id) -> Vec3 {
    return at.kinematics().pose[index(m.axis(id).body.value)].turn(m.axis(id).direction);
  };
  double least = 1;
  for (const int row : at.assembly().bushes) {
    const Equation& e = at.system().equations[index(row)];
    if (e.kind != EquationKind::angle) continue;
    const double sine = direction(e.u).dot(cross(direction(e.v), direction(e.w)));
    least = std::min(least, std::sqrt(std::max(0.0, 1 - sine * sine)));
  }
  return least;
}

/// What is nearest to nothing at a place.
double closeness(const PathFollower& at) {
  const double least = at.smallest_singular_value();
  if (at.assembly().bushes.empty()) return least;
  return std::min({least, smallest_of_closures(at), least_cosine_of_bushes(at)});
}

/// Leads a follower back from the end of its path to `wanted` by so much of the inputs [m].
bool step_back(PathFollower& follower, const std::vector<double>& wanted, double way) {
  std::vector<double> there = follower.inputs();
  double square = 0;
  for (std::size_t k = 0; k < there.size(); ++k) square += std::pow(wanted[k] - there[k], 2);
  for (std::size_t k = 0; k < there.size(); ++k)
    there[k] -= (wanted[k] - there[k]) * way / std::sqrt(square);
  return follower.go_to(there).usable();
}

/// Something comes to nothing where the path by the height ends, going on to a pose that it does not reach. With a part as short as 30 mm in a
/// dead centre more is left at the shortest step (0.041 of a drag link of 37 mm, 3 um before the end); then it has to be on its way to nothing.
void expect_an_end(const Rig& rig, const PoseRequest& request) {
  PathFollower walker(request.steer_by == SteerBy::straight_ahead ? rig.rolling() : rig.held());
  walker.restart();
  std::vector<double> wanted = inputs_at_height(rig, request);
  if (walker.go_to(wanted).usable()) wanted = rig.inputs_for(request);
  EXPECT_FALSE(walker.go_to(wanted).usable());
  const double at_end = closeness(walker);
  if (at_end < kNearItsEnd) return;
  const std::string message = walker.report().message;
  ASSERT_TRUE(step_back(walker, wanted, kBack)) << message;
  EXPECT_LT(at_end, kFallen * closeness(walker)) << message;
}

/// The words are there, and what they say of the end of the path holds there; the last pose before it can be shown.
void expect_explained(Rig& rig, const PoseResult& refused, bool look_there) {
  const SolveReport& report = refused.report;
  EXPECT_TRUE(refused.values.empty());
  EXPECT_EQ(report.certificate, Certificate::none);
  EXPECT_FALSE(report.message.empty()) << word_for(report.outcome);
  EXPECT_NE(report.outcome, Outcome::not_run);
  EXPECT_NE(report.outcome, Outcome::iteration_limit) << report.message;
  // What is wrong as measured is named in the message.
  if (rig.held().assembly().soundness != Soundness::sound) return;
  EXPECT_FALSE(report.what_ran_out.empty()) << report.message;
  if (!look_there || !is_of_the_path(report.outcome)) return;
  const PoseResult last = rig.last_on_the_way_to(refused.request);
  EXPECT_TRUE(last.report.usable()) << last.report.message;
  PoseRequest asked = refused.request;
  // Travel is told from the road: where that itself is not had, it is what was refused.
  PoseRequest road = asked;
  road.travel = 0;
  if (!rig.solve_place(road).report.usable()) asked = road;
  expect_an_end(rig, asked);
}

TEST(BadTrucks, GetPosesOrReasonsInBoundedSteps) {
  int poses = 0, refused = 0, most_steps = 0;
  const int trucks = for_bad_trucks(1, [&](const BadTruck& bad, const Truck& truck) {
    Rig rig(truck);
    for (const PoseRequest& request : grid_of(rig)) {
      SCOPED_TRACE(words_for(request));
      const PoseResult pose = rig.solve(request);
      ++poses;
      most_steps = std::max(most_steps, pose.report.iterations + pose.report.path_steps);
      for (const double value : pose.values) EXPECT_FALSE(std::isinf(value));
      if (pose.report.usable()) {
        EXPECT_LE(pose.report.residual, kResidualTolerance);
        EXPECT_LE(pose.report.set_aside_miss, kSetAsideTolerance);
        continue;
      }
      ++refused;
      expect_explained(rig, pose, (static_cast<std::uint64_t>(refused) + bad.seed) % 12 == 0);
    }
  });
  fmt::print("{} trucks, {} poses, {} of them refused; at most {} steps\n", trucks, poses, refused,
             most_steps);
  EXPECT_LE(most_steps, kMostSteps);
  EXPECT_GT(refused, poses / 20);
  EXPECT_GT(poses - refused, poses / 20);
}

// Not by a digit. Of a crossed tie rod a path by way of another lean ends in another pose, all of it on regular ground.
TEST(BadTrucks, HaveTheSamePosesWhateverWasAskedBefore) {
  for_bad_trucks(2, [](const BadTruck&, const Truck& truck) {
    Rig forwards(truck), backwards(truck);
    std::vector<PoseRequest> grid = grid_of(forwards);
    if (is_elastic(forwards)) grid.resize(8);
    std::vector<PoseResult> first;
    for (const PoseRequest& request : grid) first.push_back(forwards.solve_place(request));
    for (std::size_t k = grid.size(); k-- > 0;) {
      SCOPED_TRACE(words_for(grid[k]));
      const PoseResult again = backwards.solve_place(grid[k]);
      ASSERT_EQ(again.report.outcome, first[k].report.outcome);
      ASSERT_EQ(again.inputs, first[k].inputs);
      ASSERT_EQ(again.report.message, first[k].report.message);
    }
  });
}

// The follower goes by its rules of thumb, the covering by a proof: where there is one, it is of the same pose.
TEST(BadTrucks, FollowedPosesAreTheProvedOnes) {
  int proved = 0, unproved = 0;
  for_bad_trucks(2, [&](const BadTruck& bad, const Truck& truck) {
    Rig rig(truck);
    if (is_elastic(rig)) return;  // a proof is about rigid parts
    const std::vector<PoseRequest> grid = grid_of(rig);
    // Four poses of each truck, not the same ones of every truck.
    for (std::size_t k = bad.seed % 23; k < grid.size(); k += 27) {
      SCOPED_TRACE(words_for(grid[k]));
      const PoseResult pose = rig.solve_place(grid[k]);
      if (!pose.report.usable()) continue;
      BranchProof proof(rig.follower().assembly());
      if (proof.extend_to(inputs_at_height(rig, grid[k])).complete &&
          proof.extend_to(rig.inputs_for(grid[k])).complete) {
        ++proved;
        EXPECT_TRUE(proof.is_at(pose.state));
      } else {
        ++unproved;  // the pose was reached with the steering first or last, or near an end the steps of a proof get too short
      }
    }
  });
  fmt::print("{} poses proved, {} not\n", proved, unproved);
  EXPECT_GT(proved, 20 * unproved);
}

/// Along a straight line of inputs in so many equal steps.
bool go_finely(PathFollower& follower, const std::vector<double>& to, int steps) {
  const std::vector<double> from = follower.inputs();
  for (int step = 1; step <= steps; ++step) {
    std::vector<double> there(to.size());
    for (std::size_t k = 0; k < to.size(); ++k)
      there[k] = from[k] + (to[k] - from[k]) * step / steps;
    if (!follower.go_to(there).usable()) return false;
  }
  return true;
}

double apart(PathFollower& a, PathFollower& b) {
  double most = 0;
  for (std::size_t k = 0; k < a.kinematics().pose.size(); ++k) {
    for (const Vec3& place : {Vec3(0, 0, 0), Vec3(1, 0, 0), Vec3(0, 1, 0)}) {
      const Vec3 way = a.kinematics().pose[k].place(place) - b.kinematics().pose[k].place(place);
      most = std::max(most, way.norm());
    }
  }
  return most;
}

// Bushes have no such proof. Steps of some millimetres, where the follower takes up to 60, land in the same place.
TEST(BadTrucks, FineStepsLeadToTheSamePlaceOfRest) {
  constexpr int kSteps = 60;
  int compared = 0;
  for_bad_trucks(10, [&](const BadTruck& bad, const Truck&) {
    const Result<Truck> truck = bad_truck(10 * bad.seed).read();  // every tenth is held by bushes
    if (!truck) return;
    Rig rig(*truck);
    const std::vector<PoseRequest> grid = grid_of(rig);
    const PoseRequest& request = grid[bad.seed % grid.size()];
    SCOPED_TRACE(bad_truck(10 * bad.seed).words() + " at " + words_for(request));
    if (!rig.solve_place(request).report.usable()) return;
    PathFollower fine(rig.follower());
    fine.restart();
    if (!go_finely(fine, inputs_at_height(rig, request), kSteps) ||
        !go_finely(fine, rig.inputs_for(request), kSteps))
      return;  // reached with the steering first or last
    ++compared;
    EXPECT_LT(apart(fine, rig.follower()), kSamePlace);
  });
  fmt::print("{} places of rest compared\n", compared);
  EXPECT_GT(compared, 0);
}

// Locks, margins, limits and all: what a person asks for.
TEST(BadTrucks, CanBeSwept) {
  for_bad_trucks(10, [](const BadTruck&, const Truck& truck) {
    Rig rig(truck);
    SweepPlan plan = sweep_plan(truck, 2);
    plan.travels = plan.leans = plan.steerings = {0};
    const Sweep sweep = run_sweep(rig, plan);
    EXPECT_EQ(sweep.rows.size(), 2u);
    for (const Refusal& refusal : sweep.refusals) EXPECT_FALSE(refusal.report.message.empty());
  });
}

// --- what bad trucks have shown ---

// Its springs stand flat and over: a place of rest ends there, and that is no matter of a search that does not settle.
TEST(BadTrucks, ALeafTruckLoweredTooFarSnapsOver) {
  Rig rig(testing::truck_of("trucks/leaf.toml"));
  PoseRequest low;
  low.height = -0.30;
  const PoseResult pose = rig.solve(low);
  EXPECT_EQ(pose.report.outcome, Outcome::unstable) << pose.report.message;
  EXPECT_EQ(pose.report.what_ran_out, "the bushes and springs");
}

// A tie rod 45 mm too short for points that are far out: no words came with that.
TEST(BadTrucks, LengthsThatDoNotGoWithThePointsAreNamed) {
  Truck truck = testing::truck_of("trucks/plain-parallel.toml");
  for (Part& part : truck.parts) {
    // A track bar of 100 mm cannot be 1200 mm long; the reader would turn it down, the solver has to say so as well.
    if (auto* bar = std::get_if<Bar>(&part.what); bar != nullptr && bar->kind == BarKind::track_bar)
      bar->length = 0.1;
  }
  Rig rig(truck);
  const SolveReport& report = rig.aligned_report();
  EXPECT_EQ(report.outcome, Outcome::unassembled);
  EXPECT_EQ(report.what_ran_out, "track bar");
  EXPECT_NE(report.message.find("track bar misses the points as measured by"), std::string::npos)
      << report.message;
}

}  // namespace
}  // namespace axlewright::robust
