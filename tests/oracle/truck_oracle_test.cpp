#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/solve/follower.h"
#include "engine/truck/expand.h"
#include "tests/oracle/compare.h"
#include "tests/oracle/truck_families.h"
#include "tests/oracle/truck_poses.h"
#include "tests/support/truck_files.h"

// Generated trucks in 27 poses each (height x lean x steering), put to both solvers.

namespace axlewright::oracle {
namespace {

constexpr int kTrucks = 20;
constexpr double kWay = 0.012;    // [m] points are moved by up to this
constexpr double kPlace = 1e-10;  // [m] 1e-7 mm
constexpr double kTurn = from_deg(1e-8);
constexpr double kForce = 1e-4;       // [N] or, where reactions are large,
constexpr double kStill = 1e-6;       // [m/s2] of bodies of 1 kg under 1000 N
constexpr double kForceShare = 1e-9;  // of the largest
constexpr double kNearBind =
    0.02;  // smallest singular value below which the tolerances grow with its inverse

struct Tally {
  int trucks = 0, poses = 0, reactions = 0, undetermined = 0;
  double place = 0, turn = 0, force = 0;
  std::vector<std::string> set_aside;
};

void compare_pose(PathFollower& follower, const std::vector<InputId>& held, std::uint64_t seed,
                  Tally& tally) {
  const Difference d = compare_here(follower, held, seed);
  ASSERT_TRUE(d.closed) << "the second solver found no pose";
  double ease = 1;
  if (d.place > kPlace || d.turn > kTurn || d.force > kForce || d.acceleration > kStill) {
    ease = std::max(1.0, kNearBind / follower.smallest_singular_value());
  }
  EXPECT_LT(d.place, kPlace * ease);
  EXPECT_LT(d.turn, kTurn * ease);
  EXPECT_LT(d.force, std::max(kForce, kForceShare * d.largest_reaction) * ease)
      << d.worst_joint << ", largest reaction " << d.largest_reaction;
  EXPECT_LT(d.acceleration, kStill * ease * ease);  // it hangs on the square of the condition
  ++tally.poses;
  tally.reactions += d.reactions;
  tally.undetermined += d.undetermined;
  tally.place = std::max(tally.place, d.place);
  tally.turn = std::max(tally.turn, d.turn);
  tally.force = std::max(tally.force, d.force);
}

void compare_truck(const Truck& truck, std::uint64_t seed, double share, Tally& tally) {
  ++tally.trucks;
  const Expansion x = expand(truck);
  PathFollower follower(assemble(x.mechanism, held_of(x)));
  if (follower.assembly().soundness != Soundness::sound) {
    tally.set_aside.push_back(fmt::format("seed {}: {}", seed, follower.assembly().message));
    return;
  }
  std::uint64_t pose = 0;
  for (const Corner& at : corners(truck, share)) {
    SCOPED_TRACE(fmt::format("seed {}, {}", seed, words_for(at)));
    const std::vector<double> inputs = inputs_at(x, follower, at);
    const SolveReport report = follower.go_to(inputs);
    if (!report.usable()) {
      tally.set_aside.push_back(
          fmt::format("seed {}, {}: {}", seed, words_for(at), report.message));
      EXPECT_FALSE(second_gets_to(follower, held_of(x), inputs)) << "the second solver gets there";
      return;
    }
    compare_pose(follower, held_of(x), 1000 * seed + pose++, tally);
    if (::testing::Test::HasFatalFailure()) return;
  }
  if (tally.trucks > 1) return;
  // At the last pose, a corner of the ranges. Ten times the tolerance: fifty poses' roundings add up.
  EXPECT_LT(apart_after_own_path(follower, held_of(x)), 10 * kPlace) << "not the same branch";
}

void compare_family(const std::string& name, const Truck& nominal, std::uint64_t first_seed) {
  Tally tally;
  const double share = share_within_reach(nominal);
  ASSERT_GT(share, 0);
  compare_truck(nominal, first_seed, share, tally);
  for (int k = 1; k < kTrucks; ++k) {
    const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(k);
    compare_truck(with_moved_points(nominal, seed, kWay), seed, share, tally);
  }
  fmt::print(
      "{}: {} trucks from seed {}, {:.0f} % of their ranges, {} poses, {} reactions ({} "
      "undetermined); furthest apart {:.1e} mm, {:.1e} deg, {:.1e} N\n",
      name, tally.trucks, first_seed, 100 * share, tally.poses, tally.reactions, tally.undetermined,
      to_mm(tally.place), to_deg(tally.turn), tally.force);
  for (const std::string& reason : tally.set_aside) fmt::print("  set aside: {}\n", reason);
  EXPECT_LE(static_cast<double>(tally.set_aside.size()), 0.05 * tally.trucks);
  EXPECT_GT(tally.reactions, 0);
}

TEST(TruckFamilies, PlainBars) {
  compare_family("plain bars", family_truck({}), 100);
}

TEST(TruckFamilies, GuidedBars) {
  compare_family("guided bars", family_truck({.guided_steering = true, .guided_locator = true}),
                 200);
}

TEST(TruckFamilies, GuidedBarsWithBodiesAndCarriages) {
  compare_family("guided bars, half-links pinned bodies, carriages on slides",
                 family_truck({.guided_steering = true,
                               .guided_locator = true,
                               .keeper = true,
                               .half_link = HalfLink::pinned_body,
                               .carriage = Carriage::slide}),
                 300);
}

TEST(TruckFamilies, FourBarAndGuidedSteeringOnARocker) {
  compare_family("four-bar, guided steering on a rocker",
                 family_truck({.guided_steering = true,
                               .four_bar_locator = true,
                               .keeper = true,
                               .carriage = Carriage::rocker}),
                 400);
}

TEST(TruckFamilies, GuidedBarsWithBodiesOnRockers) {
  compare_family("guided bars, half-links pinned bodies, on rockers",
                 family_truck({.guided_steering = true,
                               .guided_locator = true,
                               .half_link = HalfLink::pinned_body,
                               .carriage = Carriage::rocker}),
                 500);
}

Truck layout_truck(const std::string& name) {
  return axlewright::testing::truck_of("tests/layouts/" + name + ".toml");
}

bool rests_on_bushes(const Truck& truck) {
  const std::vector<Joint> joints = expand(truck).mechanism.joints;
  return std::any_of(joints.begin(), joints.end(),
                     [](const Joint& joint) { return joint.kind == JointKind::bush; });
}

/// Every layout of rigid parts, by the name of its file; those on bushes are in bush_oracle_test.cpp, and base.toml is no truck by itself.
std::vector<std::string> layouts() {
  std::vector<std::string> names;
  for (const auto& file : std::filesystem::directory_iterator(AXLEWRIGHT_ROOT "/tests/layouts")) {
    if (file.path().extension() == ".toml") names.push_back(file.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  names.erase(std::remove_if(names.begin(), names.end(),
                             [](const std::string& name) {
                               return name == "base" || rests_on_bushes(layout_truck(name));
                             }),
              names.end());
  return names;
}

class Layout : public ::testing::TestWithParam<std::string> {};

TEST_P(Layout, AgreesWithASecondSolver) {
  const Truck truck = layout_truck(GetParam());
  ASSERT_FALSE(::testing::Test::HasFailure());
  std::uint64_t seed = 0;
  for (const char c : GetParam()) seed = (31 * seed + static_cast<unsigned char>(c)) % 1000000;
  compare_family(GetParam(), truck, 1000 * seed);
}

INSTANTIATE_TEST_SUITE_P(Layouts, Layout, ::testing::ValuesIn(layouts()),
                         [](const auto& layout) { return layout.param; });

}  // namespace
}  // namespace axlewright::oracle
