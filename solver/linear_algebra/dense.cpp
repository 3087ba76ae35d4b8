#include "solver/linear_algebra/dense.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>

namespace tubewright {

EigenSystem3 symmetric_eigensystem(const Eigen::Matrix3d& A) {
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(A);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

EigenSystem symmetric_eigensystem(const Eigen::MatrixXd& A) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(A);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

std::optional<EigenSystem> symmetric_eigensystem(const Eigen::MatrixXd& A,
                                                 const Eigen::MatrixXd& B) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(A, B);
  if (solver.info() != Eigen::Success) return std::nullopt;
  return EigenSystem{solver.eigenvalues(), solver.eigenvectors()};
}

Eigen::Vector3d solve_symmetric(const Eigen::Matrix3d& A, const Eigen::Vector3d& b) {
  return A.ldlt().solve(b);
}

Eigen::VectorXd solve_symmetric(const Eigen::MatrixXd& A, const Eigen::VectorXd& b) {
  return A.ldlt().solve(b);
}

Eigen::MatrixXd solve_symmetric(const Eigen::MatrixXd& A, const Eigen::MatrixXd& b) {
  return A.ldlt().solve(b);
}

Eigen::VectorXd solve_positive_definite(const Eigen::MatrixXd& A, const Eigen::VectorXd& b) {
  return A.llt().solve(b);
}

Eigen::Vector4d solve_general(const Eigen::Matrix4d& A, const Eigen::Vector4d& b) {
  return A.fullPivLu().solve(b);
}

}  // namespace tubewright
