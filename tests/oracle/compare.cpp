#include "tests/oracle/compare.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/mechanism/kinematics.h"
#include "engine/solve/reactions.h"
#include "tests/oracle/truck_families.h"

namespace axlewright::oracle {
namespace {

constexpr double kNudge = 1e-3;              // [m]
constexpr double kTurn = kRadiansPerDegree;  // [rad]
constexpr double kOnBushes =
    0.1;  // of both: more, and forces of some kN turn with random bodies, so that Newton's method may settle elsewhere
constexpr double kForce = 1000, kMoment = 100;  // [N, N m]

Vec3 random_vector(Random& random, double size) {
  const double x = random.between(-size, size);
  const double y = random.between(-size, size);
  return {x, y, random.between(-size, size)};
}

std::vector<Placement> disturbed(const PathFollower& follower, Random& random) {
  std::vector<Placement> start;
  const Mechanism& m = follower.system().mechanism;
  const double share = follower.assembly().bushes.empty() ? 1 : kOnBushes;
  for (std::size_t b = 1; b < m.bodies.size(); ++b) {
    // About a place of the body itself, so that a turn stays a small move.
    Vec3 centre = Vec3::Zero();
    for (const Anchor& anchor : m.anchors) {
      if (anchor.body.value == static_cast<int>(b)) centre = anchor.at;
    }
    const Pose& solved = follower.kinematics().pose[b];
    Pose pose;
    const Vec3 axis = random_vector(random, 1).normalized();
    pose.R = rotation_about<double>(axis, share * kTurn) * solved.R;
    pose.t = solved.place(centre) + random_vector(random, share * kNudge) - pose.R * centre;
    start.push_back(placement_of(pose));
  }
  return start;
}

std::vector<BodyLoad> random_loads(const Mechanism& m, Random& random) {
  std::vector<BodyLoad> loads;
  for (int b = 1; b < static_cast<int>(m.bodies.size()); ++b) {
    loads.push_back({BodyId{b}, random_vector(random, kForce), random_vector(random, 1),
                     random_vector(random, kMoment)});
  }
  return loads;
}

std::vector<Push> pushes_of(const std::vector<BodyLoad>& loads) {
  std::vector<Push> pushes;
  for (const BodyLoad& load : loads) {
    pushes.push_back({triple(load.force), triple(load.moment + cross(load.place, load.force))});
  }
  return pushes;
}

/// Largest way of an anchor between two sets of poses.
double moved(const PathFollower& follower, const std::vector<Placement>& before,
             const std::vector<Placement>& after) {
  double largest = 0;
  for (const Anchor& anchor : follower.system().mechanism.anchors) {
    if (anchor.body == kFrame) continue;
    const std::size_t b = index(anchor.body.value - 1);
    const Vec3 way = pose_of(after[b]).place(anchor.at) - pose_of(before[b]).place(anchor.at);
    largest = std::max(largest, way.norm());
  }
  return largest;
}

double largest_apart(const PathFollower& follower, const std::vector<Placement>& placements) {
  double largest = 0;
  for (const Anchor& anchor : follower.system().mechanism.anchors) {
    if (anchor.body == kFrame) continue;
    const Pose theirs = pose_of(placements[index(anchor.body.value - 1)]);
    const Pose& ours = follower.kinematics().pose[index(anchor.body.value)];
    largest = std::max(largest, (theirs.place(anchor.at) - ours.place(anchor.at)).norm());
  }
  return largest;
}

double turned_apart(const PathFollower& follower, const std::vector<Placement>& placements) {
  double largest = 0;
  for (std::size_t b = 0; b < placements.size(); ++b) {
    const Mat3 apart = pose_of(placements[b]).R - follower.kinematics().pose[b + 1].R;
    // For a small turn the norm of the difference is the turn times the square root of two.
    largest = std::max(largest, apart.norm() / std::sqrt(2.0));
  }
  return largest;
}

class Comparison {
 public:
  Comparison(const PathFollower& follower, const Statics& second)
      : follower_(follower),
        m_(follower.system().mechanism),
        poses_(follower.kinematics().pose),
        second_(second) {}

  Difference run(const Restated& restated, const Reactions& ours,
                 const std::vector<InputId>& held) {
    difference_.closed = true;
    difference_.acceleration = second_.acceleration;
    places();
    for (std::size_t j = 0; j < m_.joints.size(); ++j) joint(j, ours.joints[j], ours.axial[j]);
    for (std::size_t k = 0; k < held.size(); ++k) {
      effort(index(restated.first_input) + k, held[k], ours.efforts[index(held[k].value)]);
    }
    return difference_;
  }

