#include "solver/statics/rigid_fit.h"

#include <Eigen/Geometry>

#include "solver/linear_algebra/dense.h"

namespace tubewright {

Eigen::Matrix3d point_inertia(const Eigen::Vector3d& r) {
  return r.squaredNorm() * Eigen::Matrix3d::Identity() - r * r.transpose();
}

Eigen::Vector3d RigidMotion::at(const Eigen::Vector3d& p) const {
  return translation + rotation.cross(p - centre);
}

RigidMotion fit_rigid_motion(const std::vector<Eigen::Vector3d>& points,
                             const std::vector<Eigen::Vector3d>& displacements,
                             const std::vector<double>& weights) {
  RigidMotion fit;
  double total = 0;
  for (size_t k = 0; k < points.size(); ++k) {
    total += weights[k];
    fit.centre += weights[k] * points[k];
    fit.translation += weights[k] * displacements[k];
  }
  if (!(total > 0)) return {};
  fit.centre /= total;
  fit.translation /= total;

  Eigen::Matrix3d J = Eigen::Matrix3d::Zero();
  Eigen::Vector3d m = Eigen::Vector3d::Zero();
  for (size_t k = 0; k < points.size(); ++k) {
    const Eigen::Vector3d r = points[k] - fit.centre;
    J += weights[k] * point_inertia(r);
    m += weights[k] * r.cross(displacements[k] - fit.translation);
  }
  const EigenSystem3 eigen = symmetric_eigensystem(J);
  constexpr double in_a_row = 1e-12;  // of the greatest second moment
  for (int i = 0; i < 3; ++i) {
    if (eigen.values[i] <= in_a_row * eigen.values[2]) continue;
    const Eigen::Vector3d n = eigen.vectors.col(i);
    fit.rotation += n * n.dot(m) / eigen.values[i];
  }
  return fit;
}

}  // namespace tubewright
