#include "engine/solve/dense.h"

#include <Eigen/Cholesky>
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

bool positive_where_null(const Matrix& a, const Matrix& b) {
  constexpr double kRounding = 1e-12;  // of the largest entry
  Matrix null = Matrix::Identity(a.rows(), a.cols());
  if (b.rows() > 0) {
    const Eigen::HouseholderQR<Matrix> decomposition(b.transpose());
    null = (decomposition.householderQ() * null).eval().rightCols(a.cols() - b.rows());
  }
  const Matrix half = null.transpose() * a * null;
  Matrix reduced = 0.5 * (half + half.transpose());
  if (reduced.size() == 0) return true;
  reduced.diagonal().array() -= kRounding * reduced.cwiseAbs().maxCoeff();
  return Eigen::LLT<Matrix>(reduced).info() == Eigen::Success;
}

Vector lu_solve(const Matrix& a, const Vector& b) {
  return a.partialPivLu().solve(b);
}

}  // namespace axlewright