 private:
  void places() {
    difference_.place = largest_apart(follower_, second_.placements);
    difference_.turn = turned_apart(follower_, second_.placements);
  }

  void joint(std::size_t j, const JointReaction& ours, const std::optional<double>& axial) {
    const Joint& joint = m_.joints[j];
    const Push& push = second_.pushes[j];
    const Vec3 force = vec3(push.force);
    const Vec3 place = joint.b.value < 0 ? Vec3(Vec3::Zero()) : now(joint.b);
    const Vec3 moment = vec3(push.moment) - cross(place, force);
    note(joint.name, ours.force, force);
    note(joint.name, ours.moment, moment);
    if (joint.kind != JointKind::distance || !axial) return;
    // A bar in tension pulls b towards a.
    const Vec3 line = (now(joint.a) - place).normalized();
    note(joint.name, Vec3(*axial, 0, 0), Vec3(line.dot(force), 0, 0));
  }

  void effort(std::size_t label, InputId id, const std::optional<double>& ours) {
    const Input& input = m_.inputs[index(id.value)];
    const Push& push = second_.pushes[label];
    const bool turn = input.kind == InputKind::turn;
    const AxisId along = turn ? m_.joint(input.joint).axis_a : input.axis;
    const Vec3 direction = poses_[index(m_.axis(along).body.value)].turn(m_.axis(along).direction);
    const double theirs = direction.dot(vec3(turn ? push.moment : push.force));
    if (!ours) {
      ++difference_.undetermined;
      return;
    }
    note(input.name, Vec3(*ours, 0, 0), Vec3(theirs, 0, 0));
  }

  void note(const std::string& name, const std::optional<Vec3>& ours, const Vec3& theirs) {
    if (!ours) {
      ++difference_.undetermined;
      return;
    }
    ++difference_.reactions;
    difference_.largest_reaction = std::max(difference_.largest_reaction, theirs.norm());
    const double apart = (*ours - theirs).norm();
    if (apart <= difference_.force) return;
    difference_.force = apart;
    difference_.worst_joint = name;
  }

  Vec3 now(AnchorId id) const {
    return poses_[index(m_.anchor(id).body.value)].place(m_.anchor(id).at);
  }

