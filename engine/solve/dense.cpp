#include "engine/solve/dense.h"

#include <limits>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <Eigen/QR>
#include <Eigen/SVD>

namespace axlewright {

Svd svd(const Matrix& a) {
  Eigen::JacobiSVD<Matrix, Eigen::FullPivHouseholderQRPreconditioner> decomposition(
      a, Eigen::ComputeFullU | Eigen::ComputeFullV);
  return {decomposition.singularValues(), decomposition.matrixU(), decomposition.matrixV()};
}

int rank_of(const Svd& s, double threshold) {
  int rank = 0;
  while (rank < s.values.size() && s.values[rank] > threshold) ++rank;
  return rank;
}

Matrix null_space(const Svd& s, int rank, int columns) {
  return s.right.rightCols(columns - rank);
}

Vector least_norm_solve(const Matrix& a, const Vector& b, double threshold) {
  Eigen::CompleteOrthogonalDecomposition<Matrix> decomposition;
  decomposition.setThreshold(threshold);
  decomposition.compute(a);
  return decomposition.solve(b);
}

std::vector<int> independent_row_order(const Matrix& a) {
  Eigen::ColPivHouseholderQR<Matrix> decomposition(a.transpose());
  const auto& order = decomposition.colsPermutation().indices();
  return {order.data(), order.data() + order.size()};
}

double least_where_null(const Matrix& a, const Matrix& b) {
  if (b.rows() >= a.cols()) return std::numeric_limits<double>::infinity();
  Matrix null = Matrix::Identity(a.rows(), a.cols());
  if (b.rows() > 0) {
    const Eigen::HouseholderQR<Matrix> decomposition(b.transpose());
    null = (decomposition.householderQ() * null).eval().rightCols(a.cols() - b.rows());
  }
  const Matrix half = null.transpose() * a * null;
  const Eigen::SelfAdjointEigenSolver<Matrix> solver(0.5 * (half + half.transpose()),
                                                     Eigen::EigenvaluesOnly);
  return solver.eigenvalues()[0];
}

Vector lu_solve(const Matrix& a, const Vector& b) {
  return a.partialPivLu().solve(b);
}

std::optional<Matrix> inverse_of_positive(const Matrix& a) {
  constexpr double kSmallestPivot = 1e-13;
  if (a.rows() == 0) return a;
  if (!a.allFinite() || (a.diagonal().array() <= 0).any()) return std::nullopt;
  const Vector scale = a.diagonal().cwiseSqrt().cwiseInverse();
  const Eigen::LDLT<Matrix> factors(Matrix(scale.asDiagonal() * a * scale.asDiagonal()));
  if (factors.info() != Eigen::Success || (factors.vectorD().array() < kSmallestPivot).any())
    return std::nullopt;
  const Matrix inverse = factors.solve(Matrix::Identity(a.rows(), a.cols()));
  return Matrix(scale.asDiagonal() * inverse * scale.asDiagonal());
}

}  // namespace axlewright
