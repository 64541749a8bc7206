#include "engine/solve/balance.h"

#include <algorithm>
#include <set>

#include "engine/base/index.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

constexpr int kMotions = 6;  // of a body: three turns about the frame's origin, three shifts

DesignT<Dual> dual_design_of(const Design& design) {
  DesignT<Dual> dual;
  for (const Vec3& p : design.places) dual.places.push_back(p.cast<Dual>());
  for (const Vec3& v : design.directions) dual.directions.push_back(v.cast<Dual>());
  for (const double l : design.lengths) dual.lengths.emplace_back(l);
  return dual;
}

/// The pose of a body with the slope of one unit motion.
PoseT<Dual> moving(const Pose& pose, int motion) {
  PoseT<Dual> dual;
  dual.R = pose.R.cast<Dual>();
  dual.t = pose.t.cast<Dual>();
  if (motion >= 3) {
    dual.t[motion - 3].slope = 1;
    return dual;
  }
  const Vec3 axis = Vec3::Unit(motion);
  for (int c = 0; c < 3; ++c) {
    const Vec3 turned = cross(axis, Vec3(pose.R.col(c)));
    for (int r = 0; r < 3; ++r) dual.R(r, c).slope = turned[r];
  }
  const Vec3 carried = cross(axis, pose.t);
  for (int r = 0; r < 3; ++r) dual.t[r].slope = carried[r];
  return dual;
}

double component(const Twist& twist, int motion) {
  return motion < 3 ? twist.angular[motion] : twist.origin[motion - 3];
}

void add_to(Wrench& sum, double force, const WrenchT<Dual>& unit) {
  for (int k = 0; k < 3; ++k) {
    sum.force[k] += force * unit.force[k].value;
    sum.moment[k] += force * unit.moment[k].value;
  }
}

void add_change_to(Wrench& sum, double force, const WrenchT<Dual>& unit) {
  for (int k = 0; k < 3; ++k) {
    sum.force[k] += force * unit.force[k].slope;
    sum.moment[k] += force * unit.moment[k].slope;
  }
}

/// The velocity of a twist that is carried along by another.
Twist carried(const Twist& twist, const Twist& by) {
  return {cross(by.angular, twist.angular),
          cross(by.origin, twist.angular) + cross(by.angular, twist.origin)};
}

}  // namespace

void Balance::lay_down(const Assembly& assembly, const Design& design) {
  *this = Balance{};
  const System& system = assembly.system;
  closures_ = static_cast<int>(assembly.active.size());
  coordinates_ = system.coordinates;
  scale_ = coordinate_scales(system);
  rows_ = holding_rows(assembly);
  flat_.lay_down(system, design, rows_);
  values_.assign(flat_.entry_rows().size(), 0.0);
  dual_design_ = dual_design_of(design);
  rows_of_body_.resize(system.mechanism.bodies.size());
  for (std::size_t row = 0; row < rows_.size(); ++row) {
    const Equation& e = system.equations[index(rows_[row])];
    stiffness_.push_back(e.stiffness / kForceScale);
    bodies_.push_back(bodies_of(system, e));
    for (const int body : bodies_.back()) {
      if (body <= 0) continue;
      std::vector<int>& rows = rows_of_body_[index(body)];
      if (rows.empty() || rows.back() != static_cast<int>(row))
        rows.push_back(static_cast<int>(row));
    }
  }
  coordinates_of_body_.resize(system.mechanism.bodies.size());
  coordinates_above_.resize(index(coordinates_));
  for (const TreeJoint& tree : system.tree) {
    std::vector<int>& own = coordinates_of_body_[index(tree.body.value)];
    own = coordinates_of_body_[index(tree.parent.value)];
    for (int c = tree.first; c < tree.first + tree.count; ++c) {
      coordinates_above_[index(c)] = coordinates_of_body_[index(tree.parent.value)];
      // The turns of a free body are about a point that its own shifts carry.
      if (tree.kind == TreeKind::free && c < tree.first + 3) {
        for (int shift = 3; shift < 6; ++shift)
          coordinates_above_[index(c)].push_back(tree.first + shift);
      }
    }
    for (int c = tree.first; c < tree.first + tree.count; ++c) own.push_back(c);
  }

  std::set<std::pair<int, int>> coupled;
  for (const int equation : rows_) {
    const std::vector<JacobianEntry>& levers = system.entries[index(equation)];
    for (const JacobianEntry& c : levers) {
      for (const JacobianEntry& d : levers) coupled.emplace(c.column, d.column);
    }
  }
  coupled_.assign(coupled.begin(), coupled.end());
  for (int row = 0; row < closures_; ++row) {
    for (const JacobianEntry& lever : system.entries[index(rows_[index(row)])]) {
      entry_rows_.push_back(row);
      entry_columns_.push_back(lever.column);
      entry_rows_.push_back(closures_ + lever.column);
      entry_columns_.push_back(coordinates_ + row);
    }
  }
  for (const auto& [c, d] : coupled_) {
    entry_rows_.push_back(closures_ + c);
    entry_columns_.push_back(d);
  }
  row_residuals_.setZero(static_cast<int>(rows_.size()));
  forces_.setZero(static_cast<int>(rows_.size()));
  jacobian_.setZero(static_cast<int>(rows_.size()), coordinates_);
  stiffness_matrix_.setZero(coordinates_, coordinates_);
}

