// CHOLMOD's supernodal Cholesky factorisation behind a narrow seam.
//
// Compiled only where CHOLMOD was found (its supernodal part is under the GPL, version 2 or later).
// CHOLMOD: Y. Chen, T. A. Davis, W. W. Hager, S. Rajamanickam, ACM TOMS 35 (2008), art. 22.
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

#include "solver/node_ordering.h"
#include "solver/sparse_matrix.h"

namespace tubewright {

/// Nested dissection of the node graph; the order is postordered and its work predicted.
NodeOrder nested_dissection_order(const NodeGraph& graph);

class SupernodalFactor {
 public:
  /// `upper`: upper triangle of K in elimination order, with no room left between its columns.
  explicit SupernodalFactor(SparseMatrix upper);
  ~SupernodalFactor();
  SupernodalFactor(const SupernodalFactor&) = delete;
  SupernodalFactor& operator=(const SupernodalFactor&) = delete;

  bool positive_definite() const;

  /// D_i = L_ii^2 in the order of `upper`; zero where the factorisation did not get.
  Eigen::VectorXd pivots() const;

  /// X = K^-1 F in the order of `upper`. Requires: positive_definite().
  Eigen::MatrixXd solve(const Eigen::MatrixXd& F) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace tubewright
