// Meshes for tests without a mesher: cells of a grid, each cut into six tetrahedra.
#pragma once

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <utility>
#include <vector>

#include "tests/joint_models/solid10.h"

namespace tubewright::test {

/// `n` equal steps from a to b.
inline std::vector<double> steps(double a, double b, int n) {
  std::vector<double> x;
  for (int i = 0; i <= n; ++i) x.push_back(a + (b - a) * i / n);
  return x;
}

/// Appends the further stops to a row of them.
inline std::vector<double> joined(std::vector<double> a, const std::vector<double>& b) {
  a.insert(a.end(), b.begin() + 1, b.end());
  return a;
}

/// Cells between the given planes whose middle is `filled`; corners are moved to `place`
/// afterwards, middles of edges to where the middle of the grid's edge goes.
inline SolidMesh grid_mesh(const std::array<std::vector<double>, 3>& planes,
                           const std::function<bool(const Eigen::Vector3d&)>& filled,
                           const std::function<Eigen::Vector3d(const Eigen::Vector3d&)>& place) {
  using Index = std::array<int, 3>;
  SolidMesh mesh;
  std::map<Index, int> number;  // by twice the grid's index
  const auto node = [&](const Index& at) {
    const auto [found, is_new] = number.try_emplace(at, static_cast<int>(mesh.nodes.size()));
    if (is_new) {
      Eigen::Vector3d p;
      for (int d = 0; d < 3; ++d) {
        const auto& x = planes[d];
        p[d] = (x[at[d] / 2] + x[(at[d] + 1) / 2]) / 2;
      }
      mesh.nodes.push_back(place(p));
    }
    return found->second;
  };
  // From corner 000 to 111 along the axes in each order: Kuhn's six tetrahedra.
  const std::array<std::array<int, 3>, 6> orders = {
      {{0, 1, 2}, {1, 2, 0}, {2, 0, 1}, {1, 0, 2}, {0, 2, 1}, {2, 1, 0}}};
  constexpr std::array<std::array<int, 2>, 6> edges = {
      {{0, 1}, {1, 2}, {0, 2}, {0, 3}, {2, 3}, {1, 3}}};
  const auto count = [&](int d) { return static_cast<int>(planes[d].size()) - 1; };
  for (int i = 0; i < count(0); ++i) {
    for (int j = 0; j < count(1); ++j) {
      for (int k = 0; k < count(2); ++k) {
        const Eigen::Vector3d middle((planes[0][i] + planes[0][i + 1]) / 2,
                                     (planes[1][j] + planes[1][j + 1]) / 2,
                                     (planes[2][k] + planes[2][k + 1]) / 2);
        if (!filled(middle)) continue;
        for (int o = 0; o < 6; ++o) {
          std::array<Index, 4> corner;
          corner[0] = {2 * i, 2 * j, 2 * k};
          for (int c = 1; c < 4; ++c) {
            corner[c] = corner[c - 1];
            corner[c][orders[o][c - 1]] += 2;
          }
          if (o >= 3) std::swap(corner[1], corner[2]);  // keep the volume positive
          std::array<int, 10> element;
          for (int c = 0; c < 4; ++c) element[c] = node(corner[c]);
          for (int e = 0; e < 6; ++e) {
            Index mid;
            for (int d = 0; d < 3; ++d) {
              mid[d] = (corner[edges[e][0]][d] + corner[edges[e][1]][d]) / 2;
            }
            element[4 + e] = node(mid);
          }
          mesh.elements.push_back(element);
        }
      }
    }
  }
  return mesh;
}

inline SolidMesh grid_mesh(const std::array<std::vector<double>, 3>& planes,
                           const std::function<bool(const Eigen::Vector3d&)>& filled) {
  return grid_mesh(planes, filled, [](const Eigen::Vector3d& p) { return p; });
}

}  // namespace tubewright::test
