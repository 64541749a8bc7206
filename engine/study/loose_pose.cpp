#include "engine/study/loose_pose.h"

#include <algorithm>
#include <cmath>

#include "engine/base/index.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr double kStep = from_deg(0.5);
constexpr int kMostCorrections = 6;

const Equation& active_equation(const Assembly& assembly, std::size_t row) {
  return assembly.system.equations[index(assembly.active[row])];
}

/// Whether an equation is the gauge that holds this spin.
bool holds(const Equation& e, const LooseMotion& motion, const Mechanism& m) {
  return e.role == EquationRole::gauge && m.axis(e.u).body == motion.body;
}

/// Newton on everything but the gauge of the spin, whose coordinate stays as it is.
bool close_again(PathFollower& present, const LooseMotion& motion) {
  const Assembly& assembly = present.assembly();
  const System& system = assembly.system;
  const std::vector<double> inputs = present.inputs();
  for (int k = 0; k < kMostCorrections; ++k) {
    Vector rhs = -present.scaled_residuals();
    for (std::size_t row = 0; row < assembly.active.size(); ++row) {
      if (holds(active_equation(assembly, row), motion, system.mechanism))
        rhs[static_cast<int>(row)] = 0;
    }
    if (rhs.cwiseAbs().maxCoeff() < kResidualTolerance) return true;
    rhs = rhs.cwiseQuotient(present.residual_scales());
    present.factor_here();
    const Vector step = present.solve_linear(rhs);
    State state = present.state();
    move(system, step.data(), state);
    present.start_from(state, inputs);
  }
  return false;
}

}  // namespace

Vector motion_here(PathFollower& present, const LooseMotion& motion) {
  const Assembly& assembly = present.assembly();
  const Mechanism& m = assembly.system.mechanism;
  if (!motion.spin) return motion.direction;
  Vector let_go = Vector::Zero(present.size());
  for (std::size_t row = 0; row < assembly.active.size(); ++row) {
    if (holds(active_equation(assembly, row), motion, m)) let_go[static_cast<int>(row)] = 1;
  }
  present.factor_here();
  const Vector direction = present.solve_linear(let_go);
  const std::vector<Twist> twists =
      body_twists(assembly.system, present.kinematics(), direction.data());
  const BodyId carrier = m.body(motion.body).carrier;
  const Vec3 line = present.kinematics().pose[index(motion.body.value)].turn(motion.line);
  const Vec3 turn = twists[index(motion.body.value)].angular - twists[index(carrier.value)].angular;
  return direction / line.dot(turn);
}

bool carry_out(PathFollower& present, const LooseMotion& motion, double angle) {
  if (!motion.spin) return false;
  const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(angle) / kStep)));
  const std::vector<double> inputs = present.inputs();
  for (int k = 0; k < steps; ++k) {
    const Vector step = motion_here(present, motion) * (angle / steps);
    State state = present.state();
    move(present.system(), step.data(), state);
    present.start_from(state, inputs);
    if (!close_again(present, motion)) return false;
  }
  return true;
}

}  // namespace axlewright
