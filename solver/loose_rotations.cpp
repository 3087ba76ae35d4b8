#include "solver/loose_rotations.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <utility>

namespace tubewright {

namespace {

/// Rounding leaves about 1e-16 of the greatest stiffness where there is none; the softest joint
/// spring worth the name is far above 1e-12 of a tube's bending stiffness.
constexpr double nothing = 1e-12;

/// The free rotations of a node: consecutive numbers, so a small dense block of K.
struct RotationBlock {
  int first = 0;
  std::vector<int> axes;  ///< 0..2
  Eigen::MatrixXd K;
};

RotationBlock rotation_block(const SparseMatrix& K, const FreeUnknowns& free, int node) {
  RotationBlock b;
  for (int d = 0; d < 3; ++d) {
    const int number = free.number[unknowns_per_node * node + 3 + d];
    if (number < 0) continue;
    if (b.axes.empty()) b.first = number;
    b.axes.push_back(d);
  }
  const auto n = static_cast<Eigen::Index>(b.axes.size());
  b.K = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index j = 0; j < n; ++j) {
    // The pattern holds a node's block in full, so it is the head of each of its columns.
    const double* head = K.valuePtr() + K.outerIndexPtr()[b.first + j];
    for (Eigen::Index i = j; i < n; ++i) b.K(i, j) = b.K(j, i) = head[i - j];
  }
  return b;
}

}  // namespace

std::vector<LooseRotation> hold_loose_rotations(SparseMatrix& K, const FreeUnknowns& free) {
  std::vector<LooseRotation> found;
  const int nodes = static_cast<int>(free.number.size()) / unknowns_per_node;
  for (int node = 0; node < nodes; ++node) {
    const RotationBlock block = rotation_block(K, free, node);
    const auto n = static_cast<Eigen::Index>(block.axes.size());
    if (n == 0) continue;
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(block.K);
    const double greatest = std::max(0.0, eigen.eigenvalues().maxCoeff());
    if (eigen.eigenvalues()[0] > nothing * greatest) continue;
    const double s = greatest > 0 ? greatest : 1.0;
    for (Eigen::Index k = 0; k < n; ++k) {
      if (eigen.eigenvalues()[k] > nothing * greatest) continue;
      const Eigen::VectorXd axis = eigen.eigenvectors().col(k);
      LooseRotation loose;
      loose.node = node;
      for (Eigen::Index i = 0; i < n; ++i) loose.axis[block.axes[i]] = axis[i];
      found.push_back(loose);
      for (Eigen::Index j = 0; j < n; ++j) {
        double* head = K.valuePtr() + K.outerIndexPtr()[block.first + j];
        for (Eigen::Index i = j; i < n; ++i) head[i - j] += s * axis[i] * axis[j];
      }
    }
  }
  return found;
}

}  // namespace tubewright