void Balance::evaluate_rows(const State& state, const Kinematics& kin, const double* inputs) {
  flat_.evaluate(state, kin, inputs, row_residuals_.data(), values_.data());
  jacobian_.setZero();
  for (std::size_t k = 0; k < values_.size(); ++k)
    jacobian_(flat_.entry_rows()[k], flat_.entry_columns()[k]) += values_[k];
}

void Balance::evaluate(const System& system, const State& state, const Kinematics& kin,
                       const Vector& multipliers, const double* inputs, double* residuals,
                       double* entries) {
  evaluate_rows(state, kin, inputs);
  for (int row = 0; row < forces_.size(); ++row) {
    forces_[row] =
        row < closures_ ? multipliers[row] : stiffness_[index(row)] * row_residuals_[row];
  }
  Eigen::Map<Vector> out(residuals, size());
  out.head(closures_) = row_residuals_.head(closures_);
  out.tail(coordinates_).noalias() = jacobian_.transpose() * forces_;
  if (entries == nullptr) return;
  stiffen_by_bushes();
  stiffen_by_turning_wrenches(system, state, kin, inputs);
  stiffen_by_turning_columns(system, kin);
  for (int row = 0; row < closures_; ++row) {
    for (const JacobianEntry& lever : system.entries[index(rows_[index(row)])]) {
      *entries++ = jacobian_(row, lever.column);
      *entries++ = jacobian_(row, lever.column);
    }
  }
  for (const auto& [c, d] : coupled_) *entries++ = stiffness_matrix_(c, d);
}

/// dr/dq k dr/dq of every bush.
void Balance::stiffen_by_bushes() {
  const auto bushes = jacobian_.rows() - closures_;
  const auto of_bushes = jacobian_.bottomRows(bushes);
  const Eigen::Map<const Vector> k(stiffness_.data() + closures_, bushes);
  stiffness_matrix_.noalias() = of_bushes.transpose() * (k.asDiagonal() * of_bushes);
}

