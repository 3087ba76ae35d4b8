#include "solver/elements/rotations.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

namespace tubewright {

namespace {

/// Below this angle series: their first neglected term is then below 1e-14, and the closed forms
/// would lose digits by cancellation.
constexpr double small_angle = 0.1;

/// A coefficient that depends on the angle t, and its derivative over t.
struct Coefficient {
  double value = 0;
  double slope = 0;
};

/// A series in t^2.
Coefficient series(double t, double c0, double c1, double c2, double c3) {
  const double s = t * t;
  return {c0 + s * (c1 + s * (c2 + s * c3)), 2 * c1 + s * (4 * c2 + s * 6 * c3)};
}

/// b = (1 - cos t)/t^2.
Coefficient sine_part(double t) {
  if (t < small_angle) return series(t, 1.0 / 2, -1.0 / 24, 1.0 / 720, -1.0 / 40320);
  const double half = std::sin(t / 2) / t, b = 2 * half * half;
  return {b, (std::sin(t) / t - 2 * b) / (t * t)};
}

/// c = (t - sin t)/t^3.
Coefficient square_part(double t) {
  if (t < small_angle) return series(t, 1.0 / 6, -1.0 / 120, 1.0 / 5040, -1.0 / 362880);
  const double c = (t - std::sin(t)) / (t * t * t);
  return {c, (sine_part(t).value - 3 * c) / (t * t)};
}

/// d = (1 - t/2 cot(t/2))/t^2.
Coefficient inverse_part(double t) {
  if (t < small_angle) return series(t, 1.0 / 12, 1.0 / 720, 1.0 / 30240, 1.0 / 1209600);
  const double sine = std::sin(t / 2), cot = std::cos(t / 2) / sine;
  const double d = (1 - t / 2 * cot) / (t * t);
  return {d, ((t / (4 * sine * sine) - cot / 2) / t - 2 * d) / (t * t)};
}

/// d/dv of v x (v x m).
Eigen::Matrix3d change_of_double_cross(const Eigen::Vector3d& v, const Eigen::Vector3d& m) {
  return v * m.transpose() + v.dot(m) * Eigen::Matrix3d::Identity() - 2 * m * v.transpose();
}

}  // namespace

Eigen::Matrix3d skew(const Eigen::Vector3d& v) {
  Eigen::Matrix3d s;
  s << 0, -v.z(), v.y(), v.z(), 0, -v.x(), -v.y(), v.x(), 0;
  return s;
}

Eigen::Matrix3d rotation_matrix(const Eigen::Vector3d& v) {
  const double t = v.norm();
  const Eigen::Matrix3d s = skew(v);
  const double a =
      t < small_angle ? series(t, 1.0, -1.0 / 6, 1.0 / 120, -1.0 / 5040).value : std::sin(t) / t;
  return Eigen::Matrix3d::Identity() + a * s + sine_part(t).value * s * s;
}

Eigen::Vector3d rotation_vector(const Eigen::Matrix3d& R) {
  Eigen::Quaterniond q(R);
  if (q.w() < 0) q.coeffs() *= -1;
  const double sine = q.vec().norm();
  if (sine == 0) return Eigen::Vector3d::Zero();
  return 2 * std::atan2(sine, q.w()) / sine * q.vec();
}

Eigen::Vector3d rotation_vector_near(const Eigen::Matrix3d& R, const Eigen::Vector3d& near) {
  constexpr double turn = 2 * std::numbers::pi;
  const Eigen::Vector3d v = rotation_vector(R);
  const double t = v.norm();
  // After whole turns the axis shows only in what came before.
  const Eigen::Vector3d axis = t > 1e-9 ? Eigen::Vector3d(v / t) : near.normalized();
  return v + turn * std::round((near - v).dot(axis) / turn) * axis;
}

Eigen::Matrix3d spin_by_vector(const Eigen::Vector3d& v) {
  const double t = v.norm();
  const Eigen::Matrix3d s = skew(v);
  return Eigen::Matrix3d::Identity() + sine_part(t).value * s + square_part(t).value * s * s;
}

Eigen::Matrix3d vector_by_spin(const Eigen::Vector3d& v) {
  const Eigen::Matrix3d s = skew(v);
  return Eigen::Matrix3d::Identity() - s / 2 + inverse_part(v.norm()).value * s * s;
}

Eigen::Matrix3d change_of_vector_moment(const Eigen::Vector3d& v, const Eigen::Vector3d& m) {
  const Coefficient b = sine_part(v.norm()), c = square_part(v.norm());
  const Eigen::Vector3d once = v.cross(m), twice = v.cross(once);
  return b.value * skew(m) + c.value * change_of_double_cross(v, m) +
         (c.slope * twice - b.slope * once) * v.transpose();
}

Eigen::Matrix3d change_of_spin_moment(const Eigen::Vector3d& v, const Eigen::Vector3d& m) {
  const Coefficient d = inverse_part(v.norm());
  return -skew(m) / 2 + d.value * change_of_double_cross(v, m) +
         d.slope * v.cross(v.cross(m)) * v.transpose();
}

}  // namespace tubewright
