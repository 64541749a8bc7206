#include "engine/solve/dense.h"

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

Vector lu_solve(const Matrix& a, const Vector& b) {
  return a.partialPivLu().solve(b);
}

}  // namespace axlewright
