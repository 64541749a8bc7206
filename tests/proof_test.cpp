// What is proved of whole trucks, against the follower, against where the linkage is known to end, and against margins, which know nothing of proofs.

#include "engine/study/proof.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/solve/covering.h"
#include "engine/study/margin.h"
#include "engine/study/sweep.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::CrossBar;
using testing::StraightAxle;
using testing::truck_of;

constexpr double kPlace = 1e-4;  // [m] the follower's shortest step and a proof's are far shorter
constexpr double kAngle = 0.1 * kRadiansPerDegree;  // of the steering wheel

Truck plain() {
  return truck_of(StraightAxle{.track_bar = CrossBar{}, .drag_link = CrossBar{}});
}

const ProofPart& part_of(const RangeProof& proof, ProofPart::Of of) {
  const auto part = std::find_if(proof.parts.begin(), proof.parts.end(),
                                 [&](const ProofPart& p) { return p.of == of; });
  EXPECT_NE(part, proof.parts.end());
  return *part;
}

const Margin& margin_of(const std::vector<Margin>& margins, const std::string& input) {
  const auto margin = std::find_if(margins.begin(), margins.end(),
                                   [&](const Margin& m) { return m.input == input; });
  EXPECT_NE(margin, margins.end());
  return *margin;
}

class ExampleTruck : public ::testing::TestWithParam<const char*> {};

TEST(Proof, CanBeCancelled) {
  Rig rig(truck_of("trucks/guided.toml"));
  int told = 0;
  double last = -1;
  const RangeProof proof = prove_range(rig, [&](double share) {
    EXPECT_GT(share, last);
    last = share;
    return ++told < 5;
  });
  EXPECT_TRUE(proof.cancelled);
  EXPECT_EQ(told, 5);
  EXPECT_EQ(proof.certificate, Certificate::followed);
}

TEST_P(ExampleTruck, IsProvedOverItsRange) {
  Rig rig(truck_of(GetParam()));
  const RangeProof proof = prove_range(rig);
  EXPECT_EQ(proof.certificate, Certificate::proved);
  ASSERT_EQ(proof.parts.size(), 5u);  // two areas, the steering at three heights
  for (const ProofPart& part : proof.parts) EXPECT_TRUE(part.complete) << part.stopped_by;
  EXPECT_LE(proof.largest_h, 0.5);
  EXPECT_GT(proof.smallest_radius, 0);
  EXPECT_EQ(proof.holds_loose_parts, !rig.held().assembly().loose.empty());
}

