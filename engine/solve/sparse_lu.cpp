#include "engine/solve/sparse_lu.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace axlewright {
namespace {

constexpr double kPivotShare =
    0.05;  // of the largest value in its row: keeps growth low, leaves room for sparsity
constexpr double kSingular = 1e-11;  // of a scaled sample: below this no pivot is left
constexpr double kTiny = 1e-14;      // of a pivot while factorising

/// The matrix while the order is chosen: dense, it is small and this runs once.
struct Board {
  int n;
  std::vector<double> value;
  std::vector<int> slot;  // -1 where there is no entry

  std::size_t index(int r, int c) const {
    return static_cast<std::size_t>(r) * static_cast<std::size_t>(n) + static_cast<std::size_t>(c);
  }
};

int parity_sign(const std::vector<int>& permutation) {
  std::vector<bool> seen(permutation.size(), false);
  int sign = 1;
  for (std::size_t start = 0; start < permutation.size(); ++start) {
    std::size_t length = 0;
    for (std::size_t k = start; !seen[k]; k = static_cast<std::size_t>(permutation[k])) {
      seen[k] = true;
      ++length;
    }
    if (length > 0 && length % 2 == 0) sign = -sign;
  }
  return sign;
}

}  // namespace

bool SparseLu::analyse(int n, const std::vector<int>& rows, const std::vector<int>& columns,
                       const std::vector<double>& sample) {
  n_ = n;
  steps_.clear();
  lower_rows_.clear();
  upper_columns_.clear();
  targets_.clear();
  std::vector<int> lower_slots, upper_slots;
  Board board{n,
              std::vector<double>(static_cast<std::size_t>(n) * static_cast<std::size_t>(n), 0.0),
              std::vector<int>(static_cast<std::size_t>(n) * static_cast<std::size_t>(n), -1)};
  int slots = 0;
  slot_of_entry_.resize(rows.size());
  for (std::size_t e = 0; e < rows.size(); ++e) {
    const std::size_t k = board.index(rows[e], columns[e]);
    if (board.slot[k] < 0) board.slot[k] = slots++;
    slot_of_entry_[e] = board.slot[k];
    board.value[k] += sample[e];
  }
  std::vector<int> rows_left(static_cast<std::size_t>(n)),
      columns_left(static_cast<std::size_t>(n));
  std::iota(rows_left.begin(), rows_left.end(), 0);
  std::iota(columns_left.begin(), columns_left.end(), 0);
  std::vector<int> row_order, column_order;
  while (!rows_left.empty()) {
    int best_row = -1, best_column = -1;
    long best_cost = 0;
    double best_value = 0;
    for (const int r : rows_left) {
      double largest = 0;
      long in_row = 0;
      for (const int c : columns_left) {
        largest = std::max(largest, std::abs(board.value[board.index(r, c)]));
        in_row += board.slot[board.index(r, c)] >= 0 ? 1 : 0;
      }
      if (largest < kSingular) {
        failed_row_ = r;
        return false;
      }
      for (const int c : columns_left) {
        const double value = std::abs(board.value[board.index(r, c)]);
        if (board.slot[board.index(r, c)] < 0 || value < kPivotShare * largest) continue;
        long in_column = 0;
        for (const int other : rows_left)
          in_column += board.slot[board.index(other, c)] >= 0 ? 1 : 0;
        const long cost = (in_row - 1) * (in_column - 1);
        if (best_row < 0 || cost < best_cost || (cost == best_cost && value > best_value)) {
          best_row = r;
          best_column = c;
          best_cost = cost;
          best_value = value;
        }
      }
    }
    rows_left.erase(std::find(rows_left.begin(), rows_left.end(), best_row));
    columns_left.erase(std::find(columns_left.begin(), columns_left.end(), best_column));
    row_order.push_back(best_row);
    column_order.push_back(best_column);
    const std::size_t pivot = board.index(best_row, best_column);
    Step step{};
    step.pivot_row = best_row;
    step.pivot_column = best_column;
    step.pivot_slot = board.slot[pivot];
    step.lower_begin = static_cast<int>(lower_rows_.size());
    step.upper_begin = static_cast<int>(upper_columns_.size());
    step.target_begin = static_cast<int>(targets_.size());
    for (const int c : columns_left) {
      if (board.slot[board.index(best_row, c)] < 0) continue;
      upper_columns_.push_back(c);
      upper_slots.push_back(board.slot[board.index(best_row, c)]);
    }
    step.upper_end = static_cast<int>(upper_columns_.size());
    for (const int r : rows_left) {
      const std::size_t left = board.index(r, best_column);
      if (board.slot[left] < 0) continue;
      lower_rows_.push_back(r);
      lower_slots.push_back(board.slot[left]);
      const double factor = board.value[left] / board.value[pivot];
      for (int u = step.upper_begin; u < step.upper_end; ++u) {
        const int c = upper_columns_[static_cast<std::size_t>(u)];
        const std::size_t k = board.index(r, c);
        if (board.slot[k] < 0) board.slot[k] = slots++;
        board.value[k] -= factor * board.value[board.index(best_row, c)];
        targets_.push_back(board.slot[k]);
      }
    }
    step.lower_end = static_cast<int>(lower_rows_.size());
    steps_.push_back(step);
  }
  number_slots_by_step(lower_slots, upper_slots, slots);
  order_sign_ = parity_sign(row_order) * parity_sign(column_order);
  values_.assign(static_cast<std::size_t>(slots), 0.0);
  inverse_.assign(static_cast<std::size_t>(n), 0.0);
  return true;
}

