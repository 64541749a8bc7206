// What must not matter does not: which side is left, where the origin is, how large the truck is, in which order its file lists
// things, from which side a pose is reached, which run it is.

#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/changed_truck.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::grown;
using testing::listed_backwards;
using testing::mirrored;
using testing::moved;
using testing::other_side;
using testing::truck_of;

using Values = std::map<std::string, double>;

/// Example trucks, and layouts with what those lack.
const std::vector<const char*>& files() {
  static const std::vector<const char*> list = {
      "trucks/plain-mismatched",
      "trucks/plain-parallel",
      "trucks/half-converted",
      "trucks/guided-loose",
      "trucks/guided",
      "trucks/radius-arm",
      "tests/layouts/leaf_springs",
      "trucks/rocker-guided",
      "trucks/four-bar",
      "tests/layouts/kingpins_two_balls",
      "tests/layouts/drag_link_tie_rod_bracket",
      "tests/layouts/push_pull_drag_link",
      "tests/layouts/tie_rod_rear",
      "tests/layouts/track_bar",
      "tests/layouts/guided_steering_guide_on_pitman",
      "tests/layouts/guided_pinned_slide",
      "tests/layouts/guided_ball_slide",
      "tests/layouts/guided_keepers",
      "tests/layouts/guided_bracket",
      "tests/layouts/guided_middle_off_the_line",
      "tests/layouts/four_bar_crank_on_axle",
      "tests/layouts/four_bar_tilted_pivot",
      "tests/layouts/guided_rocker",
      "tests/layouts/inverted_y_boss",
      "tests/layouts/relay_two_arms",
      "tests/layouts/relay_centre",
      "tests/layouts/plain_joints",
      "tests/layouts/studs",
      "tests/layouts/rear_axle",
      "tests/layouts/rear_axle_as_measured",
  };
  return list;
}

Truck read(const char* file) {
  return truck_of(std::string(file) + ".toml");
}

/// Poses that use every input; within reach of all of the trucks.
std::vector<PoseRequest> requests(const Truck& truck) {
  std::vector<PoseRequest> list;
  for (const double share : {0.0, 0.6, 1.0}) {
    PoseRequest r;
    r.height = truck.height_range[1] * share;
    list.push_back(r);
    r.lean = from_deg(2);
    r.travel_left = 0.020;
    r.rear_height = 0.030;
    list.push_back(r);
    r.travel = -0.015;
    r.steer_by = SteerBy::pitman;
    r.steer = from_deg(7);
    list.push_back(r);
  }
  return list;
}

Values values_of(Rig& rig, const PoseRequest& request) {
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  Values values;
  for (std::size_t k = 0; k < pose.values.size(); ++k)
    values[rig.quantities()[k].key] = pose.values[k];
  return values;
}

void expect_same(const Values& a, const Values& b, double tolerance) {
  ASSERT_EQ(a.size(), b.size());
  for (const auto& [key, value] : a) {
    ASSERT_EQ(b.count(key), 1u) << key;
    if (std::isnan(value)) {
      EXPECT_TRUE(std::isnan(b.at(key))) << key;
    } else {
      EXPECT_NEAR(value, b.at(key), tolerance * (1 + std::abs(value))) << key;
    }
  }
}

/// 1e-12 as the solver leaves it [m, rad], ten times that for a place of rest, whose soft directions a last step settles less well;
/// the steering wheel shows the pitman ball 16 / 0.165 m times larger.
void expect_same_digits(const Rig& rig, const Values& a, const Values& b) {
  const double rest = rig.held().assembly().bushes.empty() ? 1 : 10;
  for (const bool of_wheel : {false, true}) {
    Values some_a, some_b;
    for (const auto& [values, some] : {std::pair{&a, &some_a}, std::pair{&b, &some_b}}) {
      for (const auto& [key, value] : *values) {
        if ((key.rfind("steering_wheel", 0) == 0) == of_wheel) (*some)[key] = value;
      }
    }
    expect_same(some_a, some_b, rest * (of_wheel ? 1e-10 : 1e-12));
  }
}

/// An angle between two directions is only as good as the root of what it is squared from: half of the digits near zero.
bool is_small_angle(const std::string& key) {
  return key.rfind("tilt.", 0) == 0;
}

class EveryTruck : public ::testing::TestWithParam<const char*> {};

// ---- mirror

/// Whether a quantity changes sign in the mirror: those with a side to them.
bool is_sided(const std::string& key) {
  for (const char* start : {"steering_wheel", "pitman_angle", "mean_steer", "steer_", "bump_steer",
                            "one_wheel_bump_steer", "axle_walk_side", "axle_yaw", "rear_walk_side",
                            "thrust_angle", "front_angle.", "parallel_miss", "spin.", "turn."}) {
    if (key.rfind(start, 0) == 0) return true;
  }
  return false;
}

Values seen_in_mirror(const Values& values) {
  Values seen;
  for (const auto& [key, value] : values) seen[other_side(key)] = is_sided(key) ? -value : value;
  return seen;
}

PoseRequest seen_in_mirror(PoseRequest r) {
  std::swap(r.travel_left, r.travel_right);
  r.lean = -r.lean;
  r.steer = -r.steer;
  return r;
}

TEST_P(EveryTruck, MirroredGivesMirroredAnswers) {
  Rig rig(read(GetParam()));
  Rig mirror(mirrored(rig.truck()));
  for (const PoseRequest& request : requests(rig.truck())) {
    // 1e-10: two solutions to 1e-11 m each; a bump steer is a quotient of such.
    expect_same(seen_in_mirror(values_of(rig, request)), values_of(mirror, seen_in_mirror(request)),
                1e-10);
  }
}

// ---- move, turn, grow

