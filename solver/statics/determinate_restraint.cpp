#include "solver/statics/determinate_restraint.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "solver/elements/rigid_bodies.h"

namespace tubewright {

namespace {

/// Displacements by unit rigid motions: translations x y z, then rotations about the middle that
/// move the farthest node by one.
Vector6 rigid_motions(const Eigen::Vector3d& r, int direction) {
  const Eigen::Vector3d n = Eigen::Vector3d::Unit(direction);
  Vector6 motion;
  motion << n, r.cross(n);  // n . (w x r) = w . (r x n)
  return motion;
}

std::vector<int> usable_nodes(const Model& model, const std::vector<int>& avoid) {
  std::vector<bool> usable(model.nodes.size(), false);
  for (const Beam& b : model.beams) usable[b.from] = usable[b.to] = true;
  for (const Bar& b : model.bars) usable[b.from] = usable[b.to] = true;
  const std::vector<int> masters = masters_of(model);
  std::vector<int> nodes;
  for (int n = 0; n < static_cast<int>(usable.size()); ++n) {
    const bool avoided = std::find(avoid.begin(), avoid.end(), n) != avoid.end();
    if (usable[n] && masters[n] == n && !avoided) nodes.push_back(n);
  }
  return nodes;
}

}  // namespace

// Gram-Schmidt with pivoting on the rows that the candidates put into the 6 by 6 system.
std::vector<Support> determinate_restraint(const Model& model, const std::vector<int>& avoid) {
  const std::vector<int> nodes = usable_nodes(model, avoid);
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const int n : nodes) middle += model.nodes[n] / static_cast<double>(nodes.size());
  double reach = 0;
  for (const int n : nodes) reach = std::max(reach, (model.nodes[n] - middle).norm());

  std::vector<Support> supports;
  std::vector<Vector6> basis;
  constexpr double resisted = 1e-6;
  while (basis.size() < 6 && reach > 0) {
    Vector6 best = Vector6::Zero();
    int best_node = -1, best_direction = 0;
    for (const int n : nodes) {
      for (int d = 0; d < 3; ++d) {
        Vector6 row = rigid_motions((model.nodes[n] - middle) / reach, d);
        for (int pass = 0; pass < 2; ++pass) {
          for (const Vector6& b : basis) row -= b.dot(row) * b;
        }
        if (row.norm() > best.norm() + 1e-12) {
          best = row;
          best_node = n;
          best_direction = d;
        }
      }
    }
    if (best.norm() < resisted) break;
    basis.push_back(best.normalized());
    const auto at = std::find_if(supports.begin(), supports.end(),
                                 [&](const Support& s) { return s.node == best_node; });
    Support& support = at != supports.end() ? *at : supports.emplace_back();
    support.node = best_node;
    support.restrained[best_direction] = true;
  }
  return supports;
}

void move_rigidly(const Model& model, const Eigen::Vector3d& centre,
                  const Eigen::Vector3d& translation, const Eigen::Vector3d& rotation,
                  StaticSolution& solution) {
  const auto moved = [&](int node) {
    Vector6 u;
    u << translation + rotation.cross(model.nodes[node] - centre), rotation;
    return u;
  };
  for (int n = 0; n < static_cast<int>(model.nodes.size()); ++n) {
    solution.displacements.segment<6>(dofs_per_node * n) += moved(n);
  }
  for (size_t i = 0; i < model.beams.size(); ++i) {
    BeamState& state = solution.beams[i];
    Vector12 ends;
    ends << moved(model.beams[i].from), moved(model.beams[i].to);
    state.end_displacements += rotation_12(state.element.axes) * ends;
  }
}

}  // namespace tubewright
