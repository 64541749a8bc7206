// Derivatives against differences: the Jacobian that the solver eliminates, and every sensitivity that a truck can be asked for.

#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/dual.h"
#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/truck/gear.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::truck_of;

Truck read(const char* file) {
  return truck_of(std::string(file) + ".toml");
}

std::string test_name(const ::testing::TestParamInfo<const char*>& info) {
  std::string name = info.param;
  name = name.substr(name.rfind('/') + 1);
  for (char& c : name) c = c == '-' ? '_' : c;
  return name;
}

// ---- the Jacobian

class Jacobian : public ::testing::TestWithParam<const char*> {};

/// Residuals of all equations after a step of one coordinate.
template <class T>
std::vector<T> residuals_after(const PathFollower& at, int coordinate, const T& step) {
  const System& system = at.system();
  StateT<T> state(system.tree.size());
  for (std::size_t k = 0; k < state.size(); ++k) {
    state[k].x = T(at.state()[k].x);
    state[k].turn = at.state()[k].turn.cast<T>();
    state[k].shift = at.state()[k].shift.cast<T>();
  }
  std::vector<T> steps(index(system.coordinates), T(0));
  steps[index(coordinate)] = step;
  move<T>(system, steps.data(), state);
  const DesignT<T> design = design_of<T>(system.mechanism);
  KinematicsT<T> kin;
  update_kinematics<T>(system, design, state, kin);
  const std::vector<double> values = at.inputs();
  const std::vector<T> inputs(values.begin(), values.end());
  std::vector<T> r;
  for (const Equation& e : system.equations)
    r.push_back(evaluate_equation<T>(system, e, design, state, kin, inputs.data()).residual);
  return r;
}

/// The analytic Jacobian, from the wrenches: the table that elimination works on.
std::vector<std::vector<double>> analytic_jacobian(const PathFollower& at) {
  const System& system = at.system();
  const std::vector<double> inputs = at.inputs();
  std::vector<std::vector<double>> table(system.equations.size(),
                                         std::vector<double>(index(system.coordinates), 0.0));
  for (std::size_t row = 0; row < table.size(); ++row) {
    const Equation& e = system.equations[row];
    const auto value = evaluate_equation<double>(system, e, at.design(), at.state(),
                                                 at.kinematics(), inputs.data());
    for (const JacobianEntry& entry : system.entries[row])
      table[row][index(entry.column)] += derivative<double>(e, value, entry, at.kinematics());
  }
  return table;
}

