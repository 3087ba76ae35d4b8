// The largest solutions mu of A x = mu B x, B positive definite, and the proof that none is
// missing.
//
// Modes and buckling both come down to this: M x = mu (K + s M) x and -K_G x = mu K x. Only B is
// factorised, so A may be indefinite or have massless DOFs.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

#include "solver/linear_algebra/dense.h"
#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

struct Eigenpairs {
  std::vector<double> values;  ///< mu, descending, all above zero
  Eigen::MatrixXd vectors;     ///< columns, x' B x = 1, entry of greatest size positive
  bool complete = false;       ///< counted: no value above the last one is missing
};

/// Number of eigenvalues mu above a bound > 0, -1 if it cannot be told.
using CountAbove = std::function<int(double bound)>;

/// How largest_eigenpairs() proves that none is missing.
struct EigenProof {
  bool wanted = true;  ///< false: what is found, to five digits; `complete` stays false
  CountAbove count;    ///< absent: count_above(A, B, bound)
};

/// `A`, `B`: lower triangles. `node_of`: see Factorisation. Asks for `count` values; a multiple
/// value at the end is returned whole. Fewer come back where fewer are positive (by more
/// than rounding). Lanczos iteration in the inner product of B, dense for small problems; a pair
/// counts as found once its residual bounds the error of mu by 1e-7 of it; completeness by the
/// number of negative pivots of B - A/mu (Sylvester's law of inertia).
/// `known`: columns v, v'A v = 1, v'A w = 0, of solutions that are known exactly, such as rigid
/// motions: they are taken out of A and are not among the answers.
/// Requires: B is positive definite; the known solutions have the largest mu.
Eigenpairs largest_eigenpairs(const SparseMatrix& A, const SparseMatrix& B,
                              const std::vector<int>& node_of, int count,
                              const Eigen::MatrixXd& known = {}, const EigenProof& proof = {});

/// The least eigenvalues of S, ascending, and their vectors: `count` of a large matrix as far as
/// Lanczos iteration finds them, else all. `S`: lower triangle, semidefinite, with entries of a
/// size of about 1; `shift` is added to its diagonal to make it definite. `node_of`: see
/// Factorisation.
EigenSystem least_eigenpairs(const SparseMatrix& S, const std::vector<int>& node_of, int count,
                             double shift);

/// Number of negative pivots of the LDL' factor of a symmetric matrix (lower triangle), that of its
/// negative eigenvalues. -1 where a pivot is lost: less than `least` of its diagonal entry, or
/// zero.
int negative_pivots(const SparseMatrix& C, double least = 0);

/// Number of eigenvalues mu above `bound` > 0; -1 if it cannot be told (a pivot is zero).
int count_above(const SparseMatrix& A, const SparseMatrix& B, double bound);

}  // namespace tubewright
