// Small dense systems and eigenproblems of symmetric matrices. Eigen's decompositions are compiled
// here once: every further place that used them would cost seconds of each build.
#pragma once

#include <Eigen/Core>
#include <optional>

namespace tubewright {

/// A v = lambda v, eigenvalues ascending, eigenvectors in the columns, of length 1.
struct EigenSystem3 {
  Eigen::Vector3d values;
  Eigen::Matrix3d vectors;
};
struct EigenSystem {
  Eigen::VectorXd values;
  Eigen::MatrixXd vectors;
};

/// Of a symmetric matrix; its lower triangle is read.
EigenSystem3 symmetric_eigensystem(const Eigen::Matrix3d& A);
EigenSystem symmetric_eigensystem(const Eigen::MatrixXd& A);

/// A v = lambda B v with v' B v = 1. Nothing if the iteration does not converge. Requires: B is
/// positive definite.
std::optional<EigenSystem> symmetric_eigensystem(const Eigen::MatrixXd& A,
                                                 const Eigen::MatrixXd& B);

/// x of A x = b by L D L'. Requires: A is symmetric and positive or negative definite.
Eigen::Vector3d solve_symmetric(const Eigen::Matrix3d& A, const Eigen::Vector3d& b);
Eigen::VectorXd solve_symmetric(const Eigen::MatrixXd& A, const Eigen::VectorXd& b);
Eigen::MatrixXd solve_symmetric(const Eigen::MatrixXd& A, const Eigen::MatrixXd& b);

/// x of A x = b by L L'. Requires: A is symmetric and positive definite.
Eigen::VectorXd solve_positive_definite(const Eigen::MatrixXd& A, const Eigen::VectorXd& b);

/// x of A x = b by elimination with full pivoting. Requires: A has an inverse.
Eigen::Vector4d solve_general(const Eigen::Matrix4d& A, const Eigen::Vector4d& b);

}  // namespace tubewright