void SparseLu::number_slots_by_step(const std::vector<int>& lower_slots,
                                    const std::vector<int>& upper_slots, int slots) {
  std::vector<int> number(static_cast<std::size_t>(slots), -1);
  int next = 0;
  for (Step& step : steps_) {
    number[static_cast<std::size_t>(step.pivot_slot)] = next;
    step.pivot_slot = next++;
    for (int k = step.lower_begin; k < step.lower_end; ++k) {
      number[static_cast<std::size_t>(lower_slots[static_cast<std::size_t>(k)])] = next++;
    }
    for (int k = step.upper_begin; k < step.upper_end; ++k) {
      number[static_cast<std::size_t>(upper_slots[static_cast<std::size_t>(k)])] = next++;
    }
  }
  for (int& slot : targets_) slot = number[static_cast<std::size_t>(slot)];
  for (int& slot : slot_of_entry_) slot = number[static_cast<std::size_t>(slot)];
}

bool SparseLu::factor(const double* values) {
  std::fill(values_.begin(), values_.end(), 0.0);
  double* v = values_.data();
  const std::size_t entries = slot_of_entry_.size();
  const int* slot = slot_of_entry_.data();
  for (std::size_t e = 0; e < entries; ++e) v[slot[e]] += values[e];
  int sign = order_sign_;
  const int* target = targets_.data();
  double* inverses = inverse_.data();
  for (const Step& step : steps_) {
    double* left = v + step.pivot_slot;
    const double pivot = *left++;
    if (!(std::abs(pivot) > kTiny)) {
      failed_row_ = step.pivot_row;
      return false;
    }
    if (pivot < 0) sign = -sign;
    const double inverse = 1.0 / pivot;
    *inverses++ = inverse;
    const double* upper = left + (step.lower_end - step.lower_begin);
    const double* upper_end = upper + (step.upper_end - step.upper_begin);
    for (; left != upper; ++left) {
      const double factor = *left * inverse;
      *left = factor;
      for (const double* u = upper; u != upper_end; ++u) v[*target++] -= factor * *u;
    }
  }
  sign_ = sign;
  return true;
}

void SparseLu::solve(double* b, double* x) const {
  const double* v = values_.data();
  const int* row = lower_rows_.data();
  for (const Step& step : steps_) {
    const double known = b[step.pivot_row];
    const double* lower = v + step.pivot_slot + 1;
    for (int k = step.lower_begin; k < step.lower_end; ++k) b[*row++] -= *lower++ * known;
  }
  for (std::size_t k = steps_.size(); k-- > 0;) {
    const Step& step = steps_[k];
    const double* upper = v + step.pivot_slot + 1 + (step.lower_end - step.lower_begin);
    const int* column = upper_columns_.data() + step.upper_begin;
    double known = b[step.pivot_row];
    for (int u = step.upper_begin; u < step.upper_end; ++u) known -= *upper++ * x[*column++];
    x[step.pivot_column] = known * inverse_[k];
  }
}

void SparseLu::solve_transposed(double* c, double* y) const {
  const double* v = values_.data();
  for (std::size_t k = 0; k < steps_.size(); ++k) {
    const Step& step = steps_[k];
    const double* upper = v + step.pivot_slot + 1 + (step.lower_end - step.lower_begin);
    const int* column = upper_columns_.data() + step.upper_begin;
    const double known = c[step.pivot_column] * inverse_[k];
    y[step.pivot_row] = known;
    for (int u = step.upper_begin; u < step.upper_end; ++u) c[*column++] -= *upper++ * known;
  }
  for (std::size_t k = steps_.size(); k-- > 0;) {
    const Step& step = steps_[k];
    const double* lower = v + step.pivot_slot + 1;
    const int* row = lower_rows_.data() + step.lower_begin;
    double known = y[step.pivot_row];
    for (int r = step.lower_begin; r < step.lower_end; ++r) known -= *lower++ * y[*row++];
    y[step.pivot_row] = known;
  }
}

}  // namespace axlewright
