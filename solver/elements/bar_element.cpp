#include "solver/elements/bar_element.h"

namespace tubewright {

namespace {

/// k at both ends, -k between them.
Matrix12 between_ends(const Eigen::Matrix3d& k) {
  Matrix12 K = Matrix12::Zero();
  K.block<3, 3>(0, 0) = K.block<3, 3>(6, 6) = k;
  K.block<3, 3>(0, 6) = K.block<3, 3>(6, 0) = -k;
  return K;
}

}  // namespace

Eigen::Vector3d bar_direction(const Model& model, const Bar& bar) {
  return (model.nodes[bar.to] - model.nodes[bar.from]).normalized();
}

Matrix12 bar_stiffness(const Model& model, const Bar& bar) {
  const Eigen::Vector3d n = bar_direction(model, bar);
  return between_ends(bar.stiffness * n * n.transpose());
}

Matrix12 bar_stress_stiffness(const Model& model, const Bar& bar, double N) {
  const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
  const Eigen::Vector3d n = bar_direction(model, bar);
  return between_ends(N / L * (Eigen::Matrix3d::Identity() - n * n.transpose()));
}

double bar_elongation(const Model& model, const Bar& bar, const Eigen::VectorXd& u) {
  const Eigen::Vector3d n = bar_direction(model, bar);
  return n.dot(u.segment<3>(dofs_per_node * bar.to) - u.segment<3>(dofs_per_node * bar.from));
}

}  // namespace tubewright
