#include "cases/model/spread_load.h"

#include <Eigen/Geometry>

#include "solver/linear_algebra/dense.h"
#include "solver/statics/rigid_fit.h"

namespace tubewright {

// With forces w x r_i from the middle, the moment is J w, J = sum(|r|^2 I - r r').
std::vector<NodeShare> spread_load(const std::vector<Eigen::Vector3d>& nodes,
                                   const Eigen::Vector3d& at, const Eigen::Vector3d& force,
                                   const Eigen::Vector3d& moment) {
  const auto count = static_cast<double>(nodes.size());
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const Eigen::Vector3d& p : nodes) middle += p / count;
  Eigen::Matrix3d J = Eigen::Matrix3d::Zero();
  for (const Eigen::Vector3d& p : nodes) J += point_inertia(p - middle);
  const Eigen::Vector3d M = moment + (at - middle).cross(force);

  const EigenSystem3 eigen = symmetric_eigensystem(J);
  constexpr double in_a_row = 1e-9;  // smaller against greater second moment of the nodes
  Eigen::Vector3d w = Eigen::Vector3d::Zero();
  Eigen::Vector3d left_over = M;
  for (int k = 0; k < 3; ++k) {
    if (eigen.values[k] <= in_a_row * eigen.values[2]) continue;
    const Eigen::Vector3d axis = eigen.vectors.col(k);
    w += axis * (axis.dot(M) / eigen.values[k]);
    left_over -= axis * axis.dot(M);
  }
  std::vector<NodeShare> shares;
  for (const Eigen::Vector3d& p : nodes) {
    shares.push_back({force / count + w.cross(p - middle), left_over / count});
  }
  return shares;
}

void add_spread(Actions& actions, const Model& model, const std::vector<int>& nodes,
                const Eigen::Vector3d& at, const Eigen::Vector3d& force,
                const Eigen::Vector3d& moment) {
  std::vector<Eigen::Vector3d> points;
  for (const int node : nodes) points.push_back(model.nodes[node]);
  const std::vector<NodeShare> shares = spread_load(points, at, force, moment);
  for (size_t i = 0; i < nodes.size(); ++i) {
    actions.nodal.segment<3>(dofs_per_node * nodes[i]) += shares[i].force;
    actions.nodal.segment<3>(dofs_per_node * nodes[i] + 3) += shares[i].moment;
  }
}

}  // namespace tubewright
