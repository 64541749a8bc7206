#pragma once

#include <vector>

#include "engine/mechanism/equations.h"

namespace axlewright {

/// The equations that a solver runs at every step, laid out flat: places, directions and bodies looked up once, forces that
/// are each other's opposites computed once. The same equations as evaluate_equation(), which says what they are; a test
/// holds one against the other.
class FlatEquations {
 public:
  /// `rows`: indices into the system's equations, in the order wanted.
  void lay_down(const System& system, const Design& design, const std::vector<int>& rows);

  /// Of the Jacobian's entries: row and column, in the order of evaluate()'s `entries`.
  const std::vector<int>& entry_rows() const { return entry_rows_; }
  const std::vector<int>& entry_columns() const { return entry_columns_; }

  /// Residuals by row and, unless `entries` is null, the Jacobian's entries.
  void evaluate(const State& state, const Kinematics& kin, const double* inputs, double* residuals,
                double* entries) const;

 private:
  /// A tree joint that moves an equation: the equation's wrench in `slot`, times `sign`, along its coordinates.
  struct Lever {
    TreeKind kind;
    int slot, column, entry;
    double sign;
  };
  struct Row {
    EquationKind kind;
    int body_a, body_b, body_u, body_v;
    bool new_places;  ///< false: those of the row before, as in a ball's three equations
    bool against;     ///< a heading that counts against that of u
    Vec3 a, b;        ///< places
    Vec3 u, v, w;     ///< directions; w rides on the body of v
    double length, inverse_length;
    double target;
    int input;
    int tree;
    double sign, as_measured;  ///< turn
    int lever_begin, lever_end;
    int heading_begin, heading_end;
  };
  struct Heading {
    int body;
    Vec3 direction;
  };

  void write_moments(const Row& row, const Vec3& moment, const Kinematics& kin,
                     double* entries) const;
  void write_entries(const Row& row, const Wrench* wrench, const Kinematics& kin,
                     double* entries) const;

  std::vector<Row> rows_;
  std::vector<Lever> levers_;
  std::vector<Heading> headings_;
  std::vector<int> entry_rows_, entry_columns_;
};

}  // namespace axlewright