TEST_P(EveryTruck, OriginDoesNotMatter) {
  Rig rig(read(GetParam()));
  // The origin is free but for the middle plane: only x and z.
  Rig elsewhere(moved(rig.truck(), {0.731, 0, -0.317}));
  for (const PoseRequest& request : requests(rig.truck())) {
    expect_same(values_of(rig, request), values_of(elsewhere, request), 1e-10);
  }
}

/// A quarter turn to the left about z, exact in floating point.
Vec3 turned(const Vec3& p) {
  return {-p.y(), p.x(), p.z()};
}

Mechanism turned(Mechanism m) {
  for (Anchor& anchor : m.anchors) anchor.at = turned(anchor.at);
  for (Axis& axis : m.axes) {
    axis.direction = turned(axis.direction);
    if (axis.from.value < 0) continue;
    const Vec3 span = m.anchor(axis.to).at - m.anchor(axis.from).at;
    const Vec3 line = span / span.norm();
    axis.direction = direction_on_side<double>(line, axis.side, line);
  }
  return m;
}

// Quantities hang on x being ahead, places do not: the whole mechanism turned about z goes through the same places, turned.
TEST_P(EveryTruck, TurnedAboutUpGoesThroughTheSamePlaces) {
  const Expansion x = expand(read(GetParam()));
  std::vector<InputId> held = height_inputs(x);
  held.push_back(x.pitman_turn);
  PathFollower straight(assemble(x.mechanism, held));
  PathFollower across(assemble(turned(x.mechanism), held));
  std::vector<double> inputs = straight.as_measured_inputs();
  std::vector<double> inputs_across = across.as_measured_inputs();
  for (const double step : {0.5, 1.0}) {
    for (auto* list : {&inputs, &inputs_across}) {
      (*list)[static_cast<std::size_t>(x.height.left.value)] -= 0.060 * step;
      (*list)[static_cast<std::size_t>(x.height.right.value)] -= 0.045 * step;
      (*list)[static_cast<std::size_t>(x.pitman_turn.value)] += from_deg(5) * step;
    }
    ASSERT_TRUE(straight.go_to(inputs).usable()) << straight.report().message;
    ASSERT_TRUE(across.go_to(inputs_across).usable()) << across.report().message;
    for (const Anchor& anchor : x.mechanism.anchors) {
      const std::size_t body = static_cast<std::size_t>(anchor.body.value);
      const Vec3 place = straight.kinematics().pose[body].place(anchor.at);
      const Vec3 place_across = across.kinematics().pose[body].place(turned(anchor.at));
      EXPECT_LT((turned(place) - place_across).norm(), 1e-11) << anchor.name;
    }
  }
}

TEST_P(EveryTruck, GrownKeepsItsAnglesAndGrowsItsLengths) {
  constexpr double kFactor = 1.7;
  Rig rig(read(GetParam()));
  Rig large(grown(rig.truck(), kFactor));
  for (const PoseRequest& request : requests(rig.truck())) {
    PoseRequest larger = request;
    for (double* way : {&larger.height, &larger.rear_height, &larger.travel, &larger.travel_left,
                        &larger.travel_right})
      *way *= kFactor;
    Values values = values_of(rig, request);
    for (const QuantityInfo& info : rig.quantities()) {
      if (info.unit == QuantityUnit::length) values[info.key] *= kFactor;
      if (info.unit == QuantityUnit::angle_per_bump)
        values[info.key] /= kFactor;  // the bump has not grown
    }
    expect_same(values, values_of(large, larger), 1e-10);
  }
}

// ---- order, direction, repetition

TEST_P(EveryTruck, OrderInTheFileDoesNotMatter) {
  Rig rig(read(GetParam()));
  Rig backwards(listed_backwards(rig.truck()));
  for (const PoseRequest& request : requests(rig.truck())) {
    Values a = values_of(rig, request), b = values_of(backwards, request);
    for (Values* values : {&a, &b}) {
      for (auto& [key, value] : *values) {
        if (is_small_angle(key)) value *= value;
      }
    }
    expect_same_digits(rig, a, b);
  }
}

TEST_P(EveryTruck, SweepBackwardsComesThroughTheSamePoses) {
  Rig rig(read(GetParam()));
  constexpr int kSteps = 20;
  std::vector<Values> up;
  const auto at = [&](int k) {
    PoseRequest request;
    request.height = rig.truck().height_range[1] * k / kSteps;
    return values_of(rig, request);
  };
  for (int k = 0; k <= kSteps; ++k) up.push_back(at(k));
  for (int k = kSteps; k >= 0; --k) {
    Values down = at(k);
    for (Values* values : {&up[static_cast<std::size_t>(k)], &down}) {
      for (auto& [key, value] : *values) {
        if (is_small_angle(key)) value *= value;
      }
    }
    expect_same_digits(rig, up[static_cast<std::size_t>(k)], down);
  }
}

TEST_P(EveryTruck, SameDigitsEveryRun) {
  const Truck truck = read(GetParam());
  Rig first(truck), second(truck);
  for (const PoseRequest& request : requests(truck)) {
    const PoseResult a = first.solve(request), b = second.solve(request);
    ASSERT_EQ(a.values.size(), b.values.size());
    for (std::size_t k = 0; k < a.values.size(); ++k) {
      EXPECT_TRUE(a.values[k] == b.values[k] ||
                  (std::isnan(a.values[k]) && std::isnan(b.values[k])))
          << first.quantities()[k].key;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Trucks, EveryTruck, ::testing::ValuesIn(files()),
                         [](const ::testing::TestParamInfo<const char*>& info) {
                           std::string name = info.param;
                           name = name.substr(name.rfind('/') + 1);
                           for (char& c : name) c = c == '-' ? '_' : c;
                           return name;
                         });

}  // namespace
}  // namespace axlewright
