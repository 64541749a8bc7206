#include "engine/study/slope.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/study/loose_pose.h"

namespace axlewright {
namespace {

using DualVector = Eigen::Matrix<Dual, Eigen::Dynamic, 1>;

/// The input that holds the steering wheel; without a pitman arm the road wheels themselves.
InputId steering_input(const Expansion& x) {
  return x.pitman_turn.value >= 0 ? x.pitman_turn : x.road_wheels;
}

/// Of the front wheels' heights, the steering, and the rear wheels' heights where there is a rear axle.
std::vector<Vector> held_rates(SolvedPose& pose) {
  const Expansion& x = pose.expansion;
  std::vector<InputId> inputs = {x.height.left, x.height.right, steering_input(x)};
  if (x.rear) inputs.insert(inputs.end(), {x.rear->height.left, x.rear->height.right});
  return pose.held.rates_for(inputs);
}

/// T/2 of either axle.
template <class T>
struct HalfTracks {
  T front = T(0), rear = T(0);
};

HalfTracks<double> half_tracks(const Expansion& x) {
  return {half_track(x), x.rear ? rear_half_track(x) : 0};
}

/// Combines the rates that the quantities ask for from those of held_rates(). A lean is one of both axles.
template <class T>
QuantityRates<T> combine(const System& system, const KinematicsT<T>& kin,
                         const std::vector<Eigen::Matrix<T, Eigen::Dynamic, 1>>& rates,
                         const HalfTracks<T>& half_tracks, double lean) {
  using Rates = Eigen::Matrix<T, Eigen::Dynamic, 1>;
  const Rates both = rates[0] + rates[1];
  Rates leaning = (rates[1] - rates[0]) * T(half_tracks.front * T(std::cos(lean)));
  if (rates.size() > 3) leaning += (rates[4] - rates[3]) * T(half_tracks.rear * T(std::cos(lean)));
  QuantityRates<T> q;
  q.travel = body_twists<T>(system, kin, both.data());
  q.travel_left = body_twists<T>(system, kin, rates[0].data());
  q.travel_right = body_twists<T>(system, kin, rates[1].data());
  q.lean = body_twists<T>(system, kin, leaning.data());
  q.pitman = body_twists<T>(system, kin, rates[2].data());
  return q;
}

StateT<Dual> dual_state(const State& state) {
  StateT<Dual> dual(state.size());
  for (std::size_t k = 0; k < state.size(); ++k) {
    dual[k].x = Dual(state[k].x);
    dual[k].turn = state[k].turn.cast<Dual>();
    dual[k].shift = state[k].shift.cast<Dual>();
  }
  return dual;
}

/// Gives the state the slope `rates`.
void move_along(const System& system, const Vector& rates, StateT<Dual>& state) {
  std::vector<Dual> step(index(system.coordinates));
  for (int c = 0; c < system.coordinates; ++c) step[index(c)] = Dual(0, rates[c]);
  move<Dual>(system, step.data(), state);
}

Dual pitman_of(const Expansion& x, const System& system, const StateT<Dual>& state) {
  if (x.pitman_turn.value < 0) return Dual(0);
  const Input& turn = x.mechanism.inputs[index(x.pitman_turn.value)];
  for (std::size_t k = 0; k < system.tree.size(); ++k) {
    if (system.tree[k].joint == turn.joint)
      return Dual(system.tree[k].sign) * state[k].x + Dual(turn.as_measured);
  }
  return Dual(0);
}

/// NaN where the quantity itself is: what a pose does not have cannot be influenced.
std::vector<double> slopes_of(const std::vector<Dual>& values) {
  std::vector<double> slopes(values.size());
  std::transform(values.begin(), values.end(), slopes.begin(),
                 [](const Dual& d) { return std::isnan(d.value) ? d.value : d.slope; });
  return slopes;
}

DesignT<Dual> changed_design(const System& system, const DesignDirection& direction) {
  DesignT<Dual> design = design_of<Dual>(system.mechanism);
  for (const auto& [anchor, way] : direction.places) {
    for (int k = 0; k < 3; ++k) design.places[index(anchor.value)][k].slope += way[k];
  }
  for (const auto& [length, way] : direction.lengths)
    design.lengths[index(length.value)].slope += way;
  update_directions(system.mechanism, design);
  return design;
}

/// Heights are told of the wheel centres, and leans over half the track: both may change with the design.
struct ChangedInputs {
  std::vector<Dual> values;
  HalfTracks<Dual> half_tracks;
};

/// How the heights of one axle's wheels change, and its half track.
Dual change_heights(const Mechanism& m, const PerSide<AnchorId>& wheels,
                    const PerSide<InputId>& heights, const DesignDirection& direction, double lean,
                    std::vector<Dual>& inputs) {
  Vec3 left = Vec3::Zero(), right = Vec3::Zero();
  for (const auto& [anchor, way] : direction.places) {
    if (anchor == wheels.left) left += way;
    if (anchor == wheels.right) right += way;
  }
  const Vec3 apart = m.anchor(wheels.left).at - m.anchor(wheels.right).at;
  const Dual half(0.5 * apart.norm(), 0.5 * (left - right).dot(apart) / apart.norm());
  const double side = half.slope * std::sin(lean);
  inputs[index(heights.left.value)].slope = left.z() - side;
  inputs[index(heights.right.value)].slope = right.z() + side;
  return half;
}

ChangedInputs changed_inputs(const SolvedPose& pose, const DesignDirection& direction) {
  const Expansion& x = pose.expansion;
  const double lean = pose.context.lean;
  ChangedInputs changed;
  const std::vector<double> now = pose.present.inputs();
  changed.values.assign(now.begin(), now.end());
  changed.half_tracks.front =
      change_heights(x.mechanism, x.wheel_on_axle, x.height, direction, lean, changed.values);
  if (x.rear)
    changed.half_tracks.rear =
        change_heights(x.mechanism, x.rear->wheel, x.rear->height, direction, lean, changed.values);
  if (x.pitman_turn.value >= 0) changed.values[index(x.pitman_turn.value)].slope = direction.pitman;
  return changed;
}

/// How the pose, and the multipliers behind it, follow the change: J dx = -(change of the residuals at the pose as it is).
Vector pose_slope(PathFollower& follower, const DesignT<Dual>& design, const StateT<Dual>& state,
                  const std::vector<Dual>& inputs) {
  KinematicsT<Dual> kin;
  update_kinematics<Dual>(follower.system(), design, state, kin);
  const Vector& now = follower.closure_multipliers();
  const std::vector<Dual> multipliers(now.begin(), now.end());
  const std::vector<Dual> residuals =
      square_residuals<Dual>(follower.assembly(), design, state, kin, multipliers, inputs.data());
  Vector change(follower.size());
  for (int k = 0; k < change.size(); ++k) change[k] = residuals[index(k)].slope;
  follower.factor_here();
  return -follower.solve_linear(change);
}

/// A pose that follows a change of the design.
struct ChangedPose {
  ChangedInputs inputs;
  DesignT<Dual> design;
  StateT<Dual> state;
  KinematicsT<Dual> kinematics;
};

ChangedPose changed_pose(SolvedPose& pose, const DesignDirection& direction) {
  const System& system = pose.present.system();
  ChangedPose changed{changed_inputs(pose, direction),
                      changed_design(system, direction),
                      dual_state(pose.present.state()),
                      {}};
  move_along(system, pose_slope(pose.present, changed.design, changed.state, changed.inputs.values),
             changed.state);
  update_kinematics<Dual>(system, changed.design, changed.state, changed.kinematics);
  return changed;
}

/// Numbers that carry their slope along the change, and none yet along a motion.
SecondDual still(const Dual& a) {
  return {a, Dual(0)};
}

/// A truck that changes along one direction, ready to be moved along others.
struct ChangingTruck {
  const PathFollower& held;
  DesignT<SecondDual> design;
  StateT<SecondDual> state;
  std::vector<Dual> multipliers;  ///< of the closures
  std::vector<SecondDual> inputs;
};

ChangingTruck changing_truck(const PathFollower& held, const DesignT<Dual>& design,
                             const StateT<Dual>& state, std::vector<Dual> multipliers,
                             const std::vector<Dual>& inputs) {
  ChangingTruck truck{held, {}, StateT<SecondDual>(state.size()), std::move(multipliers), {}};
  for (const auto& p : design.places) truck.design.places.push_back(p.unaryExpr(&still));
  for (const auto& v : design.directions) truck.design.directions.push_back(v.unaryExpr(&still));
  for (const Dual& l : design.lengths) truck.design.lengths.push_back(still(l));
  for (std::size_t k = 0; k < state.size(); ++k) {
    truck.state[k].x = still(state[k].x);
    truck.state[k].turn = state[k].turn.unaryExpr(&still);
    truck.state[k].shift = state[k].shift.unaryExpr(&still);
  }
  for (const Dual& input : inputs) truck.inputs.push_back(still(input));
  return truck;
}

/// How J x changes with the design and the pose, x being the rates of all unknowns: residuals by second derivatives.
Vector change_of_products(const ChangingTruck& truck, const Vector& x) {
  const System& system = truck.held.system();
  StateT<SecondDual> moved = truck.state;
  std::vector<SecondDual> step;
  step.reserve(index(system.coordinates));
  for (int c = 0; c < system.coordinates; ++c) step.emplace_back(Dual(0), Dual(x[c]));
  move<SecondDual>(system, step.data(), moved);
  std::vector<SecondDual> multipliers;
  for (std::size_t k = 0; k < truck.multipliers.size(); ++k)
    multipliers.emplace_back(truck.multipliers[k],
                             Dual(x[system.coordinates + static_cast<int>(k)]));
  KinematicsT<SecondDual> kin;
  update_kinematics<SecondDual>(system, truck.design, moved, kin);
  const std::vector<SecondDual> residuals = square_residuals<SecondDual>(
      truck.held.assembly(), truck.design, moved, kin, multipliers, truck.inputs.data());
  Vector change(truck.held.size());
  for (int k = 0; k < change.size(); ++k) change[k] = residuals[index(k)].slope.slope;
  return change;
}

/// The multipliers of the wheel held, and how they follow the change: of a pose that was closed rolling too.
std::vector<Dual> dual_multipliers(PathFollower& held, const Expansion& x,
                                   const DesignT<Dual>& design, const StateT<Dual>& changed_state,
                                   std::vector<Dual> inputs) {
  const Vector& now = held.closure_multipliers();
  if (now.size() == 0) return {};
  if (x.pitman_turn.value >= 0)
    inputs[index(x.pitman_turn.value)].slope = pitman_of(x, held.system(), changed_state).slope;
  const Vector slope = pose_slope(held, design, dual_state(held.state()), inputs);
  std::vector<Dual> dual;
  dual.reserve(static_cast<std::size_t>(now.size()));
  for (int k = 0; k < now.size(); ++k)
    dual.emplace_back(now[k], slope[held.system().coordinates + k]);
  return dual;
}

/// Rates with the wheel held and how they change: J x = rhs with rhs constant, so dx = -J^-1 (dJ x).
std::vector<DualVector> dual_rates(SolvedPose& pose, const DesignT<Dual>& design,
                                   const StateT<Dual>& state, const std::vector<Dual>& inputs) {
  const ChangingTruck truck =
      changing_truck(pose.held, design, state,
                     dual_multipliers(pose.held, pose.expansion, design, state, inputs), inputs);
  std::vector<DualVector> dual;
  for (const Vector& x : held_rates(pose)) {
    const Vector dx = -pose.held.solve_linear(change_of_products(truck, x));
    DualVector rate(x.size());
    for (int c = 0; c < rate.size(); ++c) rate[c] = Dual(x[c], dx[c]);
    dual.push_back(std::move(rate));
  }
  return dual;
}

}  // namespace

QuantityRates<double> rates_at(SolvedPose& pose) {
  return combine<double>(pose.held.system(), pose.held.kinematics(), held_rates(pose),
                         half_tracks(pose.expansion), pose.context.lean);
}

std::vector<double> quantities_at(SolvedPose& pose) {
  const Expansion& x = pose.expansion;
  const double pitman =
      x.pitman_turn.value >= 0 ? pose.present.inputs()[index(x.pitman_turn.value)] : 0;
  return evaluate_quantities<double>(pose.truck, x, pose.present.design(),
                                     pose.present.kinematics(), pitman, rates_at(pose),
                                     pose.context, pose.road_place);
}

std::vector<double> slopes_along(SolvedPose& pose, const DesignDirection& direction) {
  const ChangedPose to = changed_pose(pose, direction);
  const System& held_system = pose.held.system();
  const std::vector<DualVector> rates =
      dual_rates(pose, changed_design(held_system, direction), to.state, to.inputs.values);
  const QuantityRates<Dual> q =
      combine<Dual>(held_system, to.kinematics, rates, to.inputs.half_tracks, pose.context.lean);
  std::optional<Vec3T<Dual>> road_place;
  if (pose.road_place) {
    road_place = pose.road_place->cast<Dual>();
    for (int k = 0; k < 3; ++k) (*road_place)[k].slope = direction.road_place[k];
  }
  return slopes_of(evaluate_quantities<Dual>(
      pose.truck, pose.expansion, to.design, to.kinematics,
      pitman_of(pose.expansion, pose.present.system(), to.state), q, pose.context, road_place));
}

Vec3 contact_slope_along(SolvedPose& pose, const DesignDirection& direction) {
  const ChangedPose to = changed_pose(pose, direction);
  const Vec3T<Dual> middle = contact_middle<Dual>(
      pose.truck, pose.expansion, to.design, to.kinematics, road_normal(pose.truck, pose.context));
  return {middle.x().slope, middle.y().slope, middle.z().slope};
}

std::vector<double> slopes_along(SolvedPose& pose, const LooseMotion& motion) {
  const System& system = pose.present.system();
  StateT<Dual> state = dual_state(pose.present.state());
  move_along(system, motion_here(pose.present, motion), state);
  const DesignT<Dual> design = design_of<Dual>(system.mechanism);
  KinematicsT<Dual> kin;
  update_kinematics<Dual>(system, design, state, kin);
  QuantityRates<Dual> rates;
  const std::vector<TwistT<Dual>> still(system.mechanism.bodies.size());
  rates.travel = rates.travel_left = rates.travel_right = rates.lean = rates.pitman = still;
  return slopes_of(evaluate_quantities<Dual>(pose.truck, pose.expansion, design, kin,
                                             pitman_of(pose.expansion, system, state), rates,
                                             pose.context, {}));
}

}  // namespace axlewright