TEST_P(Jacobian, IsWhatDifferencesAndDualNumbersSay) {
  Rig rig(read(GetParam()));
  PoseRequest request;
  request.height = 0.4 * rig.truck().height_range[1];
  request.lean = from_deg(2);
  request.steer_by = SteerBy::pitman;
  request.steer = from_deg(6);
  ASSERT_TRUE(rig.solve(request).report.usable());
  for (const PathFollower* at : {&rig.held(), &rig.rolling()}) {
    const auto analytic = analytic_jacobian(*at);
    for (int c = 0; c < at->system().coordinates; ++c) {
      constexpr double kStep = 1e-5;
      const auto ahead = residuals_after<double>(*at, c, kStep),
                 behind = residuals_after<double>(*at, c, -kStep);
      const auto dual = residuals_after<Dual>(*at, c, Dual(0, 1));
      for (std::size_t row = 0; row < analytic.size(); ++row) {
        const std::string where =
            at->system().equations[row].name + ", coordinate " + std::to_string(c);
        // Rounding 1e-16 over the step, and the step squared; arms are about 1 m.
        EXPECT_NEAR(analytic[row][index(c)], (ahead[row] - behind[row]) / (2 * kStep), 1e-9)
            << where;
        EXPECT_NEAR(analytic[row][index(c)], dual[row].slope, 1e-14) << where;
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(
    Trucks, Jacobian,
    ::testing::Values("trucks/plain-mismatched", "trucks/plain-parallel", "trucks/half-converted",
                      "trucks/guided-loose", "trucks/guided", "trucks/radius-arm",
                      "tests/layouts/leaf_pieces", "tests/layouts/kingpins_two_balls",
                      "tests/layouts/guided_pinned_slide", "tests/layouts/guided_ball_slide",
                      "tests/layouts/guided_bracket", "tests/layouts/plain_joints",
                      "tests/layouts/rear_axle", "tests/layouts/rear_axle_as_measured",
                      "tests/layouts/four_bar_tilted_pivot", "tests/layouts/guided_rocker",
                      "tests/layouts/relay_two_arms"),
    test_name);

// ---- sensitivities

/// A change of the design: anchors and lengths that move with it, per metre.
struct Change {
  std::string label;
  std::vector<std::pair<AnchorId, Vec3>> places;
  std::vector<LengthId> lengths;
  bool lengths_follow = false;
  BodyId
      gauge_turned{};  ///< instead: the body whose spin gauge is turned about its line, per radian
};

/// The truck's mechanism with a change built into it, solved again; gauges and the rows chosen stay those of the truck.
class Rebuilt {
 public:
  Rebuilt(const Rig& rig, const Change& change, double amount)
      : rig_(rig),
        held_(changed(rig.held().assembly(), change, amount)),
        rolling_(changed(rig.rolling().assembly(), change, amount)) {
    const std::vector<double> there = values(rig.aligned_request());
    context_.aligned_wheel = there[kSteeringWheel];
    context_.aligned_axle_middle =
        axle_middle<double>(rig_.expansion(), rolling_.design(), rolling_.kinematics());
    if (rig_.expansion().rear)
      context_.aligned_rear_middle =
          rear_axle_middle<double>(rig_.expansion(), rolling_.design(), rolling_.kinematics());
  }

  std::vector<double> values(const PoseRequest& request) {
    std::optional<Vec3> road_place;
    if (request.travel != 0 || request.travel_left != 0) {
      PoseRequest on_road = request;
      on_road.travel = on_road.travel_left = 0;
      const PathFollower& there = go_to(on_road);
      road_place =
          contact_middle<double>(rig_.truck(), rig_.expansion(), there.design(), there.kinematics(),
                                 road_normal(rig_.truck(), context_at(request)));
    }
    const PathFollower& present = go_to(request);
    return evaluate(request, present, road_place);
  }

 private:
  double half_track(const PerSide<AnchorId>& wheels) const {
    const std::vector<Vec3>& places = held_.design().places;
    return 0.5 * (places[index(wheels.left.value)] - places[index(wheels.right.value)]).norm();
  }

  void set_rear(const PoseRequest& request, const std::vector<Vec3>& places,
                std::vector<double>& inputs) const {
    const RearAxlePlace& rear = *rig_.expansion().rear;
    const double side = half_track(rear.wheel) * std::sin(request.lean);
    inputs[index(rear.height.left.value)] =
        places[index(rear.wheel.left.value)].z() - request.rear_height - side;
    inputs[index(rear.height.right.value)] =
        places[index(rear.wheel.right.value)].z() - request.rear_height + side;
  }

  /// Rolling straight ahead, held, or with the pitman arm given. Leaves the held follower there too.
  const PathFollower& go_to(const PoseRequest& request) {
    const Expansion& x = rig_.expansion();
    const bool rolls = request.steer_by == SteerBy::straight_ahead;
    PathFollower& present = rolls ? rolling_ : held_;
    const std::vector<Vec3>& places = present.design().places;
    const double middle = request.travel - request.height;
    const double side = half_track(x.wheel_on_axle) * std::sin(request.lean);
    std::vector<double> inputs = present.as_measured_inputs();
    inputs[index(x.height.left.value)] =
        places[index(x.wheel_on_axle.left.value)].z() + middle + request.travel_left - side;
    inputs[index(x.height.right.value)] =
        places[index(x.wheel_on_axle.right.value)].z() + middle + side;
    if (x.rear) set_rear(request, places, inputs);
    inputs[index(x.straight.value)] = 0;
    if (request.steer_by == SteerBy::pitman) inputs[index(x.pitman_turn.value)] = request.steer;
    if (request.steer_by == SteerBy::held) {
      inputs[index(x.pitman_turn.value)] =
          pitman_for_wheel(rig_.truck().gear, context_.aligned_wheel);
    }
    EXPECT_TRUE(present.go_to(inputs).usable()) << present.report().message;
    if (rolls) held_.start_from(present.state(), present.inputs());
    return present;
  }

  static Assembly changed(Assembly assembly, const Change& change, double amount) {
    Mechanism& m = assembly.system.mechanism;
    for (const auto& [anchor, way] : change.places)
      m.anchors[index(anchor.value)].at += amount * way;
    for (const LengthId id : change.lengths) {
      Length& length = m.lengths[index(id.value)];
      length.value = change.lengths_follow
                         ? (m.anchor(length.to).at - m.anchor(length.from).at).norm()
                         : length.value + amount;
    }
    Design design = design_of(m);
    update_directions(m, design);
    for (std::size_t k = 0; k < m.axes.size(); ++k) m.axes[k].direction = design.directions[k];
    for (const Equation& e : assembly.system.equations) {
      if (e.role != EquationRole::gauge || m.axis(e.u).body != change.gauge_turned) continue;
      Vec3& across = m.axes[index(e.v.value)].direction;
      const Vec3 line = cross(m.axis(e.u).direction, across);
      across = rotation_about<double>(line, amount) * across;
    }
    return assembly;
  }

  QuantityContext context_at(const PoseRequest& request) const {
    QuantityContext context = context_;
    context.height = request.height;
    context.rear_height = request.rear_height;
    context.lean = request.lean;
    return context;
  }

  std::vector<double> evaluate(const PoseRequest& request, const PathFollower& present,
                               const std::optional<Vec3>& road_place) {
    const Expansion& x = rig_.expansion();
    std::vector<InputId> inputs = height_inputs(x);
    inputs.push_back(x.pitman_turn);
    const std::vector<Vector> rates = held_.rates_for(inputs);
    const auto twists = [&](const Vector& r) {
      return body_twists<double>(held_.system(), held_.kinematics(), r.data());
    };
    QuantityRates<double> q;
    q.travel = twists(rates[0] + rates[1]);
    q.travel_left = twists(rates[0]);
    q.travel_right = twists(rates[1]);
    Vector lean = (rates[1] - rates[0]) * half_track(x.wheel_on_axle);
    if (x.rear) lean += (rates[3] - rates[2]) * half_track(x.rear->wheel);
    q.lean = twists(lean * std::cos(request.lean));
    q.pitman = twists(rates.back());
    const double pitman = present.inputs()[index(x.pitman_turn.value)];
    return evaluate_quantities<double>(rig_.truck(), x, present.design(), present.kinematics(),
                                       pitman, q, context_at(request), road_place);
  }

  const Rig& rig_;
  PathFollower held_, rolling_;
  QuantityContext context_;
};

using Slopes = std::map<std::string, double>;  // by label
using Table = std::vector<Slopes>;             // by quantity

/// Central differences at a step and at half of it, extrapolated: a tilt close to zero and a bar seen almost end-on curve strongly.
constexpr double kStep = 3e-5;  // [m] rounding 1e-13 over it, truncation its fourth power

template <class ValuesAt>
void add_differences(Table& table, const std::string& label, const ValuesAt& values_at) {
  const std::vector<double> ahead = values_at(kStep), behind = values_at(-kStep);
  const std::vector<double> half_ahead = values_at(kStep / 2), half_behind = values_at(-kStep / 2);
  for (std::size_t k = 0; k < table.size(); ++k) {
    const double whole = (ahead[k] - behind[k]) / (2 * kStep);
    const double half = (half_ahead[k] - half_behind[k]) / kStep;
    table[k][label] = (4 * half - whole) / 3;
  }
}

Table differences(const Rig& rig, const PoseRequest& request, const std::vector<Change>& changes) {
  Table table(rig.quantities().size());
  for (const Change& change : changes) {
    add_differences(table, change.label,
                    [&](double amount) { return Rebuilt(rig, change, amount).values(request); });
  }
  return table;
}

/// A joint's tilt is the size of an angle: at zero it has a corner, and no slope.
bool has_slope(const std::string& key, double value) {
  return key.rfind("tilt.", 0) != 0 || value > 1e-3;
}

void expect_agree(const Rig& rig, const std::vector<Influence>& told, int quantity,
                  const Table& table) {
  const std::string& key = rig.quantities()[index(quantity)].key;
  ASSERT_EQ(told.size(), table[index(quantity)].size());
  for (const Influence& influence : told) {
    const std::string label = influence.name + "." + influence.coordinate +
                              (influence.on.empty() ? "" : " on " + influence.on);
    ASSERT_EQ(table[index(quantity)].count(label), 1u) << label;
    const double difference = table[index(quantity)].at(label);
    const double slope = influence.per_metre[index(quantity)];
    if (std::isnan(difference) || std::isnan(slope)) {
      EXPECT_EQ(std::isnan(difference), std::isnan(slope)) << key << " by " << label;
      continue;
    }
    EXPECT_NEAR(slope, difference, 1e-6 * (1 + std::abs(difference))) << key << " by " << label;
  }
}

const char* const kWays[] = {"x", "y", "z"};

std::vector<Change> build_errors(const Rig& rig) {
  const Expansion& x = rig.expansion();
  std::vector<Change> changes;
  for (std::size_t a = 0; a < x.mechanism.anchors.size(); ++a) {
    const Anchor& anchor = x.mechanism.anchors[a];
    if (anchor.point < 0 || anchor.towards >= 0) continue;
    for (int k = 0; k < 3; ++k) {
      Change change;
      change.label = anchor.name + "." + kWays[k] + " on " + x.body_names[index(anchor.body.value)];
      change.places = {{AnchorId{static_cast<int>(a)}, Vec3::Unit(k)}};
      changes.push_back(change);
    }
  }
  for (std::size_t l = 0; l < x.mechanism.lengths.size(); ++l) {
    Change change;
    change.label = x.mechanism.lengths[l].name + ".length on itself";
    change.lengths = {LengthId{static_cast<int>(l)}};
    changes.push_back(change);
  }
  return changes;
}

std::vector<Change> design_moves(const Rig& rig) {
  const Mechanism& m = rig.expansion().mechanism;
  const std::vector<Point>& points = rig.truck().points;
  std::vector<Change> changes;
  for (const Point& point : points) {
    if (!point.mirror_of.empty()) continue;
    for (int k = 0; k < 3; ++k) {
      Change change;
      change.label = point.name + "." + kWays[k];
      change.lengths_follow = true;
      for (std::size_t a = 0; a < m.anchors.size(); ++a) {
        if (m.anchors[a].point < 0) continue;
        Vec3 way = Vec3::Zero();
        for (const auto& [file_point, share] :
             {std::pair{m.anchors[a].point, 1 - m.anchors[a].share},
              std::pair{m.anchors[a].towards, m.anchors[a].share}}) {
          if (file_point < 0) continue;
          const Point& of = points[index(file_point)];
          if (of.name != point.name && of.mirror_of != point.name) continue;
          way += (of.name != point.name && k == 1 ? -share : share) * Vec3::Unit(k);
        }
        if (!way.isZero()) change.places.emplace_back(AnchorId{static_cast<int>(a)}, way);
      }
      for (std::size_t l = 0; l < m.lengths.size(); ++l) {
        if (m.lengths[l].follows) change.lengths.push_back(LengthId{static_cast<int>(l)});
      }
      changes.push_back(change);
    }
  }
  return changes;
}

class Sensitivities : public ::testing::TestWithParam<const char*> {};

/// Leaning and steered; straight ahead; the left wheel on a pad with the steering wheel held. None is the as-measured pose, where joint tilts are zero and have no slope.
std::vector<PoseRequest> poses(const Truck& truck) {
  PoseRequest steered;
  steered.height = 0.5 * truck.height_range[1];
  steered.rear_height = 0.020;
  steered.lean = from_deg(1.5);
  steered.steer_by = SteerBy::pitman;
  steered.steer = from_deg(6);
  PoseRequest straight;
  straight.height = 0.8 * truck.height_range[1];
  straight.lean = from_deg(-1);
  PoseRequest bump;
  bump.height = 0.6 * truck.height_range[1];
  bump.travel = 0.010;
  bump.travel_left = 0.025;
  bump.lean = from_deg(0.5);
  bump.steer_by = SteerBy::held;
  return {steered, straight, bump};
}

class BuiltSo : public Sensitivities {};

TEST_P(BuiltSo, BuildErrorsAreDifferences) {
  Rig rig(read(GetParam()));
  for (const PoseRequest& request : poses(rig.truck())) {
    const Table table = differences(rig, request, build_errors(rig));
    const std::vector<double> values = rig.solve(request).values;
    const std::vector<Influence> told = rig.build_errors(request);
    for (int q = 0; q < static_cast<int>(values.size()); ++q) {
      if (has_slope(rig.quantities()[index(q)].key, values[index(q)]))
        expect_agree(rig, told, q, table);
    }
  }
}

// Kingpins of two balls are drawn anew here, but in no build error: a ball off on one body alone does not fit the other pair.
class DrawnSo : public Sensitivities {};

TEST_P(DrawnSo, DesignMovesAreDifferences) {
  Rig rig(read(GetParam()));
  for (const PoseRequest& request : poses(rig.truck())) {
    const Table table = differences(rig, request, design_moves(rig));
    const std::vector<double> values = rig.solve(request).values;
    const std::vector<Influence> told = rig.design_moves(request);
    for (int q = 0; q < static_cast<int>(values.size()); ++q) {
      if (has_slope(rig.quantities()[index(q)].key, values[index(q)]))
        expect_agree(rig, told, q, table);
    }
  }
}

// The same by another road: the point moved in the truck, everything expanded and assembled anew. Excepted by name: joint tilts,
// whose studs are then drawn anew with the bar, and the turn of bodies that no keeper holds, whose gauges are.
class DesignMoves : public ::testing::TestWithParam<const char*> {};

bool is_drawn_anew(const std::string& key) {
  return key.rfind("tilt.", 0) == 0 || key.rfind("spin.", 0) == 0;
}

TEST_P(DesignMoves, AreDifferencesOfTrucksWrittenSo) {
  Rig rig(read(GetParam()));
  const PoseRequest request = poses(rig.truck())[2];
  Table table(rig.quantities().size());
  for (const Change& change : design_moves(rig)) {
    const std::string name = change.label.substr(0, change.label.rfind('.'));
    const Vec3 way = change.label.back() == 'x'   ? Vec3::UnitX()
                     : change.label.back() == 'y' ? Vec3::UnitY()
                                                  : Vec3::UnitZ();
    add_differences(table, change.label, [&](double amount) {
      Truck truck = rig.truck();
      for (Point& point : truck.points) {
        if (point.name == name) point.at += amount * way;
        if (point.mirror_of == name) point.at += amount * Vec3(way.x(), -way.y(), way.z());
      }
      return Rig(truck).solve(request).values;
    });
  }
  const std::vector<Influence> told = rig.design_moves(request);
  for (int q = 0; q < static_cast<int>(rig.quantities().size()); ++q) {
    if (!is_drawn_anew(rig.quantities()[index(q)].key)) expect_agree(rig, told, q, table);
  }
}

// A held coordinate keeps its as-measured value: drawing its point elsewhere does not push the axle there.
TEST(DesignMove, OfAHeldPointHoldsItWhereItIsDrawn) {
  Rig rig(truck_of(testing::StraightAxle{}));
  PoseRequest raised;
  raised.height = 0.1;
  int met = 0;
  for (const Influence& influence : rig.design_moves(raised)) {
    if (influence.name != "axle_middle") continue;
    EXPECT_NEAR(influence.per_metre[kPitmanAngle], 0, 1e-12) << influence.coordinate;
    ++met;
  }
  EXPECT_EQ(met, 3);
}

// A tie rod with the drag link on its bracket steers when it turns over on its own line: by how much hangs on the pose at hand.
TEST(Spin, EffectIsThatOfThePoseAtHand) {
  Rig rig(read("tests/layouts/drag_link_tie_rod_bracket"));
  std::size_t spin = 0;
  while (rig.quantities()[spin].key != "spin.tie_rod") ++spin;
  const LooseMotion motion = rig.held().assembly().loose.at(0);
  Change turned;
  turned.gauge_turned = motion.body;
  for (const double pitman_deg : {0.0, 10.0, 25.0}) {
    PoseRequest request;
    request.height = 0.1;
    request.steer_by = SteerBy::pitman;
    request.steer = from_deg(pitman_deg);
    ASSERT_TRUE(rig.solve(request).report.usable());
    const std::vector<double> effect = rig.motion_effect(motion);
    constexpr double kTurn = 1e-4;  // [rad]
    const std::vector<double> over = Rebuilt(rig, turned, kTurn).values(request);
    const std::vector<double> back = Rebuilt(rig, turned, -kTurn).values(request);
    const double turn = over[spin] - back[spin];
    for (const int q : {kMeanSteer, kToe, kPitmanAngle, kCamberLeft}) {
      EXPECT_NEAR(effect[index(q)] / effect[spin], (over[index(q)] - back[index(q)]) / turn, 1e-7)
          << rig.quantities()[index(q)].key;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(
    Trucks, DesignMoves,
    ::testing::Values("trucks/plain-mismatched", "trucks/plain-parallel", "trucks/half-converted",
                      "trucks/guided-loose", "trucks/guided", "trucks/radius-arm",
                      "tests/layouts/plain_joints", "tests/layouts/rear_axle_as_measured",
                      "tests/layouts/four_bar_tilted_pivot", "tests/layouts/guided_rocker",
                      "tests/layouts/relay_two_arms"),
    test_name);

INSTANTIATE_TEST_SUITE_P(
    Trucks, BuiltSo,
    ::testing::Values("trucks/plain-mismatched", "trucks/plain-parallel", "trucks/half-converted",
                      "trucks/guided-loose", "trucks/guided", "tests/layouts/push_pull_drag_link",
                      "tests/layouts/track_bar", "tests/layouts/guided_pinned_slide",
                      "tests/layouts/guided_middle_off_the_line", "tests/layouts/plain_joints",
                      "tests/layouts/rear_axle", "tests/layouts/rear_axle_as_measured",
                      "tests/layouts/four_bar_tilted_pivot", "tests/layouts/guided_rocker",
                      "tests/layouts/relay_centre"),
    test_name);

INSTANTIATE_TEST_SUITE_P(
    Trucks, DrawnSo,
    ::testing::Values("trucks/guided", "trucks/leaf", "tests/layouts/kingpins_two_balls",
                      "tests/layouts/push_pull_drag_link", "tests/layouts/track_bar",
                      "tests/layouts/guided_pinned_slide",
                      "tests/layouts/guided_middle_off_the_line", "tests/layouts/rear_axle",
                      "tests/layouts/rear_axle_as_measured", "tests/layouts/four_bar_crank_on_axle",
                      "tests/layouts/guided_rocker"),
    test_name);

}  // namespace
}  // namespace axlewright
