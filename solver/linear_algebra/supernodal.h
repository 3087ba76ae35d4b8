// CHOLMOD's supernodal Cholesky factorisation behind a narrow seam.
//
// Compiled only where CHOLMOD was found (its supernodal part is under the GPL, version 2 or later).
// CHOLMOD: Y. Chen, T. A. Davis, W. W. Hager, S. Rajamanickam, ACM TOMS 35 (2008), art. 22.
#pragma once

#include <Eigen/Core>
#include <memory>

#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

class SupernodalFactor {
 public:
  /// `lower`: lower triangle of K in elimination order, compressed. Throws std::bad_alloc, or
  /// std::length_error if the factor has more entries than CHOLMOD's indices can count.
  /// `operations`: predicted work, see blas_threads.h.
  explicit SupernodalFactor(SparseMatrix lower, double operations = 0);
  ~SupernodalFactor();
  SupernodalFactor(const SupernodalFactor&) = delete;
  SupernodalFactor& operator=(const SupernodalFactor&) = delete;

  bool positive_definite() const;

  /// D_i = L_ii^2 in the order of `lower`; zero where the factorisation did not get.
  Eigen::VectorXd pivots() const;

  /// X = K^-1 F in the order of `lower`. Requires: positive_definite(). One thread at a time.
  Eigen::MatrixXd solve(const Eigen::MatrixXd& F) const;

  /// L^-1 F and L'^-1 F, K = L L', as solve().
  Eigen::MatrixXd solve_lower(const Eigen::MatrixXd& F) const;
  Eigen::MatrixXd solve_upper(const Eigen::MatrixXd& F) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace tubewright
