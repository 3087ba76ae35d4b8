#include "solver/dynamics/modal_recurrence.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

namespace tubewright {

namespace {

/// exp(M) by its series at a small part of M, then squared. After twenty terms of a norm of a half
/// the rest is 0.5^21/21! of the whole.
Eigen::Matrix4d exponential(Eigen::Matrix4d M) {
  constexpr int terms = 20;
  constexpr double small = 0.5;
  const double norm = M.cwiseAbs().rowwise().sum().maxCoeff();
  const int squarings = norm > small ? static_cast<int>(std::ceil(std::log2(norm / small))) : 0;
  M = std::ldexp(1.0, -squarings) * M;
  Eigen::Matrix4d sum = Eigen::Matrix4d::Identity();
  for (int k = terms; k > 0; --k) sum = Eigen::Matrix4d::Identity() + M * sum / k;
  for (int i = 0; i < squarings; ++i) sum = (sum * sum).eval();
  return sum;
}

}  // namespace

ModalRecurrence modal_recurrence(double omega, double zeta, double step) {
  // Time in steps, displacement in units that keep the matrix balanced: x = (scale q, step q',
  // step^2 p0, step^2 (p1 - p0)).
  const double angle = omega * step, scale = std::max(1.0, angle);
  Eigen::Matrix4d M = Eigen::Matrix4d::Zero();
  M(0, 1) = scale;
  M(1, 0) = -angle * (angle / scale);
  M(1, 1) = -2 * zeta * angle;
  M(1, 2) = 1;
  M(2, 3) = 1;
  const Eigen::Matrix4d E = exponential(M);
  const double square = step * step;
  ModalRecurrence r;
  r.qq = E(0, 0);
  r.qv = E(0, 1) * step / scale;
  r.q1p = E(0, 3) * square / scale;
  r.q0p = (E(0, 2) - E(0, 3)) * square / scale;
  r.vq = E(1, 0) * scale / step;
  r.vv = E(1, 1);
  r.v1p = E(1, 3) * step;
  r.v0p = (E(1, 2) - E(1, 3)) * step;
  return r;
}

}  // namespace tubewright