// The follower found the corners by its own rules, the proof by its own: they are the same poses.
TEST_P(ExampleTruck, ProvedCornersAreThoseOfTheFollower) {
  Rig rig(truck_of(GetParam()));
  const Truck& truck = rig.truck();
  const double low = truck.height_range[0], high = truck.height_range[1];
  for (const SteerBy by : {SteerBy::straight_ahead, SteerBy::held}) {
    const bool rolls = by == SteerBy::straight_ahead;
    for (const bool top : {false, true}) {
      for (const double lean : {-truck.lean, truck.lean}) {
        PoseRequest corner;
        corner.height = top ? high : low;
        corner.travel = top ? -travel_range(truck, high).droop : travel_range(truck, low).bump;
        corner.lean = lean;
        corner.steer_by = by;
        const PoseResult followed = rig.solve_place(corner);
        ASSERT_TRUE(followed.report.usable());
        BranchProof proof((rolls ? rig.rolling() : rig.held()).assembly());
        ASSERT_TRUE(proof.extend_to(rig.inputs_for(corner)).complete);
        EXPECT_TRUE(proof.is_at(followed.state));  // to 1e-8 m
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Trucks, ExampleTruck,
                         ::testing::Values("trucks/plain-parallel.toml",
                                           "trucks/plain-mismatched.toml",
                                           "trucks/half-converted.toml", "trucks/guided.toml",
                                           "trucks/guided-loose.toml"),
                         [](const auto& info) {
                           std::string name = info.param;
                           name = name.substr(7, name.size() - 12);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

// Equal parallel bars of 900, frame ends 60 higher: they stand upright when the truck is 840 up, and go no further.
TEST(RangeProof, StopsWhereTheBarsStandUpright) {
  Truck truck = plain();
  truck.height_range = {0, 0.9};
  Rig rig(truck);
  const RangeProof proof = prove_range(rig);
  EXPECT_EQ(proof.certificate, Certificate::followed);
  for (const ProofPart::Of of : {ProofPart::Of::straight_ahead, ProofPart::Of::held}) {
    const ProofPart& part = part_of(proof, of);
    ASSERT_FALSE(part.complete);
    EXPECT_LT(part.stopped_at.height, 0.84);
    EXPECT_NEAR(part.stopped_at.height, 0.84, kPlace);
    EXPECT_EQ(part.stopped_at.travel, 0);
    EXPECT_FALSE(part.stopped_by.empty());
  }
}

// Travel counts as height does: 235 up and 605 of droop are 840 as well.
TEST(RangeProof, StopsWhereDroopEndsTheLinkage) {
  Truck truck = plain();
  truck.height_range = {0, 0.235};
  truck.travel = {};
  truck.travel.bump = 0.05;
  truck.travel.droop = 0.65;
  Rig rig(truck);
  const RangeProof proof = prove_range(rig);
  const ProofPart& part = part_of(proof, ProofPart::Of::held);
  ASSERT_FALSE(part.complete);
  EXPECT_EQ(part.stopped_at.height, 0.235);
  EXPECT_NEAR(part.stopped_at.travel, -0.605, kPlace);
}

class RaisedTruck : public ::testing::TestWithParam<const char*> {};

TEST_P(RaisedTruck, StopsWhereTheFollowerDoes) {
  Truck truck = truck_of(GetParam());
  truck.height_range = {0, 0.5};
  Rig rig(truck);
  const RangeProof proof = prove_range(rig);
  const ProofPart& part = part_of(proof, ProofPart::Of::straight_ahead);
  ASSERT_FALSE(part.complete);
  const Margin up = margin_of(find_margins(rig), "height, up");
  EXPECT_NEAR(part.stopped_at.height, up.end, kPlace);
  EXPECT_EQ(part.stopped_by, up.what_ran_out + " " + up.how_it_ran_out);
  // What is asked for lower down is proved all the same.
  const auto steering = std::find_if(
      proof.parts.begin(), proof.parts.end(),
      [](const ProofPart& p) { return p.of == ProofPart::Of::steering && p.height == 0; });
  ASSERT_NE(steering, proof.parts.end());
  EXPECT_TRUE(steering->complete);
}

INSTANTIATE_TEST_SUITE_P(Trucks, RaisedTruck,
                         ::testing::Values("trucks/plain-parallel.toml",
                                           "trucks/plain-mismatched.toml",
                                           "trucks/half-converted.toml"),
                         [](const auto& info) {
                           std::string name = info.param;
                           name = name.substr(7, name.size() - 12);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

// The gear would turn the pitman arm by 90 deg; the linkage runs out before.
TEST(RangeProof, SteeringStopsWhereTheFollowerDoes) {
  Truck truck = plain();
  truck.gear.stop_left = truck.gear.stop_right = from_deg(16 * 90.0);
  Rig rig(truck);
  const RangeProof proof = prove_range(rig);
  EXPECT_EQ(proof.certificate, Certificate::followed);
  const ProofPart& part = part_of(proof, ProofPart::Of::steering);
  ASSERT_FALSE(part.complete);
  PoseRequest far = part.stopped_at;
  far.steer = part.stopped_at.steer > 0 ? truck.gear.stop_left : -truck.gear.stop_right;
  // From straight ahead to the stop: the share that the follower reaches, of the pitman arm's way.
  PathFollower follower = rig.held();
  follower.restart();
  PoseRequest start = far;
  start.steer_by = SteerBy::held;
  ASSERT_TRUE(follower.go_to(rig.inputs_for(start)).usable());
  const SolveReport report = follower.go_to(rig.inputs_for(far));
  ASSERT_FALSE(report.usable());
  EXPECT_NEAR(part.stopped_at.steer, report.path_reached * far.steer, kAngle);
  EXPECT_EQ(part.stopped_by, report.what_ran_out + " " + report.how_it_ran_out);
}

TEST(RangeProof, WithoutAPitmanArmOnlyGoingStraightIsThere) {
  Truck truck = plain();
  const auto remove = [](auto& list, const std::string& name) {
    const auto named = [&](const auto& one) { return one.name == name; };
    list.erase(std::remove_if(list.begin(), list.end(), named), list.end());
  };
  for (const char* part : {"drag_link", "pitman_arm"}) remove(truck.parts, part);
  for (const char* point :
       {"pitman_ball", "drag_link_knuckle", "sector_shaft_low", "sector_shaft_high"})
    remove(truck.points, point);
  Rig rig(truck);
  const RangeProof proof = prove_range(rig);
  EXPECT_EQ(proof.certificate, Certificate::proved);
  ASSERT_EQ(proof.parts.size(), 1u);
  EXPECT_EQ(proof.parts.front().of, ProofPart::Of::straight_ahead);
}

TEST(RangeProof, NothingIsProvedOfWhatCannotBePosed) {
  Rig rig(truck_of("trucks/dunlin-35.toml"));
  const RangeProof proof = prove_range(rig);
  EXPECT_EQ(proof.certificate, Certificate::none);
  EXPECT_TRUE(proof.parts.empty());
}

}  // namespace
}  // namespace axlewright
