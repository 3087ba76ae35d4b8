#include "solver/elements/rigid_bodies.h"

#include <Eigen/Geometry>
#include <numeric>

namespace tubewright {

std::vector<int> masters_of(const Model& model) {
  std::vector<int> masters(model.nodes.size());
  std::iota(masters.begin(), masters.end(), 0);
  for (const RigidBody& body : model.bodies) {
    for (const int node : body.nodes) masters[node] = body.nodes.front();
  }
  return masters;
}

void follow_masters(const Model& model, const std::vector<int>& masters, Eigen::VectorXd& u) {
  for (int n = 0; n < static_cast<int>(masters.size()); ++n) {
    const int m = masters[n];
    if (m == n) continue;
    const Eigen::Vector3d r = model.nodes[n] - model.nodes[m];
    const Eigen::Vector3d w = u.segment<3>(dofs_per_node * m + 3);
    u.segment<3>(dofs_per_node * n) = u.segment<3>(dofs_per_node * m) + w.cross(r);
    u.segment<3>(dofs_per_node * n + 3) = w;
  }
}

void gather_on_masters(const Model& model, const std::vector<int>& masters, Eigen::VectorXd& f) {
  for (int n = 0; n < static_cast<int>(masters.size()); ++n) {
    const int m = masters[n];
    if (m == n) continue;
    const Eigen::Vector3d r = model.nodes[n] - model.nodes[m];
    const Eigen::Vector3d F = f.segment<3>(dofs_per_node * n);
    f.segment<3>(dofs_per_node * m) += F;
    f.segment<3>(dofs_per_node * m + 3) += f.segment<3>(dofs_per_node * n + 3) + r.cross(F);
    f.segment<6>(dofs_per_node * n).setZero();
  }
}

std::vector<Support> held_fully(const Model& model, const std::vector<int>& nodes) {
  const std::vector<int> masters = masters_of(model);
  std::vector<Support> supports;
  for (const int node : nodes) {
    supports.push_back({masters[node], {true, true, true, true, true, true}});
  }
  return supports;
}

}  // namespace tubewright
