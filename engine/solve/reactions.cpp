#include "engine/solve/reactions.h"

#include <cmath>

#include "engine/base/index.h"
#include "engine/base/invariant.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

constexpr double kNoWeight =
    1e-6;  // of a unit left null vector, scaled: below it a reaction is determined
constexpr double kBalanced =
    1e-9;  // of the loads' size (forces at kAngleLength): a gauge that holds less holds nothing

Wrench& operator+=(Wrench& sum, const Wrench& part) {
  sum.force += part.force;
  sum.moment += part.moment;
  return sum;
}

Wrench operator*(const Wrench& wrench, double factor) {
  return {wrench.force * factor, wrench.moment * factor};
}

/// Wrenches about the frame's origin that act on the bodies in one pose, and what the tree makes of them.
class Equilibrium {
 public:
  explicit Equilibrium(const PathFollower& follower)
      : system_(follower.system()), kin_(follower.kinematics()) {
    const std::vector<double> inputs = follower.inputs();
    for (const Equation& e : system_.equations) {
      unit_.push_back(
          evaluate_equation(system_, e, follower.design(), follower.state(), kin_, inputs.data()));
    }
  }

  std::vector<Wrench> on_bodies(const std::vector<BodyLoad>& loads) const {
    std::vector<Wrench> acting(system_.mechanism.bodies.size());
    for (const BodyLoad& load : loads) {
      acting[index(load.body.value)] +=
          Wrench{load.force, load.moment + cross(load.place, load.force)};
    }
    return acting;
  }

  /// Sum over each body and all that hang on it.
  std::vector<Wrench> on_subtrees(std::vector<Wrench> acting) const {
    for (std::size_t k = system_.tree.size(); k-- > 0;) {
      const TreeJoint& tree = system_.tree[k];
      acting[index(tree.parent.value)] += acting[index(tree.body.value)];
    }
    return acting;
  }

  /// One entry per coordinate: the power of what acts, per unit of the coordinate's velocity.
  Vector generalised(const std::vector<Wrench>& acting) const {
    const std::vector<Wrench> outer = on_subtrees(acting);
    Vector load(system_.coordinates);
    for (const TreeJoint& tree : system_.tree) {
      for (int c = tree.first; c < tree.first + tree.count; ++c) {
        load[c] = outer[index(tree.body.value)].power(kin_.column[index(c)]);
      }
    }
    return load;
  }

  /// What every joint puts on its body_b, about the frame's origin, for given multipliers of all equations.
  std::vector<Wrench> on_joints(std::vector<Wrench> acting, const Vector& multipliers) const {
    std::vector<Wrench> joints(system_.mechanism.joints.size());
    for (int k = 0; k < system_.equation_count(); ++k) {
      const Equation& e = system_.equations[index(k)];
      const std::array<int, kSlots> bodies = bodies_of(system_, e);
      for (std::size_t s = 0; s < bodies.size(); ++s) {
        if (bodies[s] < 0) continue;
        const Wrench part = unit_[index(k)].wrench[s] * multipliers[k];
        acting[index(bodies[s])] += part;
        if (e.joint.value < 0 || bodies[s] != system_.mechanism.joint(e.joint).body_b.value)
          continue;
        joints[index(e.joint.value)] += part;
      }
    }
    add_turn_inputs(acting, multipliers);
    // Inward: a tree joint bears all that acts on what hangs on it.
    const std::vector<Wrench> outer = on_subtrees(std::move(acting));
    for (const TreeJoint& tree : system_.tree) {
      if (tree.joint.value < 0) continue;
      joints[index(tree.joint.value)] = outer[index(tree.body.value)] * -tree.sign;
    }
    return joints;
  }

  /// The same at the joint's anchor b.
  std::vector<Wrench> at_anchors(std::vector<Wrench> joints) const {
    const Mechanism& m = system_.mechanism;
    for (std::size_t j = 0; j < joints.size(); ++j) {
      const AnchorId b = m.joints[j].b;
      if (b.value < 0) continue;
      const Anchor& anchor = m.anchor(b);
      const Vec3 place = kin_.pose[index(anchor.body.value)].place(anchor.at);
      joints[j].moment -= cross(place, joints[j].force);
    }
    return joints;
  }

 private:
  /// An equation of kind `turn` has no wrenches of its own: a moment along its pin, between the pin's two bodies.
  void add_turn_inputs(std::vector<Wrench>& acting, const Vector& multipliers) const {
    for (int k = 0; k < system_.equation_count(); ++k) {
      const Equation& e = system_.equations[index(k)];
      if (e.kind != EquationKind::turn) continue;
      const TreeJoint& tree = system_.tree[index(e.tree)];
      const Vec3 moment = kin_.column[index(tree.first)].angular * (tree.sign * multipliers[k]);
      acting[index(tree.body.value)].moment += moment;
      acting[index(tree.parent.value)].moment -= moment;
    }
  }

