#include "tests/solver/linear_algebra/random_frame_matrix.h"

#include <Eigen/Core>
#include <random>

namespace tubewright {

FrameMatrix random_frame_matrix(const std::vector<int>& unknowns,
                                const std::vector<std::array<int, 2>>& members) {
  FrameMatrix m;
  std::vector<int> first;
  for (std::size_t node = 0; node < unknowns.size(); ++node) {
    first.push_back(static_cast<int>(m.node_of.size()));
    m.node_of.insert(m.node_of.end(), unknowns[node], static_cast<int>(node));
  }
  const int n = static_cast<int>(m.node_of.size());
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < n; ++i) entries.emplace_back(i, i, 1.0);

  std::mt19937 random(1);
  std::uniform_real_distribution<double> value(-1, 1);
  for (const auto& [a, b] : members) {
    std::vector<int> rows;
    for (int d = 0; d < unknowns[a]; ++d) rows.push_back(first[a] + d);
    for (int d = 0; d < unknowns[b]; ++d) rows.push_back(first[b] + d);
    const auto size = static_cast<Eigen::Index>(rows.size());
    Eigen::MatrixXd A = Eigen::MatrixXd::NullaryExpr(size, size, [&] { return value(random); });
    const Eigen::MatrixXd block = A * A.transpose();
    for (Eigen::Index i = 0; i < size; ++i) {
      for (Eigen::Index j = 0; j < size; ++j) {
        if (rows[i] >= rows[j]) entries.emplace_back(rows[i], rows[j], block(i, j));
      }
    }
  }
  m.lower.resize(n, n);
  m.lower.setFromTriplets(entries.begin(), entries.end());
  return m;
}

FrameMatrix random_lattice_matrix(int bays_x, int bays_y, int bays_z) {
  std::vector<int> unknowns;
  std::vector<std::array<int, 2>> members;
  const auto at = [&](int i, int j, int k) { return (i * (bays_y + 1) + j) * (bays_z + 1) + k; };
  for (int i = 0; i <= bays_x; ++i) {
    for (int j = 0; j <= bays_y; ++j) {
      for (int k = 0; k <= bays_z; ++k) {
        unknowns.push_back(3 + at(i, j, k) % 4);
        if (i > 0) members.push_back({at(i - 1, j, k), at(i, j, k)});
        if (j > 0) members.push_back({at(i, j - 1, k), at(i, j, k)});
        if (k > 0) members.push_back({at(i, j, k - 1), at(i, j, k)});
      }
    }
  }
  return random_frame_matrix(unknowns, members);
}

}  // namespace tubewright
