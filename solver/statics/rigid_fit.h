// The rigid motion that fits displacements best.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace tubewright {

/// |r|^2 I - r r': the inertia tensor of a unit mass at r.
Eigen::Matrix3d point_inertia(const Eigen::Vector3d& r);

/// Small motion u = translation + rotation x (p - centre).
struct RigidMotion {
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  Eigen::Vector3d translation = Eigen::Vector3d::Zero();
  Eigen::Vector3d rotation = Eigen::Vector3d::Zero();

  Eigen::Vector3d at(const Eigen::Vector3d& p) const;
};

/// Weighted least squares: `centre` and `translation` are the weighted means, and
/// sum w (|r|^2 I - r r') rotation = sum w r x u with r and u measured from them. About the line of
/// points that all lie on one the rotation is zero. Zero motion if no weight is positive.
/// Requires: three lists of one length, no weight below zero.
RigidMotion fit_rigid_motion(const std::vector<Eigen::Vector3d>& points,
                             const std::vector<Eigen::Vector3d>& displacements,
                             const std::vector<double>& weights);

}  // namespace tubewright