/// What the wrenches on all bodies change by as each body moves, as felt by each coordinate.
void Balance::stiffen_by_turning_wrenches(const System& system, const State& state,
                                          const Kinematics& kin, const double* inputs) {
  StateT<Dual> dual_state(state.size());
  for (std::size_t k = 0; k < state.size(); ++k) dual_state[k].x = Dual(state[k].x);
  const std::vector<Dual> dual_inputs(inputs, inputs + system.mechanism.inputs.size());
  KinematicsT<Dual> dual_kin;
  for (const Pose& pose : kin.pose) {
    dual_kin.pose.push_back({pose.R.cast<Dual>(), pose.t.cast<Dual>()});
  }
  std::vector<Wrench> change(kin.pose.size());
  on_bodies_.assign(kin.pose.size(), Wrench{});
  for (std::size_t body = 1; body < kin.pose.size(); ++body) {
    if (rows_of_body_[body].empty()) continue;
    for (int motion = 0; motion < kMotions; ++motion) {
      dual_kin.pose[body] = moving(kin.pose[body], motion);
      std::fill(change.begin(), change.end(), Wrench{});
      for (const int row : rows_of_body_[body]) {
        const auto value =
            evaluate_equation<Dual>(system, system.equations[index(rows_[index(row)])],
                                    dual_design_, dual_state, dual_kin, dual_inputs.data());
        for (std::size_t slot = 0; slot < kSlots; ++slot) {
          const int on = bodies_[index(row)][slot];
          if (on <= 0) continue;
          if (motion == 0 && on == static_cast<int>(body))
            add_to(on_bodies_[body], forces_[row], value.wrench[slot]);
          add_change_to(change[index(on)], forces_[row], value.wrench[slot]);
        }
      }
      for (std::size_t on = 1; on < change.size(); ++on) {
        for (const int c : coordinates_of_body_[on]) {
          const double felt = change[on].power(kin.column[index(c)]);
          if (felt == 0) continue;
          for (const int d : coordinates_of_body_[body])
            stiffness_matrix_(c, d) += felt * component(kin.column[index(d)], motion);
        }
      }
    }
    dual_kin.pose[body] = {kin.pose[body].R.cast<Dual>(), kin.pose[body].t.cast<Dual>()};
  }
}

/// What a coordinate feels of the same wrenches changes as its axis is carried along by the coordinates above it.
void Balance::stiffen_by_turning_columns(const System& system, const Kinematics& kin) {
  std::vector<Wrench> outer = on_bodies_;
  for (std::size_t k = system.tree.size(); k-- > 0;) {
    const TreeJoint& tree = system.tree[k];
    Wrench& parent = outer[index(tree.parent.value)];
    parent.force += outer[index(tree.body.value)].force;
    parent.moment += outer[index(tree.body.value)].moment;
    for (int c = tree.first; c < tree.first + tree.count; ++c) {
      for (const int d : coordinates_above_[index(c)]) {
        stiffness_matrix_(c, d) += outer[index(tree.body.value)].power(
            carried(kin.column[index(c)], kin.column[index(d)]));
      }
    }
  }
}

Vector Balance::multipliers_at(const State& state, const Kinematics& kin, const double* inputs) {
  evaluate_rows(state, kin, inputs);
  const auto bushes = jacobian_.rows() - closures_;
  const Eigen::Map<const Vector> k(stiffness_.data() + closures_, bushes);
  const Vector pulled =
      jacobian_.bottomRows(bushes).transpose() * k.cwiseProduct(row_residuals_.tail(bushes));
  const Matrix closures = jacobian_.topRows(closures_).transpose();
  return least_norm_solve(scale_.cwiseInverse().asDiagonal() * closures,
                          -pulled.cwiseQuotient(scale_));
}

Vector Balance::bush_forces(const Vector& change) const {
  const auto bushes = jacobian_.rows() - closures_;
  const Eigen::Map<const Vector> k(stiffness_.data() + closures_, bushes);
  return k.cwiseProduct(jacobian_.bottomRows(bushes) * change);
}

double Balance::least_stiffness() const {
  const auto unscale = scale_.cwiseInverse().asDiagonal();
  return least_where_null(unscale * stiffness_matrix_ * unscale,
                          jacobian_.topRows(closures_) * unscale);
}

}  // namespace axlewright