  const PathFollower& follower_;
  const Mechanism& m_;
  const std::vector<Pose>& poses_;
  const Statics& second_;
  Difference difference_;
};

Restated restated_here(const PathFollower& follower, const std::vector<InputId>& held) {
  const std::vector<double> values = follower.inputs();
  std::vector<HeldInput> inputs;
  for (const InputId id : held) inputs.push_back({id, values[index(id.value)]});
  return restate(follower.system().mechanism, inputs, follower.assembly());
}

/// What each bush puts on its body_b about the frame's origin, by joint, and the energy of all.
struct OurBushes {
  std::vector<Wrench> on_b;
  double energy = 0;
};

OurBushes our_bushes(const PathFollower& follower) {
  const System& system = follower.system();
  OurBushes ours;
  ours.on_b.resize(system.mechanism.joints.size());
  const std::vector<double> inputs = follower.inputs();
  for (const int row : follower.assembly().bushes) {
    const Equation& e = system.equations[index(row)];
    const auto value = evaluate_equation<double>(system, e, follower.design(), follower.state(),
                                                 follower.kinematics(), inputs.data());
    ours.energy += 0.5 * e.stiffness * value.residual * value.residual;
    const std::array<int, kSlots> bodies = bodies_of(system, e);
    for (std::size_t slot = 0; slot < kSlots; ++slot) {
      if (bodies[slot] != system.mechanism.joint(e.joint).body_b.value) continue;
      Wrench& sum = ours.on_b[index(e.joint.value)];
      sum.force -= value.wrench[slot].force * (e.stiffness * value.residual);
      sum.moment -= value.wrench[slot].moment * (e.stiffness * value.residual);
    }
  }
  return ours;
}

void compare_bushes(const PathFollower& follower, const Rest& second, RestDifference& difference) {
  const Mechanism& m = follower.system().mechanism;
  const OurBushes ours = our_bushes(follower);
  difference.energy = std::abs(ours.energy - second.energy);
  for (std::size_t j = 0; j < m.joints.size(); ++j) {
    const Joint& joint = m.joints[j];
    if (joint.kind != JointKind::bush) continue;
    ++difference.bushes;
    const Vec3 place =
        follower.kinematics().pose[index(joint.body_b.value)].place(m.anchor(joint.b).at);
    const Vec3 force = vec3(second.bushings[j].force), force_apart = ours.on_b[j].force - force;
    const Vec3 moment_apart =
        ours.on_b[j].moment - vec3(second.bushings[j].moment) - cross(place, force_apart);
    difference.largest_force = std::max(difference.largest_force, force.norm());
    const double apart = std::max(force_apart.norm(), moment_apart.norm());
    if (apart <= difference.force) continue;
    difference.force = apart;
    difference.worst_bush = joint.name;
  }
}

/// Where the second solver gets from a place near by: of rest if there are bushes.
std::optional<std::vector<Placement>> second_place(const Problem& problem,
                                                   const std::vector<Placement>& start) {
  if (problem.bushings.empty()) return solve(problem, start);
  const std::optional<Rest> rest = solve_rest(problem, start);
  if (!rest) return std::nullopt;
  return rest->placements;
}

/// The second solver's poses after many small steps of the inputs; nothing where it finds none or would have to jump.
std::optional<std::vector<Placement>> walk(const PathFollower& follower,
                                           const std::vector<InputId>& held,
                                           const std::vector<double>& from,
                                           const std::vector<double>& to,
                                           std::vector<Placement> placements, int steps) {
  constexpr double kJump =
      0.05;  // [m]; small steps of inputs move an anchor less, even near a limit
  for (int step = 1; step <= steps; ++step) {
    std::vector<HeldInput> inputs;
    for (const InputId id : held) {
      const std::size_t k = index(id.value);
      inputs.push_back({id, from[k] + (to[k] - from[k]) * step / steps});
    }
    const Restated restated = restate(follower.system().mechanism, inputs, follower.assembly());
    const auto next = second_place(restated.problem, placements);
    if (!next || (!placements.empty() && moved(follower, placements, *next) > kJump)) {
      return std::nullopt;
    }
    placements = *next;
  }
  return placements;
}

}  // namespace

double apart_after_own_path(const PathFollower& follower, const std::vector<InputId>& held) {
  constexpr int kSteps = 50;
  const auto reached =
      walk(follower, held, follower.as_measured_inputs(), follower.inputs(), {}, kSteps);
  return reached ? largest_apart(follower, *reached) : INFINITY;
}

bool second_gets_to(const PathFollower& follower, const std::vector<InputId>& held,
                    const std::vector<double>& inputs) {
  constexpr int kSteps = 100;
  std::vector<Placement> here;
  for (std::size_t b = 1; b < follower.kinematics().pose.size(); ++b) {
    here.push_back(placement_of(follower.kinematics().pose[b]));
  }
  return walk(follower, held, follower.inputs(), inputs, here, kSteps).has_value();
}

Difference compare_here(PathFollower& follower, const std::vector<InputId>& held,
                        std::uint64_t seed) {
  Random random(seed);
  const Restated restated = restated_here(follower, held);
  const std::vector<Placement> start = disturbed(follower, random);
  const std::vector<BodyLoad> loads = random_loads(follower.system().mechanism, random);
  const std::optional<Statics> second = solve_statics(restated.problem, start, pushes_of(loads));
  if (!second) return {};
  return Comparison(follower, *second).run(restated, reactions(follower, loads), held);
}

RestDifference compare_rest_here(const PathFollower& follower, const std::vector<InputId>& held,
                                 std::uint64_t seed) {
  Random random(seed);
  const std::optional<Rest> second =
      solve_rest(restated_here(follower, held).problem, disturbed(follower, random));
  RestDifference difference;
  if (!second) return difference;
  difference.closed = true;
  difference.place = largest_apart(follower, second->placements);
  difference.turn = turned_apart(follower, second->placements);
  difference.stiffness = second->stiffness;
  difference.unbalanced = second->unbalanced;
  compare_bushes(follower, *second, difference);
  return difference;
}

double apart_from_minimised(const PathFollower& follower, const std::vector<InputId>& held,
                            std::uint64_t seed, double tolerance) {
  Random random(seed);
  const std::optional<Rest> second = minimise_energy(restated_here(follower, held).problem,
                                                     disturbed(follower, random), tolerance);
  return second ? largest_apart(follower, second->placements) : INFINITY;
}

}  // namespace axlewright::oracle
