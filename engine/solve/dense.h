#pragma once

#include <optional>
#include <vector>

#include <Eigen/Core>

// Matrix decompositions, instantiated here alone: they cost seconds to compile.

namespace axlewright {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

/// A singular value decomposition, left * diag(values) * right^T.
struct Svd {
  Vector values;       ///< singular values, falling; min(rows, columns) of them
  Matrix left, right;  ///< full
};
Svd svd(const Matrix& a);

/// Rank with singular values below `threshold` counted as zero.
int rank_of(const Svd& s, double threshold);

/// Orthonormal basis of the null space (columns).
Matrix null_space(const Svd& s, int rank, int columns);

/// The least-norm x that minimises |a x - b|; singular values below `threshold` times the largest are left out.
Vector least_norm_solve(const Matrix& a, const Vector& b, double threshold = 1e-10);

/// Rows of `a` in the order in which pivoted QR of a^T takes them: the first rank_of() of them are independent.
std::vector<int> independent_row_order(const Matrix& a);

/// The least of x^T a x over unit vectors x with b x = 0 (b's rows independent); infinity where there are none.
double least_where_null(const Matrix& a, const Matrix& b);

/// Solves a square system by LU with partial pivoting; no check for singularity.
Vector lu_solve(const Matrix& a, const Vector& b);

/// The inverse of a symmetric positive definite matrix, whatever the units of its rows: it is scaled to a unit diagonal first. Nothing if
/// it is none to working precision (a pivot below 1e-13).
std::optional<Matrix> inverse_of_positive(const Matrix& a);

}  // namespace axlewright
