#pragma once

#include <vector>

namespace axlewright {

/// LU elimination of a square matrix whose pattern never changes: the order of pivots and the list of every
/// operation are laid down once, so that a factorisation is a straight run over flat arrays.
/// Method: Markowitz, H. M., "The elimination form of the inverse and its application to linear programming",
/// Management Science 3 (1957), pivots restricted to those within a factor of the largest of their row.
class SparseLu {
 public:
  /// Lays down the elimination of an n x n matrix.
  ///   rows, columns  of each entry of the pattern; values are later given in this order
  ///   sample         values at a typical pose, scaled so that they compare; used to choose pivots
  /// Gives false if the sample is singular to working precision; then nothing else may be called.
  bool analyse(int n, const std::vector<int>& rows, const std::vector<int>& columns,
               const std::vector<double>& sample);

  /// Factorises for new values (in the pattern's order). False if a pivot is below `tiny`, with its row in failed_row().
  bool factor(const double* values);

  /// Solves A x = b. `b` is overwritten.
  void solve(double* b, double* x) const;

  /// Solves A^T y = c. `c` is overwritten.
  void solve_transposed(double* c, double* y) const;

  /// Sign of the determinant of the last factorisation.
  int determinant_sign() const { return sign_; }
  int failed_row() const { return failed_row_; }
  int size() const { return n_; }
  int multiplications() const { return static_cast<int>(targets_.size()); }

 private:
  /// Slots are numbered in the order of elimination: of a step first its pivot, then what stands below it, then what
  /// stands right of it.
  struct Step {
    int pivot_row, pivot_column, pivot_slot;
    int lower_begin, lower_end;  ///< into lower_rows_
    int upper_begin, upper_end;  ///< into upper_columns_
    int target_begin;            ///< into targets_
  };

  void number_slots_by_step(const std::vector<int>& lower_slots,
                            const std::vector<int>& upper_slots, int slots);

  int n_ = 0;
  int order_sign_ = 1;
  int sign_ = 1;
  int failed_row_ = -1;
  std::vector<Step> steps_;
  std::vector<int> lower_rows_;
  std::vector<int> upper_columns_;
  std::vector<int> targets_;
  std::vector<int> slot_of_entry_;
  std::vector<double> values_;
  std::vector<double> inverse_;
};

}  // namespace axlewright
