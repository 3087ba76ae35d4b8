#include "solver/statics/rigid_fit.h"

#include <Eigen/Geometry>

#include "tests/catch.h"

namespace tubewright::rigid_fit_test {

namespace {

using Points = std::vector<Eigen::Vector3d>;

const Points corners = {{0, 0, 0}, {1, 0, 0.2}, {0.3, 0.8, 0}, {0.1, 0.2, 0.9}};

Points moved(const Points& points, const Eigen::Vector3d& t, const Eigen::Vector3d& w) {
  Points u;
  for (const Eigen::Vector3d& p : points) u.push_back(t + w.cross(p));
  return u;
}

}  // namespace

TEST_CASE("a rigid motion is found again, whatever the weights") {
  const Eigen::Vector3d t(1, -2, 3), w(0.3, 0.1, -0.2);
  const RigidMotion fit = fit_rigid_motion(corners, moved(corners, t, w), {1, 0.2, 5, 3});
  CHECK((fit.rotation - w).norm() < 1e-12);
  for (const Eigen::Vector3d& p : corners) CHECK((fit.at(p) - t - w.cross(p)).norm() < 1e-12);
}

TEST_CASE("points in a row show no rotation about their line") {
  const Points row = {{0, 0, 0}, {1, 0, 0}, {3, 0, 0}};
  const Eigen::Vector3d w(0.5, 0.2, -0.1);
  const RigidMotion fit = fit_rigid_motion(row, moved(row, {0, 0, 0}, w), {1, 1, 1});
  CHECK((fit.rotation - Eigen::Vector3d(0, 0.2, -0.1)).norm() < 1e-12);
}

TEST_CASE("without weight there is no motion") {
  const RigidMotion fit = fit_rigid_motion(corners, corners, {0, 0, 0, 0});
  CHECK(fit.translation.isZero(0));
  CHECK(fit.rotation.isZero(0));
}

}  // namespace tubewright::rigid_fit_test
