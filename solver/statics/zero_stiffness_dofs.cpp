#include "solver/statics/zero_stiffness_dofs.h"

#include "solver/linear_algebra/dense.h"

namespace tubewright {

namespace {

/// Rounding leaves about 1e-16 of the greatest stiffness where there is none; the softest joint
/// spring worth the name is far above 1e-12 of a tube's bending stiffness.
constexpr double nothing = 1e-12;

/// The free rotations of a node: consecutive numbers, so a small dense block of K.
struct RotationBlock {
  int first = 0;
  std::vector<int> axes;  ///< 0..2
  Eigen::Matrix3d K;  ///< in the head; its trace where no axis is free, so that none there is loose
  double trace = 0;
};

RotationBlock rotation_block(const SparseMatrix& K, const FreeDofs& free, int node) {
  RotationBlock b;
  for (int d = 0; d < 3; ++d) {
    const int number = free.number[dofs_per_node * node + 3 + d];
    if (number < 0) continue;
    if (b.axes.empty()) b.first = number;
    b.axes.push_back(d);
  }
  const auto n = static_cast<int>(b.axes.size());
  b.K.setZero();
  for (int j = 0; j < n; ++j) {
    // The pattern holds a node's block in full, so it is the head of each of its columns.
    const double* head = K.valuePtr() + K.outerIndexPtr()[b.first + j];
    for (int i = j; i < n; ++i) b.K(i, j) = b.K(j, i) = head[i - j];
  }
  b.trace = b.K.trace();
  for (int j = n; j < 3; ++j) b.K(j, j) = b.trace > 0 ? b.trace : 1.0;
  return b;
}

}  // namespace

std::vector<ZeroStiffnessDof> restrain_zero_stiffness_dofs(SparseMatrix& K, const FreeDofs& free) {
  std::vector<ZeroStiffnessDof> found;
  const int nodes = static_cast<int>(free.masters.size());
  std::vector<bool> moves_others(free.masters.size(), false);
  for (int node = 0; node < nodes; ++node) {
    if (free.masters[node] != node) moves_others[free.masters[node]] = true;
  }
  for (int node = 0; node < nodes; ++node) {
    if (moves_others[node]) continue;
    const RotationBlock block = rotation_block(K, free, node);
    const auto n = static_cast<int>(block.axes.size());
    if (n == 0) continue;
    const EigenSystem3 eigen = symmetric_eigensystem(block.K);
    const double s = block.trace > 0 ? block.trace : 1.0;
    for (int k = 0; k < 3 && eigen.values[k] <= nothing * s; ++k) {
      const Eigen::Vector3d axis = eigen.vectors.col(k);
      ZeroStiffnessDof loose;
      loose.node = node;
      for (int i = 0; i < n; ++i) loose.axis[block.axes[i]] = axis[i];
      found.push_back(loose);
      for (int j = 0; j < n; ++j) {
        double* head = K.valuePtr() + K.outerIndexPtr()[block.first + j];
        for (int i = j; i < n; ++i) head[i - j] += s * axis[i] * axis[j];
      }
    }
  }
  return found;
}

}  // namespace tubewright
