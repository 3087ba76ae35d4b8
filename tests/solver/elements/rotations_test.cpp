// Finite rotations against Eigen's AngleAxis and Quaternion, and their derivatives against finite
// differences; near the angle where series take over too.
#include "solver/elements/rotations.h"

#include <Eigen/Geometry>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::rotations_test {

namespace {

constexpr double turn = 2 * std::numbers::pi;
const Eigen::Vector3d axis = Eigen::Vector3d(2, -1, 0.5).normalized();
const Eigen::Vector3d moment(0.7, 1.9, -1.1);

/// Below and above the change to series, and far.
Eigen::Vector3d vector() { return GENERATE(0.0, 1e-7, 0.0999, 0.1001, 1.3, 3.1, 5.0) * axis; }

/// The columns of a derivative by central differences of a vector function.
template <typename Function>
Eigen::Matrix3d jacobian(const Function& f, const Eigen::Vector3d& v) {
  constexpr double h = 1e-5;
  Eigen::Matrix3d J;
  for (int i = 0; i < 3; ++i) {
    const Eigen::Vector3d d = h * Eigen::Vector3d::Unit(i);
    J.col(i) = (f(v + d) - f(v - d)) / (2 * h);
  }
  return J;
}

}  // namespace

TEST_CASE("the skew matrix of a vector is its cross product") {
  CHECK((skew(axis) * moment - axis.cross(moment)).norm() < 1e-15);
  CHECK((skew(axis) + skew(axis).transpose()).norm() == 0);
}

TEST_CASE("a rotation vector turns as Eigen's angle and axis do") {
  const Eigen::Vector3d v = vector();
  const Eigen::Matrix3d expected = Eigen::AngleAxisd(v.norm(), axis).toRotationMatrix();
  CHECK((rotation_matrix(v) - expected).norm() < 1e-14);
}

TEST_CASE("the vector of a rotation is the shortest, or the one near another") {
  for (const double angle : {0.0, 1e-9, 0.4, 3.1, -2.0}) {
    CHECK((rotation_vector(rotation_matrix(angle * axis)) - angle * axis).norm() < 1e-14);
  }
  CHECK((rotation_vector(rotation_matrix(4.0 * axis)) - (4 - turn) * axis).norm() < 1e-14);
  for (const double angle : {-9.0, -0.3, 4.0, 20.0, 3 * turn}) {
    const Eigen::Vector3d near = (angle + 1.0) * axis + Eigen::Vector3d(0, 0.1, 0.2);
    const Eigen::Vector3d v = rotation_vector_near(rotation_matrix(angle * axis),
                                                   angle == 3 * turn ? angle * axis : near);
    CHECK((v - angle * axis).norm() < 1e-12);
  }
}

TEST_CASE("the spin of a changing rotation vector is that of its matrix") {
  const Eigen::Vector3d v = vector();
  const Eigen::Matrix3d T = spin_by_vector(v), R = rotation_matrix(v);
  for (int i = 0; i < 3; ++i) {
    constexpr double h = 1e-5;
    const Eigen::Vector3d d = h * Eigen::Vector3d::Unit(i);
    const Eigen::Matrix3d spin =
        (rotation_matrix(v + d) - rotation_matrix(v - d)) / (2 * h) * R.transpose();
    CHECK((spin - skew(T.col(i))).norm() < 1e-9);
  }
  // T leaves the axis alone, and R carries its transpose over to it.
  CHECK((T * axis - axis).norm() < 1e-14);
  CHECK((T - R * T.transpose()).norm() < 1e-14);
  CHECK((vector_by_spin(v) * T - Eigen::Matrix3d::Identity()).norm() < 1e-12);
}

TEST_CASE("the changes of conjugate moments are derivatives, in the series and beyond") {
  const Eigen::Vector3d v = vector();
  const auto on_vector = [](const Eigen::Vector3d& at) -> Eigen::Vector3d {
    return spin_by_vector(at).transpose() * moment;
  };
  const auto on_spin = [](const Eigen::Vector3d& at) -> Eigen::Vector3d {
    return vector_by_spin(at).transpose() * moment;
  };
  CHECK((change_of_vector_moment(v, moment) - jacobian(on_vector, v)).norm() < 1e-8);
  CHECK((change_of_spin_moment(v, moment) - jacobian(on_spin, v)).norm() < 2e-8);
}

}  // namespace tubewright::rotations_test
