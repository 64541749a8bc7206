#include <algorithm>
#include <cmath>
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

// Places of rest on bushes, put to both solvers: Newton's method on Simbody's bushings and constraints, from disturbed bodies, to 1e-8 N
// of balance or so; for some also Simbody's own minimiser of energy.

namespace axlewright::oracle {
namespace {

constexpr double kPlace =
    1e-10;  // [m] 1e-7 mm, as for rigid trucks: our last step is shorter than that
constexpr double kTurn = from_deg(1e-8);
constexpr double kForce = 1e-3;   // [N] a stiff bush, 1e7 N/m, over kPlace
constexpr double kEnergy = 1e-5;  // [J] the largest forces, 1e5 N, over kPlace
constexpr double kWay = 0.012;    // [m] points are moved by up to this

// Simbody's minimiser gives up when asked for less of a gradient than this in a truck [N, N m]: over the softest way of a truck, some
// 1e5 N/m, 1e-9 m.
constexpr double kGradient = 1e-4;
constexpr double kMinimised = 1e-9;  // [m]

struct Tally {
  int trucks = 0, poses = 0, bushes = 0;
  double place = 0, turn = 0, force = 0, energy = 0, largest_force = 0, unbalanced = 0;
};

void compare_rest(const PathFollower& follower, const std::vector<InputId>& held,
                  std::uint64_t seed, Tally& tally) {
  const RestDifference d = compare_rest_here(follower, held, seed);
  ASSERT_TRUE(d.closed) << "the second solver found no place of rest";
  EXPECT_LT(d.place, kPlace);
  EXPECT_LT(d.turn, kTurn);
  EXPECT_LT(d.force, kForce) << d.worst_bush << ", largest force " << d.largest_force;
  EXPECT_LT(d.energy, kEnergy);
  EXPECT_GT(d.stiffness, 0) << "no minimum";
  ++tally.poses;
  tally.bushes += d.bushes;
  tally.place = std::max(tally.place, d.place);
  tally.turn = std::max(tally.turn, d.turn);
  tally.force = std::max(tally.force, d.force);
  tally.energy = std::max(tally.energy, d.energy);
  tally.largest_force = std::max(tally.largest_force, d.largest_force);
  tally.unbalanced = std::max(tally.unbalanced, d.unbalanced);
}

void tell(const std::string& name, const Tally& tally) {
  fmt::print(
      "{}: {} of them, {} poses, {} bushes of up to {:.0f} N; furthest apart {:.1e} mm, {:.1e} "
      "deg, "
      "{:.1e} N, {:.1e} J; second solver out of balance by {:.1e} N\n",
      name, tally.trucks, tally.poses, tally.bushes, tally.largest_force, to_mm(tally.place),
      to_deg(tally.turn), tally.force, tally.energy, tally.unbalanced);
}

void compare_truck(const Truck& truck, std::uint64_t seed, double share, Tally& tally) {
  ++tally.trucks;
  const Expansion x = expand(truck);
  PathFollower follower(assemble(x.mechanism, held_of(x)));
  ASSERT_EQ(follower.assembly().soundness, Soundness::sound) << follower.assembly().message;
  ASSERT_FALSE(follower.assembly().bushes.empty());
  std::uint64_t pose = 0;
  for (const Corner& at : corners(truck, share)) {
    SCOPED_TRACE(fmt::format("seed {}, {}", seed, words_for(at)));
    const SolveReport report = follower.go_to(inputs_at(x, follower, at));
    ASSERT_TRUE(report.usable()) << report.message;
    compare_rest(follower, held_of(x), 1000 * seed + pose++, tally);
    if (::testing::Test::HasFatalFailure()) return;
  }
  if (tally.trucks > 1) return;
  // At the last pose, a corner of the ranges.
  EXPECT_LT(apart_after_own_path(follower, held_of(x)), kPlace) << "not the same branch";
}

void compare_family(const std::string& name, const Truck& nominal, std::uint64_t first_seed,
                    int trucks) {
  Tally tally;
  const double share = share_within_reach(nominal);
  ASSERT_GT(share, 0);
  compare_truck(nominal, first_seed, share, tally);
  for (int k = 1; k < trucks; ++k) {
    const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(k);
    compare_truck(with_other_bushes(with_moved_points(nominal, seed, kWay), seed), seed, share,
                  tally);
  }
  tell(name, tally);
}

struct Sample {
  Mechanism mechanism;
  InputId input{};
};

/// A beam in two bushes on the frame and on a rigid rod, its one end lowered.
Sample beam_on_bushes() {
  Sample s;
  Mechanism& m = s.mechanism;
  const BodyId beam = m.add_body("beam");
  m.add_bush("frame to beam", kFrame, beam, Vec3(0, 0.5, 0.4), Vec3(0.1, 1, 0),
             {.along = Vec3(3e6, 2.5e6, 0.4e6), .about = Vec3(900, 700, 60)});
  m.add_bush("beam to frame", beam, kFrame, Vec3(0.1, -0.5, 0.4), Vec3(0, 1, 0.2),
             {.along = Vec3(2e6, 0, 0.3e6), .about = Vec3(400, 0, 90)});
  m.add_bar("rod", kFrame, Vec3(-0.8, 0.1, 0.3), beam, Vec3(-0.1, 0.1, 0.45));
  s.input = m.add_input({.name = "height",
                         .kind = InputKind::coordinate,
                         .anchor = m.add_anchor("end", beam, Vec3(0.1, -0.4, 0.4)),
                         .axis = m.add_axis("up", kFrame, Vec3::UnitZ())});
  return s;
}

/// A block between two bushes, the one to the frame and the other to an arm that is turned: both bushes are turned far, about all
/// three axes.
Sample block_between_bushes() {
  Sample s;
  Mechanism& m = s.mechanism;
  const BodyId arm = m.add_body("arm"), block = m.add_body("block");
  const Vec3 axis(0.5, 0.3, 1);
  const JointId pin = m.add_pin("arm pin", kFrame, arm, Vec3(0.1, 0, 0), axis);
  m.add_bush("frame to block", kFrame, block, Vec3(0, 0, 0), Vec3(1, 0.4, -0.2),
             {.along = Vec3(2e5, 1e5, 3e5), .about = Vec3(600, 300, 450)});
  m.add_bush("arm to block", arm, block, Vec3(0.2, 0.05, 0), Vec3(-0.3, 1, 0.5),
             {.along = Vec3(1e5, 3e5, 2e5), .about = Vec3(400, 500, 250)});
  s.input = m.add_input({.name = "arm", .kind = InputKind::turn, .joint = pin});
  return s;
}

void compare_sample(const std::string& name, const Sample& sample, double most, int poses) {
  Tally tally;
  ++tally.trucks;
  PathFollower follower(assemble(sample.mechanism, {sample.input}));
  const double measured = follower.as_measured_inputs()[0];
  for (int pose = 0; pose < poses; ++pose) {
    const double way = most * (2.0 * pose / (poses - 1) - 1);
    SCOPED_TRACE(fmt::format("input moved by {}", way));
    ASSERT_TRUE(follower.go_to({measured + way}).usable()) << follower.report().message;
    compare_rest(follower, {sample.input}, static_cast<std::uint64_t>(pose), tally);
    if (::testing::Test::HasFatalFailure()) return;
  }
  tell(name, tally);
}

TEST(RestOnBushes, Beam) {
  compare_sample("beam on bushes", beam_on_bushes(), 0.04, 21);
}

TEST(RestOnBushes, BlockTurnedFar) {
  compare_sample("block between bushes", block_between_bushes(), 0.9, 21);
}

/// trucks/leaf.toml with each half spring of so many pieces; 0: the three-link equivalent.
Truck on_leaf_springs(int pieces) {
  Truck truck = axlewright::testing::truck_of("trucks/leaf.toml");
  for (Part& part : truck.parts) {
    if (auto* leaf = std::get_if<LeafSpring>(&part.what)) leaf->pieces = pieces;
  }
  return truck;
}

TEST(RestOnBushes, RadiusArms) {
  compare_family("radius arms", axlewright::testing::truck_of("trucks/radius-arm.toml"), 400, 5);
}

TEST(RestOnBushes, FourLinks) {
  compare_family("four links in bushes", family_truck({.links = Links::four_in_bushes}), 450, 5);
}

TEST(RestOnBushes, LeafSprings) {
  compare_family("leaf springs", on_leaf_springs(0), 500, 5);
}

// Six to each half: 31 bodies, 30 bushes.
TEST(RestOnBushes, LeafSpringsInPieces) {
  compare_family("leaf springs, six pieces a half", on_leaf_springs(6), 550, 1);
}

// The layout files, as they stand.
TEST(RestOnBushes, Layouts) {
  for (const char* name : {"radius_arms", "four_links_bushed", "leaf_springs", "leaf_pieces"}) {
    SCOPED_TRACE(name);
    compare_family(name, axlewright::testing::truck_of(fmt::format("tests/layouts/{}.toml", name)),
                   600, 1);
  }
}

// No step of ours in it: the minimiser is Simbody's.
TEST(RestOnBushes, SimbodysMinimiserEndsThere) {
  for (const Sample& sample : {beam_on_bushes(), block_between_bushes()}) {
    PathFollower follower(assemble(sample.mechanism, {sample.input}));
    ASSERT_TRUE(follower.go_to({follower.as_measured_inputs()[0] + 0.03}).usable());
    EXPECT_LT(apart_from_minimised(follower, {sample.input}, 1, kGradient), kMinimised);
  }
  const Truck truck = axlewright::testing::truck_of("trucks/radius-arm.toml");
  const Expansion x = expand(truck);
  PathFollower follower(assemble(x.mechanism, held_of(x)));
  const std::vector<Corner> all = corners(truck, 1);
  for (const std::size_t pose : {std::size_t{0}, std::size_t{4}, std::size_t{13}}) {
    SCOPED_TRACE(words_for(all[pose]));
    ASSERT_TRUE(follower.go_to(inputs_at(x, follower, all[pose])).usable());
    EXPECT_LT(apart_from_minimised(follower, held_of(x), pose, kGradient), kMinimised);
  }
}

}  // namespace
}  // namespace axlewright::oracle