  const System& system_;
  const Kinematics& kin_;
  std::vector<EquationValueT<double>> unit_;
};

/// Multipliers that redundant closures can have without any load, as columns by equation; unit vectors once scaled.
Matrix self_stress(const PathFollower& follower) {
  const Assembly& assembly = follower.assembly();
  const System& system = assembly.system;
  const auto redundant = static_cast<Eigen::Index>(assembly.set_aside.size());
  if (redundant == 0) return Matrix(system.equation_count(), 0);
  const Matrix jacobian = scaled_jacobian(system, follower.design(), follower.state(),
                                          follower.kinematics(), follower.inputs());
  std::vector<int> closures = assembly.active;
  closures.insert(closures.end(), assembly.set_aside.begin(), assembly.set_aside.end());
  Matrix of_closures(static_cast<int>(closures.size()), jacobian.cols());
  for (std::size_t k = 0; k < closures.size(); ++k)
    of_closures.row(static_cast<int>(k)) = jacobian.row(closures[k]);
  const Matrix null = svd(of_closures).left.rightCols(redundant);
  Matrix by_equation = Matrix::Zero(system.equation_count(), redundant);
  for (std::size_t k = 0; k < closures.size(); ++k) {
    by_equation.row(closures[k]) =
        null.row(static_cast<int>(k)) * residual_scale(system.equations[index(closures[k])]);
  }
  return by_equation;
}

double size_of(const std::vector<BodyLoad>& loads) {
  double size = 0;
  for (const BodyLoad& load : loads) size += load.force.norm() * kAngleLength + load.moment.norm();
  return size;
}

}  // namespace

Reactions reactions(PathFollower& follower, const std::vector<BodyLoad>& loads) {
  const Assembly& assembly = follower.assembly();
  const System& system = assembly.system;
  AXLEWRIGHT_INVARIANT(assembly.soundness == Soundness::sound);
  const Equilibrium equilibrium(follower);
  const std::vector<Wrench> acting = equilibrium.on_bodies(loads);
  const Vector of_holding = follower.multipliers(equilibrium.generalised(acting));
  const std::vector<int> holding = holding_rows(assembly);
  Vector multipliers = Vector::Zero(system.equation_count());
  for (std::size_t k = 0; k < holding.size(); ++k)
    multipliers[holding[k]] = of_holding[static_cast<Eigen::Index>(k)];
  const std::vector<Wrench> joints =
      equilibrium.at_anchors(equilibrium.on_joints(acting, multipliers));

  const Matrix stress = self_stress(follower);
  std::vector<bool> force_known(joints.size(), true), moment_known(joints.size(), true);
  for (Eigen::Index c = 0; c < stress.cols(); ++c) {
    const std::vector<Wrench> change =
        equilibrium.at_anchors(equilibrium.on_joints(equilibrium.on_bodies({}), stress.col(c)));
    for (std::size_t j = 0; j < joints.size(); ++j) {
      if (change[j].force.norm() > kNoWeight) force_known[j] = false;
      if (change[j].moment.norm() > kNoWeight * kAngleLength) moment_known[j] = false;
    }
  }

  Reactions r;
  r.multipliers.resize(index(system.equation_count()));
  r.axial.resize(joints.size());
  r.efforts.resize(system.mechanism.inputs.size());
  for (std::size_t j = 0; j < joints.size(); ++j) {
    JointReaction reaction;
    if (force_known[j]) reaction.force = joints[j].force;
    if (moment_known[j]) reaction.moment = joints[j].moment;
    r.joints.push_back(reaction);
  }
  for (int k = 0; k < system.equation_count(); ++k) {
    const Equation& e = system.equations[index(k)];
    const double scale = residual_scale(e);
    if (stress.cols() > 0 && stress.row(k).norm() > kNoWeight * scale) continue;
    const double value = multipliers[k];
    r.multipliers[index(k)] = value;
    if (e.kind == EquationKind::distance) r.axial[index(e.joint.value)] = -value;
    if (e.role == EquationRole::input) r.efforts[index(e.input)] = value;
    if (e.role == EquationRole::gauge && std::abs(value) > kBalanced * size_of(loads)) {
      r.spins.push_back({system.mechanism.axis(e.u).body, value});
    }
  }
  return r;
}

}  // namespace axlewright
