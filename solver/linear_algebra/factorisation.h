// A symmetric positive definite stiffness matrix, ordered on the node graph and factorised once.
#pragma once

#include <Eigen/Core>
#include <memory>
#include <vector>

#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

enum class FactorisationMethod {
  automatic,   ///< chosen from the predicted work
  simplicial,  ///< Eigen's LDLT, node-graph minimum degree: slender frames
  supernodal   ///< CHOLMOD's LLT, the best of several node orders: wide lattices
};

/// True if this build can use FactorisationMethod::supernodal.
bool supernodal_available();

class Factorisation {
 public:
  /// `lower`: the lower triangle of K (diagonal included), n by n. `node_of`: for each unknown the
  /// node it belongs to; DOFs of one node are adjacent and ascending. Throws std::bad_alloc, or
  /// std::length_error if the factor has more entries than an int can count.
  Factorisation(const SparseMatrix& lower, const std::vector<int>& node_of,
                FactorisationMethod method = FactorisationMethod::automatic);
  ~Factorisation();
  Factorisation(Factorisation&&) noexcept;
  Factorisation& operator=(Factorisation&&) noexcept;

  /// False if a pivot came out zero, negative or not finite; pivot_ratios() then says where as far
  /// as it is known, and solve() must not be called.
  bool positive_definite() const;

  /// For each unknown its pivot divided by its diagonal entry of K, D_i / K_ii. A sound frame gives
  /// values far above 1e-10, a mechanism gives about 1e-16 (or a negative value) somewhere.
  /// DOFs that a failed factorisation did not reach read 0. (The absolute value of K_ii, so
  /// that a bad pivot never reads as a good one.)
  const Eigen::VectorXd& pivot_ratios() const;

  /// Solves K X = F. Requires: positive_definite(); F has n rows. One thread at a time.
  Eigen::MatrixXd solve(const Eigen::MatrixXd& F) const;

  /// G^-1 f and G'^-1 f of a square root of K, K = G G'; which one is left open (it goes with the
  /// order of elimination). Requires and one thread as solve().
  Eigen::VectorXd solve_root(const Eigen::VectorXd& f) const;
  Eigen::VectorXd solve_root_transposed(const Eigen::VectorXd& f) const;

  FactorisationMethod method() const;  ///< the method used, never `automatic`

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace tubewright
