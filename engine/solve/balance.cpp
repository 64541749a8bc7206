#include "engine/solve/balance.h"

#include <set>

#include "engine/base/index.h"
#include "engine/solve/linearise.h"

namespace axlewright {
void Balance::lay_down(const Assembly& assembly, const Design& design) {
  *this = Balance{};
  const System& system = assembly.system;
  closures_ = static_cast<int>(assembly.active.size());
  coordinates_ = system.coordinates;
  scale_ = coordinate_scales(system);
  rows_ = holding_rows(assembly);
  flat_.lay_down(system, design, rows_);
  values_.assign(flat_.entry_rows().size(), 0.0);
  turning_.lay_down(system, design, rows_);
  for (const int row : rows_)
    stiffness_.push_back(system.equations[index(row)].stiffness / kForceScale);

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
  stepping_jacobian_ = jacobian_.bottomRows(jacobian_.rows() - closures_);
  if (carried_) forces_.tail(carried_forces_.size()) = carried_forces_;
  stiffness_matrix_.setZero();
  stiffen_by_bushes(system);
  turning_.add_to(stiffness_matrix_, forces_, kin);
  for (int row = 0; row < closures_; ++row) {
    for (const JacobianEntry& lever : system.entries[index(rows_[index(row)])]) {
      *entries++ = jacobian_(row, lever.column);
      *entries++ = jacobian_(row, lever.column);
    }
  }
  for (const auto& [c, d] : coupled_) *entries++ = stiffness_matrix_(c, d);
}

/// dr/dq k dr/dq of every bush.
void Balance::stiffen_by_bushes(const System& system) {
  for (std::size_t row = index(closures_); row < rows_.size(); ++row) {
    const auto slopes = jacobian_.row(static_cast<int>(row));
    const std::vector<JacobianEntry>& levers = system.entries[index(rows_[row])];
    for (const JacobianEntry& d : levers) {
      const double force = stiffness_[row] * slopes[d.column];
      for (const JacobianEntry& c : levers)
        stiffness_matrix_(c.column, d.column) += slopes[c.column] * force;
    }
  }
}

void Balance::carry_forces(const Vector& step) {
  const auto bushes = jacobian_.rows() - closures_;
  const Eigen::Map<const Vector> k(stiffness_.data() + closures_, bushes);
  carried_forces_ =
      k.cwiseProduct(row_residuals_.tail(bushes) + stepping_jacobian_ * step.head(coordinates_));
  carried_ = true;
}

Vector Balance::lag_of_forces() const {
  const auto bushes = jacobian_.rows() - closures_;
  const Eigen::Map<const Vector> k(stiffness_.data() + closures_, bushes);
  return (stepping_jacobian_ - jacobian_.bottomRows(bushes)).transpose() *
         (k.cwiseProduct(row_residuals_.tail(bushes)) - carried_forces_);
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
