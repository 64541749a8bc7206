#include "engine/study/rig.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/base/invariant.h"
#include "engine/quantity/gear.h"

namespace axlewright {
namespace {

std::size_t index(int k) {
  return static_cast<std::size_t>(k);
}

bool rolls(SteerBy by) {
  return by == SteerBy::straight_ahead || by == SteerBy::road_wheels;
}

/// Inputs that put the mechanism where it was measured, rolling or held.
std::vector<InputId> held_inputs(const Expansion& x, bool rolling) {
  std::vector<InputId> held = {x.height.left, x.height.right};
  held.push_back(rolling || x.pitman_turn.value < 0 ? x.straight : x.pitman_turn);
  return held;
}

double half_track(const Expansion& x) {
  const Mechanism& m = x.mechanism;
  return 0.5 * (m.anchor(x.wheel_on_axle.left).at - m.anchor(x.wheel_on_axle.right).at).norm();
}

/// NaN where the quantity itself is: what a pose does not have cannot be influenced.
double scalar_of(Dual d) {
  return std::isnan(d.value) ? d.value : d.slope;
}

/// Combines the rates that the quantities ask for from those of the wheels' heights and the pitman arm.
template <class T>
QuantityRates<T> combine(const System& system, const KinematicsT<T>& kin,
                         const std::vector<Eigen::Matrix<T, Eigen::Dynamic, 1>>& rates,
                         const T& half_track, double lean) {
  using Rates = Eigen::Matrix<T, Eigen::Dynamic, 1>;
  const Rates both = rates[0] + rates[1];
  const Rates leaning = (rates[1] - rates[0]) * T(half_track * T(std::cos(lean)));
  QuantityRates<T> q;
  q.travel = body_twists<T>(system, kin, both.data());
  q.travel_left = body_twists<T>(system, kin, rates[0].data());
  q.travel_right = body_twists<T>(system, kin, rates[1].data());
  q.lean = body_twists<T>(system, kin, leaning.data());
  q.pitman = body_twists<T>(system, kin, rates[2].data());
  return q;
}

/// A loose motion at the follower's present pose: a spin as measured is none once the truck has moved. Found as what its gauge alone
/// lets go, per radian of the body's turn about its line against its carrier.
Vector motion_here(PathFollower& present, const LooseMotion& motion) {
  const Assembly& assembly = present.assembly();
  const Mechanism& m = assembly.system.mechanism;
  if (!motion.spin) return motion.direction;
  Vector let_go = Vector::Zero(static_cast<int>(assembly.active.size()));
  for (std::size_t row = 0; row < assembly.active.size(); ++row) {
    const Equation& e = assembly.system.equations[index(assembly.active[row])];
    if (e.role == EquationRole::gauge && m.axis(e.u).body == motion.body)
      let_go[static_cast<int>(row)] = 1;
  }
  present.factor_here();
  const Vector direction = present.solve_linear(let_go);
  const std::vector<Twist> twists =
      body_twists(assembly.system, present.kinematics(), direction.data());
  const BodyId carrier = m.body(motion.body).carrier;
  const Vec3 turn = twists[index(motion.body.value)].angular - twists[index(carrier.value)].angular;
  return direction / present.kinematics().pose[index(carrier.value)].turn(motion.line).dot(turn);
}

}  // namespace

/// A way to change the design: places and lengths that move together, per metre.
struct Rig::Seed {
  Influence label;
  std::vector<std::pair<AnchorId, Vec3>> places;
  std::vector<std::pair<LengthId, double>> lengths;
};

Rig::Rig(Truck truck)
    : truck_(std::move(truck)),
      x_(expand(truck_)),
      infos_(list_quantities(x_)),
      held_(assemble(x_.mechanism, held_inputs(x_, false))),
      rolling_(assemble(x_.mechanism, held_inputs(x_, true))) {
  PoseRequest aligned;
  aligned.height = truck_.aligned_height;
  if (place(aligned, aligned_report_)) {
    if (x_.pitman_turn.value >= 0) {
      context_.aligned_wheel =
          wheel_for_pitman(truck_.gear, rolling_.inputs()[index(x_.pitman_turn.value)]);
    }
    context_.aligned_axle_middle =
        axle_middle<double>(x_, rolling_.design(), rolling_.kinematics());
  }
}

void Rig::restart() {
  held_.restart();
  rolling_.restart();
}

std::vector<double> Rig::inputs_for(const PoseRequest& request) const {
  std::vector<double> inputs = held_.as_measured_inputs();
  const double middle = request.travel - request.height;
  const double side = half_track(x_) * std::sin(request.lean);
  inputs[index(x_.height.left.value)] += middle + request.travel_left - side;
  inputs[index(x_.height.right.value)] += middle + request.travel_right + side;
  double& straight = inputs[index(x_.straight.value)];
  straight = request.steer_by == SteerBy::road_wheels ? request.steer : 0;
  if (x_.pitman_turn.value >= 0) {
    double& pitman = inputs[index(x_.pitman_turn.value)];
    switch (request.steer_by) {
      case SteerBy::held:
        pitman = pitman_for_wheel(truck_.gear, context_.aligned_wheel);
        break;
      case SteerBy::steering_wheel:
        pitman = pitman_for_wheel(truck_.gear, request.steer);
        break;
      case SteerBy::pitman:
        pitman = request.steer;
        break;
      case SteerBy::straight_ahead:
      case SteerBy::road_wheels:
        break;
    }
  }
  return inputs;
}

bool Rig::place(const PoseRequest& request, SolveReport& report) {
  present_rolling_ = rolls(request.steer_by);
  context_ = context_at(request);  // the road of the pose at hand, for motion_effect()
  PathFollower& follower = this->follower();
  const std::vector<double> inputs = inputs_for(request);
  report = follower.go_to(inputs);
  if (report.usable()) return true;
  // The straight line from the last pose may leave what is in reach though the pose itself is not out of it: once more
  // from as measured, the height first.
  follower.restart();
  PoseRequest height_alone;
  height_alone.height = request.height;
  height_alone.steer_by =
      request.steer_by == SteerBy::straight_ahead ? SteerBy::straight_ahead : SteerBy::road_wheels;
  if (!rolls(request.steer_by)) height_alone.steer_by = SteerBy::pitman;
  const SolveReport first = follower.go_to(inputs_for(height_alone));
  report = first.usable() ? follower.go_to(inputs) : first;
  if (report.usable()) return true;
  if (present_rolling_) tell_dead_centre(report);
  follower.restart();
  return false;
}

void Rig::tell_dead_centre(SolveReport& report) {
  if (report.outcome != Outcome::out_of_reach || x_.pitman_turn.value < 0) return;
  // The last good place is near the limit point. If the mechanism is regular there with the pitman arm held, only the heading
  // has run out: the wheels do not answer the arm.
  constexpr double kMuch = 10;
  held_.start_from(rolling_.state(), rolling_.inputs());
  if (held_.smallest_singular_value() < kMuch * rolling_.smallest_singular_value()) return;
  report.outcome = Outcome::dead_centre;
  report.what_ran_out = "the road wheels' answer to the pitman arm";
  report.message = fmt::format(
      "dead centre: at {:.1f} % of the way the road wheels stop answering the steering wheel",
      100 * report.path_reached);
}

QuantityContext Rig::context_at(const PoseRequest& request) {
  QuantityContext context = context_;
  context.height = request.height;
  context.rear_height = request.rear_height;
  context.lean = request.lean;
  return context;
}

PoseResult Rig::solve_place(const PoseRequest& request) {
  PoseResult result;
  result.request = request;
  if (!place(request, result.report)) return result;
  result.state = follower().state();
  result.inputs = follower().inputs();
  return result;
}

PoseResult Rig::solve(const PoseRequest& request) {
  QuantityContext context = context_at(request);
  PoseResult result;
  result.request = request;
  if (request.travel != 0 || request.travel_left != 0 || request.travel_right != 0) {
    // Definition 2: the road is where it is with all travel zero, everything else equal.
    PoseRequest on_road = request;
    on_road.travel = on_road.travel_left = on_road.travel_right = 0;
    if (!place(on_road, result.report)) return result;
    const Vec3 normal = road_normal(truck_, context);
    const PathFollower& there = follower();
    context.road_place =
        0.5 *
        (contact_place<double>(truck_, x_, there.design(), there.kinematics(), normal, true) +
         contact_place<double>(truck_, x_, there.design(), there.kinematics(), normal, false));
    context.has_road = true;
  }
  if (!place(request, result.report)) return result;
  result.state = follower().state();
  result.inputs = follower().inputs();
  result.values = values_here(context);
  return result;
}

QuantityRates<double> Rig::rates_here(double lean) {
  PathFollower& present = follower();
  if (present_rolling_) held_.start_from(present.state(), present.inputs());
  const InputId steer = x_.pitman_turn.value >= 0 ? x_.pitman_turn : x_.straight;
  const std::vector<Vector> rates = held_.rates_for({x_.height.left, x_.height.right, steer});
  return combine<double>(held_.system(), held_.kinematics(), rates, half_track(x_), lean);
}

std::vector<double> Rig::values_here(const QuantityContext& context) {
  const QuantityRates<double> rates = rates_here(context.lean);
  const PathFollower& present = follower();
  const double pitman =
      x_.pitman_turn.value >= 0 ? present.inputs()[index(x_.pitman_turn.value)] : 0;
  return evaluate_quantities<double>(truck_, x_, present.design(), present.kinematics(), pitman,
                                     rates, context);
}

std::vector<double> Rig::motion_effect(const LooseMotion& motion) {
  // Quantities in the dual numbers whose slope is the motion itself; rates are not asked for.
  PathFollower& present = follower();
  const System& system = present.system();
  const Vector direction = motion_here(present, motion);
  StateT<Dual> state(system.tree.size());
  std::vector<Dual> step(index(system.coordinates));
  for (int c = 0; c < system.coordinates; ++c) step[index(c)] = Dual(0, direction[c]);
  for (std::size_t k = 0; k < state.size(); ++k) {
    state[k].x = Dual(present.state()[k].x);
    state[k].turn = present.state()[k].turn.cast<Dual>();
    state[k].shift = present.state()[k].shift.cast<Dual>();
  }
  move<Dual>(system, step.data(), state);
  const DesignT<Dual> design = design_of<Dual>(system.mechanism);
  KinematicsT<Dual> kin;
  update_kinematics<Dual>(system, design, state, kin);
  Dual pitman(0);
  for (std::size_t k = 0; k < system.tree.size(); ++k) {
    if (x_.pitman_turn.value >= 0 &&
        system.tree[k].joint == x_.mechanism.inputs[index(x_.pitman_turn.value)].joint) {
      pitman = Dual(system.tree[k].sign) * state[k].x;
    }
  }
  QuantityRates<Dual> rates;
  const std::vector<TwistT<Dual>> still(system.mechanism.bodies.size());
  rates.travel = rates.travel_left = rates.travel_right = rates.lean = rates.pitman = still;
  const std::vector<Dual> values =
      evaluate_quantities<Dual>(truck_, x_, design, kin, pitman, rates, context_);
  std::vector<double> slopes(values.size());
  std::transform(values.begin(), values.end(), slopes.begin(), scalar_of);
  return slopes;
}

std::vector<double> Rig::slopes_here(const Seed& seed, const QuantityContext& context) {
  PathFollower& present = follower();
  const System& system = present.system();
  if (present_rolling_) held_.start_from(present.state(), present.inputs());

  const auto seeded = [&](const System& s) {
    DesignT<Dual> design = design_of<Dual>(s.mechanism);
    for (const auto& [anchor, way] : seed.places) {
      for (int k = 0; k < 3; ++k) design.places[index(anchor.value)][k].slope += way[k];
    }
    for (const auto& [length, way] : seed.lengths) design.lengths[index(length.value)].slope += way;
    update_directions(s.mechanism, design);
    return design;
  };
  // Heights are told of the wheel centres, which may move themselves.
  Vec3 left = Vec3::Zero(), right = Vec3::Zero();
  for (const auto& [anchor, way] : seed.places) {
    if (anchor == x_.wheel_on_axle.left) left += way;
    if (anchor == x_.wheel_on_axle.right) right += way;
  }
  const Vec3 apart = x_.mechanism.anchor(x_.wheel_on_axle.left).at -
                     x_.mechanism.anchor(x_.wheel_on_axle.right).at;
  const Dual half(0.5 * apart.norm(), 0.5 * (left - right).dot(apart) / apart.norm());
  const std::vector<double> inputs_now = present.inputs();
  std::vector<Dual> inputs(inputs_now.begin(), inputs_now.end());
  inputs[index(x_.height.left.value)].slope = left.z() - half.slope * std::sin(context.lean);
  inputs[index(x_.height.right.value)].slope = right.z() + half.slope * std::sin(context.lean);

  // First the pose: J dq = -(change of the residuals at the pose as it is).
  const DesignT<Dual> design = seeded(system);
  StateT<Dual> state(system.tree.size());
  for (std::size_t k = 0; k < state.size(); ++k) {
    state[k].x = Dual(present.state()[k].x);
    state[k].turn = present.state()[k].turn.cast<Dual>();
    state[k].shift = present.state()[k].shift.cast<Dual>();
  }
  KinematicsT<Dual> kin;
  update_kinematics<Dual>(system, design, state, kin);
  const std::vector<int>& active = present.assembly().active;
  Vector change(static_cast<int>(active.size()));
  for (std::size_t row = 0; row < active.size(); ++row) {
    const Equation& e = system.equations[index(active[row])];
    change[static_cast<int>(row)] =
        evaluate_equation<Dual>(system, e, design, state, kin, inputs.data()).residual.slope;
  }
  present.factor_here();
  const Vector dq = -present.solve_linear(change);
  std::vector<Dual> step(index(system.coordinates));
  for (int c = 0; c < system.coordinates; ++c) step[index(c)] = Dual(0, dq[c]);
  move<Dual>(system, step.data(), state);
  update_kinematics<Dual>(system, design, state, kin);

  // Then the rates with the wheel held: J x = rhs, so dx = -J^-1 (dJ x) with rhs constant.
  const System& held_system = held_.system();
  const DesignT<Dual> held_design = seeded(held_system);
  const InputId steer = x_.pitman_turn.value >= 0 ? x_.pitman_turn : x_.straight;
  const std::vector<Vector> rates = held_.rates_for({x_.height.left, x_.height.right, steer});
  const std::vector<int>& held_active = held_.assembly().active;
  std::vector<Vector> minus_dJ_x(rates.size(), Vector::Zero(static_cast<int>(held_active.size())));
  for (std::size_t row = 0; row < held_active.size(); ++row) {
    const Equation& e = held_system.equations[index(held_active[row])];
    const auto value =
        evaluate_equation<Dual>(held_system, e, held_design, state, kin, inputs.data());
    for (const JacobianEntry& entry : held_system.entries[index(held_active[row])]) {
      const double slope = derivative<Dual>(e, value, entry, kin).slope;
      for (std::size_t k = 0; k < rates.size(); ++k)
        minus_dJ_x[k][static_cast<int>(row)] -= slope * rates[k][entry.column];
    }
  }
  std::vector<Eigen::Matrix<Dual, Eigen::Dynamic, 1>> dual_rates;
  for (std::size_t k = 0; k < rates.size(); ++k) {
    const Vector dx = held_.solve_linear(minus_dJ_x[k]);
    Eigen::Matrix<Dual, Eigen::Dynamic, 1> rate(rates[k].size());
    for (int c = 0; c < rate.size(); ++c) rate[c] = Dual(rates[k][c], dx[c]);
    dual_rates.push_back(rate);
  }
  Dual pitman(0);
  for (std::size_t k = 0; k < system.tree.size(); ++k) {
    if (x_.pitman_turn.value >= 0 &&
        system.tree[k].joint == x_.mechanism.inputs[index(x_.pitman_turn.value)].joint) {
      pitman = Dual(system.tree[k].sign) * state[k].x;
    }
  }
  const QuantityRates<Dual> q = combine<Dual>(held_system, kin, dual_rates, half, context.lean);
  const std::vector<Dual> values =
      evaluate_quantities<Dual>(truck_, x_, design, kin, pitman, q, context);
  std::vector<double> slopes(values.size());
  std::transform(values.begin(), values.end(), slopes.begin(), scalar_of);
  return slopes;
}

std::vector<Rig::Seed> Rig::design_seeds() const {
  static const char* const kNames[] = {"x", "y", "z"};
  const Mechanism& m = x_.mechanism;
  std::vector<Seed> seeds;
  for (std::size_t p = 0; p < truck_.points.size(); ++p) {
    const Point& point = truck_.points[p];
    if (!point.mirror_of.empty()) continue;  // moves with the point that was written
    for (int k = 0; k < 3; ++k) {
      Seed seed;
      seed.label = {point.name, kNames[k], "", 0};
      for (std::size_t a = 0; a < m.anchors.size(); ++a) {
        if (m.anchors[a].point < 0) continue;
        const Point& of = truck_.points[index(m.anchors[a].point)];
        const bool itself = of.name == point.name;
        if (!itself && of.mirror_of != point.name) continue;
        seed.places.emplace_back(AnchorId{static_cast<int>(a)},
                                 Vec3(Vec3::Unit(k) * (!itself && k == 1 ? -1.0 : 1.0)));
      }
      if (seed.places.empty()) continue;
      for (std::size_t l = 0; l < m.lengths.size(); ++l) {
        const Length& length = m.lengths[l];
        if (!length.follows) continue;
        const Vec3 span = m.anchor(length.to).at - m.anchor(length.from).at;
        double change = 0;
        for (const auto& [anchor, way] : seed.places) {
          if (anchor == length.to) change += way.dot(span) / span.norm();
          if (anchor == length.from) change -= way.dot(span) / span.norm();
        }
        if (change != 0) seed.lengths.emplace_back(LengthId{static_cast<int>(l)}, change);
      }
      seeds.push_back(std::move(seed));
    }
  }
  return seeds;
}

std::vector<Rig::Seed> Rig::build_seeds() const {
  static const char* const kNames[] = {"x", "y", "z"};
  const Mechanism& m = x_.mechanism;
  std::vector<Seed> seeds;
  for (std::size_t a = 0; a < m.anchors.size(); ++a) {
    const Anchor& anchor = m.anchors[a];
    if (anchor.point < 0) continue;
    for (int k = 0; k < 3; ++k) {
      Seed seed;
      seed.label = {anchor.name, kNames[k], x_.body_names[index(anchor.body.value)], 0};
      seed.places.emplace_back(AnchorId{static_cast<int>(a)}, Vec3(Vec3::Unit(k)));
      seeds.push_back(std::move(seed));
    }
  }
  for (std::size_t l = 0; l < m.lengths.size(); ++l) {
    Seed seed;
    seed.label = {m.lengths[l].name, "length", "itself", 0};
    seed.lengths.emplace_back(LengthId{static_cast<int>(l)}, 1.0);
    seeds.push_back(std::move(seed));
  }
  return seeds;
}

std::vector<Influence> Rig::influences(const PoseRequest& request, int quantity,
                                       const std::vector<Seed>& seeds) {
  std::vector<Influence> list;
  const bool relative = quantity == kSteeringWheelOffCentre || quantity == kAxleWalkSide ||
                        quantity == kAxleWalkForward;
  // What is told from the aligned height loses what the change does there.
  PoseRequest aligned;
  aligned.height = truck_.aligned_height;
  std::vector<double> at_aligned(seeds.size(), 0.0);
  SolveReport report;
  if (relative) {
    if (!place(aligned, report)) return list;
    for (std::size_t k = 0; k < seeds.size(); ++k)
      at_aligned[k] = slopes_here(seeds[k], context_at(aligned))[index(quantity)];
  }
  if (!place(request, report)) return list;
  for (std::size_t k = 0; k < seeds.size(); ++k) {
    Influence influence = seeds[k].label;
    influence.per_metre =
        slopes_here(seeds[k], context_at(request))[index(quantity)] - at_aligned[k];
    list.push_back(std::move(influence));
  }
  return list;
}

std::vector<Influence> Rig::design_moves(const PoseRequest& request, int quantity) {
  return influences(request, quantity, design_seeds());
}

std::vector<Influence> Rig::build_errors(const PoseRequest& request, int quantity) {
  return influences(request, quantity, build_seeds());
}

}  // namespace axlewright
