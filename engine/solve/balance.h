#pragma once

#include <utility>
#include <vector>

#include "engine/mechanism/equations.h"
#include "engine/solve/assembly.h"
#include "engine/solve/flat_equations.h"
#include "engine/solve/turning_wrenches.h"

// A mechanism that bushes hold, at rest: the place, among all that its closures allow, where the bushes' forces balance. Its
// unknowns are the tree coordinates q and one multiplier for each closure solved; its equations
//   r_e(q) = 0                                          for each closure e
//   sum over closures of (dr_e/dq) lambda_e  +  sum over bushes' equations b of (dr_b/dq) k_b r_b  =  0
// the second line being the stationary points of the potential energy, sum of k_b r_b^2 / 2, under the closures (Lanczos, C.,
// The Variational Principles of Mechanics, 4th ed. 1970, ch. II, the method of the Lagrangian multiplier).
//
// Multipliers are told as lambda / kForceScale [m], balances as force / kForceScale, so that all unknowns and all equations
// compare as ways.

namespace axlewright {

inline constexpr double kForceScale =
    1e6;  ///< [N per m of multiplier]: about that of a rubber bush

/// The residuals of everything that a follower solves, over a scalar: those of the active closures, and behind them, where the assembly
/// has bushes, the balance of each coordinate.
///   multipliers  of the active closures, told as above; not looked at without bushes
template <class T>
std::vector<T> square_residuals(const Assembly& assembly, const DesignT<T>& design,
                                const StateT<T>& state, const KinematicsT<T>& kin,
                                const std::vector<T>& multipliers, const T* inputs) {
  const System& system = assembly.system;
  const bool balanced = !assembly.bushes.empty();
  const std::size_t closures = assembly.active.size();
  std::vector<T> out(closures + (balanced ? static_cast<std::size_t>(system.coordinates) : 0),
                     T(0));
  const auto add = [&](int equation, const T& force, const EquationValueT<T>& value) {
    const Equation& e = system.equations[static_cast<std::size_t>(equation)];
    for (const JacobianEntry& entry : system.entries[static_cast<std::size_t>(equation)])
      out[closures + static_cast<std::size_t>(entry.column)] +=
          force * derivative<T>(e, value, entry, kin);
  };
  for (std::size_t row = 0; row < closures; ++row) {
    const Equation& e = system.equations[static_cast<std::size_t>(assembly.active[row])];
    const auto value = evaluate_equation<T>(system, e, design, state, kin, inputs);
    out[row] = value.residual;
    if (balanced) add(assembly.active[row], multipliers[row], value);
  }
  for (const int bush : assembly.bushes) {
    const Equation& e = system.equations[static_cast<std::size_t>(bush)];
    const auto value = evaluate_equation<T>(system, e, design, state, kin, inputs);
    add(bush, value.residual * T(e.stiffness / kForceScale), value);
  }
  return out;
}

/// The same for a solver's every step, with its Jacobian.
class Balance {
 public:
  void lay_down(const Assembly& assembly, const Design& design);

  /// Closures solved, and behind them coordinates.
  int size() const { return closures_ + coordinates_; }

  /// Of the Jacobian's entries, rows and columns in the order of evaluate()'s `entries`. Rows: closures, then balances; columns:
  /// coordinates, then multipliers.
  const std::vector<int>& entry_rows() const { return entry_rows_; }
  const std::vector<int>& entry_columns() const { return entry_columns_; }

  /// Needs the twists of `kin`. `entries` may be null.
  void evaluate(const System& system, const State& state, const Kinematics& kin,
                const Vector& multipliers, const double* inputs, double* residuals,
                double* entries);

  /// Newton's steps are those of a problem in which the forces of the bushes are unknowns of their own, beside the coordinates, with
  /// r_b - f_b / k_b = 0 for each: the same places of rest, the same matrix with the f_b taken out of it again. Only the force that turns
  /// with its parts is then f_b, which a step changes evenly, and not k_b r_b, which in a stiff bush is mostly what the step has
  /// yet to correct (Magisano, D., Leonetti, L., Garcea, G., Comput. Methods Appl. Mech. Engrg. 313 (2017), from memory).
  ///
  /// Takes the forces along with a step of the coordinates from the place last evaluated, by the Jacobian last evaluated with entries.
  void carry_forces(const Vector& step);
  /// From here on the forces are those of the place again.
  void settle_forces() { carried_ = false; }
  /// What carried forces add to the balances of coordinates for a step by the Jacobian last evaluated with entries.
  Vector lag_of_forces() const;

  /// The multipliers that balance best at a place; they do where it is at rest.
  Vector multipliers_at(const State& state, const Kinematics& kin, const double* inputs);

  /// What the bushes' forces change by, told as multipliers are, for a small change of the coordinates where last evaluated.
  Vector bush_forces(const Vector& change) const;

  /// The least stiffness against any small motion that the closures allow, in kForceScale, at the place last evaluated with its
  /// Jacobian. Above 0 the place is a minimum of the potential energy: whatever pushes it a little is pushed back.
  double least_stiffness() const;

 private:
  void evaluate_rows(const State& state, const Kinematics& kin, const double* inputs);
  void stiffen_by_bushes(const System& system);

  FlatEquations flat_;  ///< closures, then bushes
  TurningWrenches turning_;
  std::vector<int> rows_;          ///< their equations
  std::vector<double> stiffness_;  ///< by row, in kForceScale; 0 of a closure
  std::vector<int> entry_rows_, entry_columns_;
  std::vector<std::pair<int, int>> coupled_;  ///< coordinates that share an equation
  Vector scale_;
  int closures_ = 0, coordinates_ = 0;

  bool carried_ = false;
  Vector carried_forces_;     ///< by bush row
  Matrix stepping_jacobian_;  ///< of bush rows, when last evaluated with entries

  // What the last evaluation found; scratch of the next.
  std::vector<double> values_;  ///< of flat_'s entries
  Vector row_residuals_;
  Vector forces_;            ///< by row
  Matrix jacobian_;          ///< by row and coordinate
  Matrix stiffness_matrix_;  ///< of the coordinates
};

}  // namespace axlewright
