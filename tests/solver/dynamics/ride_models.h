// Small systems for tests of rides, from mass and stiffness matrices, and what they did.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <vector>

#include "solver/dynamics/ride.h"
#include "solver/linear_algebra/dense.h"
#include "tests/catch.h"

namespace tubewright::test {

constexpr double gravity = 9.81;

/// A structure by its matrices; force coordinates by their rows.
struct Structure {
  Eigen::MatrixXd M, K;
  Eigen::MatrixXd coordinates;  ///< force coordinates x DOFs
  Eigen::VectorXd weight;       ///< forces of gravity on the DOFs
  double damping_ratio = 0;     ///< of elastic modes
};

struct ModalStructure {
  RideSystem system;
  Eigen::MatrixXd shapes;    ///< of the modes kept, DOFs x modes
  Eigen::MatrixXd residual;  ///< DOFs by forces at coordinates, of the modes left out
  Eigen::VectorXd residual_weight;
};

/// With so many elastic modes; without static correction if `corrected` is false.
inline ModalStructure modal(const Structure& s, int elastic, bool corrected = true) {
  const auto pairs = symmetric_eigensystem(s.K, s.M);
  REQUIRE(pairs.has_value());
  const double rounding = 1e-9 * pairs->values.cwiseAbs().maxCoeff();
  const Eigen::Index dofs = s.M.rows();
  Eigen::Index rigid = 0;
  while (rigid < dofs && pairs->values[rigid] <= rounding) ++rigid;
  const Eigen::Index kept = std::min<Eigen::Index>(dofs, rigid + elastic), left = dofs - kept;
  ModalStructure m;
  m.shapes = pairs->vectors.leftCols(kept);
  const Eigen::MatrixXd rest = pairs->vectors.rightCols(left);
  Eigen::VectorXd softness = pairs->values.tail(left).cwiseInverse();
  if (!corrected) softness.setZero();
  m.residual = rest * softness.asDiagonal() * rest.transpose() * s.coordinates.transpose();
  m.residual_weight = rest * softness.asDiagonal() * rest.transpose() * s.weight;
  RideSystem& r = m.system;
  r.circular_frequency = pairs->values.head(kept).cwiseMax(0).cwiseSqrt();
  r.circular_frequency.head(rigid).setZero();
  r.damping_ratio = Eigen::VectorXd::Constant(kept, s.damping_ratio);
  r.modes = s.coordinates * m.shapes;
  r.residual_flexibility = s.coordinates * m.residual;
  r.weight_modal = m.shapes.transpose() * s.weight;
  r.weight_displacement = s.coordinates * m.residual_weight;
  return m;
}

/// A mass on a tyre: coordinate 0 its height, coordinate 1 along, where there is mass too.
inline RideSystem one_mass(double m, double k, double c, double g = gravity) {
  Structure s;
  s.M = m * Eigen::Matrix2d::Identity();
  s.K = Eigen::Matrix2d::Zero();
  s.coordinates = Eigen::Matrix2d::Identity();
  s.weight = Eigen::Vector2d(-m * g, 0);
  RideSystem r = modal(s, 0).system;
  r.tyres = {{0, 1, k, c}};
  return r;
}

/// Sprung and unsprung mass; coordinates: wheel, spring.
inline RideSystem quarter_car(double ms, double mu, double ks, double cs, double kt, double ct) {
  Structure s;
  s.M = Eigen::Vector2d(ms, mu).asDiagonal();
  s.K = (Eigen::Matrix2d() << ks, -ks, -ks, ks).finished();
  s.coordinates = (Eigen::Matrix2d() << 0, 1, 1, -1).finished();
  s.weight = -gravity * Eigen::Vector2d(ms, mu);
  RideSystem r = modal(s, 1).system;
  r.tyres = {{0, -1, kt, ct}};
  r.dampers = {{1, cs}};
  return r;
}

/// The same height for all tyres as a function of time, no slope.
template <class Height>
WheelPaths ground(double time_step, const Height& at) {
  return [=](std::int64_t first, Eigen::Ref<Eigen::MatrixXd> height,
             Eigen::Ref<Eigen::MatrixXd> slope) {
    slope.setZero();
    for (Eigen::Index j = 0; j < height.cols(); ++j) {
      height.col(j).setConstant(at(static_cast<double>(first + j) * time_step));
    }
  };
}

inline WheelPaths level_ground() {
  return ground(1, [](double) { return 0.0; });
}

/// All of a short ride.
struct History {
  Eigen::MatrixXd q, rate, acceleration, forces, tyre_force, deflection, longitudinal;
  RideEnd end;
};

inline History history(const RideSystem& system, const WheelPaths& paths,
                       const RideOptions& options) {
  History h;
  const auto append = [](Eigen::MatrixXd& all, const Eigen::MatrixXd& block) {
    all.conservativeResize(block.rows(), all.cols() + block.cols());
    all.rightCols(block.cols()) = block;
  };
  RideOptions large = options;
  large.block = std::max(large.block, 20000);
  const auto outcome = ride(system, paths, large, [&](const RideBlock& b) {
    append(h.q, b.displacement);
    append(h.rate, b.rate);
    append(h.acceleration, b.acceleration);
    append(h.forces, b.forces);
    append(h.tyre_force, b.tyre_force);
    append(h.deflection, b.deflection);
    append(h.longitudinal, b.longitudinal);
  });
  REQUIRE(outcome.has_value());
  h.end = *outcome;
  return h;
}

inline ModalState at_rest(const RideSystem& system) {
  return {Eigen::VectorXd::Zero(system.modes.cols()), Eigen::VectorXd::Zero(system.modes.cols())};
}

/// Modal displacements with given ones at the DOFs of a structure whose modes are all kept.
inline Eigen::VectorXd modal_part(const ModalStructure& m, const Structure& s,
                                  const Eigen::VectorXd& u) {
  return m.shapes.transpose() * s.M * u;
}

inline double deviation(const Eigen::VectorXd& v) {
  return std::sqrt((v.array() - v.mean()).square().mean());
}

}  // namespace tubewright::test
