#include "solver/linear_algebra/eigenpairs.h"

#include <Spectra/SymEigsSolver.h>

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "solver/linear_algebra/dense.h"
#include "solver/linear_algebra/factorisation.h"

namespace tubewright {

namespace {

constexpr Eigen::Index dense_limit = 300;
constexpr double no_value = 1e-12;        // of the greatest: beyond the rank of A
constexpr double next_to_nothing = 1e-6;  // of A scaled to about 1
constexpr double same_value = 1e-6;  // relative gap below which two values are one multiple one

/// A v of every known solution v: A less the products of these with themselves has them no more.
Eigen::MatrixXd images(const SparseMatrix& A, const Eigen::MatrixXd& known) {
  if (known.cols() == 0) return Eigen::MatrixXd::Zero(A.rows(), 0);
  return A.selfadjointView<Eigen::Lower>() * known;
}

/// Both triangles: a row is then a column, and a product with a vector one sum of products a row.
SparseMatrix both_triangles(const SparseMatrix& lower) {
  return SparseMatrix(lower.selfadjointView<Eigen::Lower>());
}

/// A x - V V'x.
class DeflatedProduct {
 public:
  DeflatedProduct(const SparseMatrix& lower, const Eigen::MatrixXd& V)
      : full_(both_triangles(lower)), V_(V) {}
  Eigen::VectorXd operator*(const Eigen::VectorXd& x) const {
    Eigen::VectorXd y = full_.transpose() * x;
    if (V_.cols() > 0) y.noalias() -= V_ * (V_.transpose() * x);
    return y;
  }

 private:
  SparseMatrix full_;
  const Eigen::MatrixXd& V_;
};

/// y = G^-1 A G'^-1 x, B = G G': its eigenvalues are those of A x = mu B x, in the ordinary inner
/// product, which costs no product with B.
class ReducedProduct {
 public:
  using Scalar = double;
  ReducedProduct(const DeflatedProduct& A, const Factorisation& B, Eigen::Index rows)
      : A_(A), B_(B), rows_(rows) {}
  Eigen::Index rows() const { return rows_; }
  Eigen::Index cols() const { return rows_; }
  void perform_op(const double* x, double* y) const {
    Eigen::Map<Eigen::VectorXd>(y, rows_) =
        B_.solve_root(A_ * B_.solve_root_transposed(Eigen::Map<const Eigen::VectorXd>(x, rows_)));
  }
  /// x = G'^-1 z.
  Eigen::MatrixXd unreduced(Eigen::MatrixXd vectors) const {
    for (Eigen::Index k = 0; k < vectors.cols(); ++k) {
      vectors.col(k) = B_.solve_root_transposed(vectors.col(k));
    }
    return vectors;
  }

 private:
  const DeflatedProduct& A_;
  const Factorisation& B_;
  Eigen::Index rows_;
};

/// Sorted, positive, normalised.
Eigenpairs tidied(const Eigen::VectorXd& values, const Eigen::MatrixXd& vectors,
                  const SparseMatrix& A, const SparseMatrix& B) {
  std::vector<Eigen::Index> order(static_cast<size_t>(values.size()));
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(),
            [&](Eigen::Index a, Eigen::Index b) { return values[a] > values[b]; });
  Eigenpairs pairs;
  // Unit vectors bound the greatest |mu| from below: a measure of size that rounding cannot fool.
  const Eigen::VectorXd measure = A.diagonal().cwiseAbs().cwiseQuotient(B.diagonal());
  const double least = no_value * measure.maxCoeff();
  std::erase_if(order, [&](Eigen::Index i) { return !(values[i] > least); });
  pairs.vectors.resize(vectors.rows(), static_cast<Eigen::Index>(order.size()));
  for (size_t k = 0; k < order.size(); ++k) {
    Eigen::VectorXd x = vectors.col(order[k]);
    x /= std::sqrt(x.dot(B.selfadjointView<Eigen::Lower>() * x));
    Eigen::Index greatest = 0;
    x.cwiseAbs().maxCoeff(&greatest);
    pairs.values.push_back(values[order[k]]);
    pairs.vectors.col(static_cast<Eigen::Index>(k)) = x[greatest] < 0 ? Eigen::VectorXd(-x) : x;
  }
  return pairs;
}

Eigenpairs none(Eigen::Index rows) {
  Eigenpairs pairs;
  pairs.vectors.resize(rows, 0);
  return pairs;
}

void keep(Eigenpairs& pairs, size_t count) {
  if (pairs.values.size() <= count) return;
  pairs.values.resize(count);
  pairs.vectors.conservativeResize(Eigen::NoChange, static_cast<Eigen::Index>(count));
}

/// `count` values, more if the last is a multiple one.
size_t whole_multiples(const std::vector<double>& values, size_t count) {
  size_t k = std::min(count, values.size());
  while (k > 0 && k < values.size() && values[k] > values[k - 1] * (1 - same_value)) ++k;
  return k;
}

}  // namespace

int negative_pivots(const SparseMatrix& C, double least) {
  Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower> factor(C);
  if (factor.info() != Eigen::Success || !factor.vectorD().allFinite()) return -1;
  const Eigen::VectorXd pivots = factor.vectorD();
  if (least > 0) {
    const Eigen::VectorXd diagonal = factor.permutationP() * Eigen::VectorXd(C.diagonal());
    if ((pivots.array().abs() < least * diagonal.array().abs()).any()) return -1;
  }
  return static_cast<int>((pivots.array() < 0).count());
}

int count_above(const SparseMatrix& A, const SparseMatrix& B, double bound) {
  // A bound that hits an eigenvalue gives a zero pivot: move it a little.
  for (const double shift : {0.0, 1e-9, -1e-9, 1e-8}) {
    const int count = negative_pivots(B - A / (bound * (1 + shift)));
    if (count >= 0) return count;
  }
  return -1;
}

namespace {

/// The power of two nearest to the size of A against B; 0 if A is zero. Lanczos iteration knows
/// when it is done by numbers that take values mu near 1 for granted; dividing by a power of two
/// costs no digit.
double scale_of(const SparseMatrix& A, const SparseMatrix& B) {
  if (A.nonZeros() == 0) return 0;
  const double size = A.coeffs().cwiseAbs().maxCoeff() / B.diagonal().maxCoeff();
  if (!(size > 0)) return 0;
  int exponent = 0;
  std::frexp(size, &exponent);
  return std::ldexp(1.0, exponent);
}

/// Those before the first whose residual leaves its value open. With x' B x = 1 the norm of
/// G^-1 r, r = A x - mu B x, bounds the distance from mu to the nearest eigenvalue (B. N. Parlett,
/// The Symmetric Eigenvalue Problem, 4.5 and 15.9; from memory).
size_t converged(const Eigenpairs& pairs, const DeflatedProduct& a, const Factorisation& factor,
                 const SparseMatrix& B) {
  constexpr double error = 1e-7;  // of mu
  size_t k = 0;
  for (; k < pairs.values.size(); ++k) {
    const Eigen::VectorXd x = pairs.vectors.col(static_cast<Eigen::Index>(k));
    const double mu = pairs.values[k];
    const Eigen::VectorXd Bx = B.selfadjointView<Eigen::Lower>() * x;
    const Eigen::VectorXd r = a * x - mu * Bx;
    if (!(factor.solve_root(r).norm() <= error * mu)) break;
  }
  return k;
}

Eigenpairs all_by_dense(const SparseMatrix& A, const SparseMatrix& B, int count,
                        const Eigen::MatrixXd& V) {
  Eigen::MatrixXd dense_A = Eigen::MatrixXd(A).selfadjointView<Eigen::Lower>();
  dense_A -= V * V.transpose();
  const Eigen::MatrixXd dense_B = Eigen::MatrixXd(B).selfadjointView<Eigen::Lower>();
  const std::optional<EigenSystem> system = symmetric_eigensystem(dense_A, dense_B);
  if (!system) return none(B.rows());
  Eigenpairs pairs = tidied(system->values, system->vectors, A, B);
  keep(pairs, whole_multiples(pairs.values, static_cast<size_t>(count)));
  pairs.complete = true;
  return pairs;
}

Eigenpairs largest_by_lanczos(const SparseMatrix& A, const SparseMatrix& B,
                              const std::vector<int>& node_of, int count, const Eigen::MatrixXd& V,
                              const EigenProof& proof) {
  const Eigen::Index n = B.rows();
  const DeflatedProduct a(A, V);
  const Factorisation factor(B, node_of);
  if (!factor.positive_definite()) return none(n);
  ReducedProduct reduced(a, factor, n);
  Eigenpairs pairs;
  Eigen::Index wanted = std::min<Eigen::Index>(count + 2, n - 1);
  Eigen::Index space = std::min<Eigen::Index>(n, 4 * wanted + 10);
  constexpr int attempts = 4;
  for (int attempt = 0; attempt < attempts; ++attempt) {
    const bool last_attempt = attempt + 1 == attempts;
    Spectra::SymEigsSolver<ReducedProduct> lanczos(reduced, wanted, space);
    lanczos.init();
    // Values that lie close together want a larger space, not more restarts of a small one.
    constexpr int restarts = 10, most_restarts = 1000;
    lanczos.compute(Spectra::SortRule::LargestAlge, last_attempt ? most_restarts : restarts,
                    proof.wanted ? 1e-10 : 1e-5);
    if (!last_attempt && space < n && lanczos.info() != Spectra::CompInfo::Successful) {
      space = std::min<Eigen::Index>(n, 3 * space);
      continue;
    }
    pairs = tidied(lanczos.eigenvalues(), reduced.unreduced(lanczos.eigenvectors()), A, B);
    const size_t found = pairs.values.size();
    const size_t sure = converged(pairs, a, factor, B);
    const size_t whole = whole_multiples(pairs.values, static_cast<size_t>(count));
    if (whole == 0) {
      // Nothing positive among the largest: then nothing is, if the iteration converged, which it
      // need not where all are crowded below zero, or if a count says so.
      pairs.complete = lanczos.info() == Spectra::CompInfo::Successful ||
                       (proof.wanted && proof.count(next_to_nothing) == V.cols());
      return pairs;
    }
    if (!proof.wanted) {
      keep(pairs, whole);
      return pairs;
    }
    const double last = pairs.values[whole - 1];
    const double next = whole < found ? pairs.values[whole] : 0;
    const double bound = next > 0 ? (last + next) / 2 : last * (1 - same_value);
    const int counted = proof.count(bound) - static_cast<int>(V.cols());
    if (counted == static_cast<int>(whole) && sure >= whole) {
      keep(pairs, whole);
      pairs.complete = true;
      return pairs;
    }
    wanted = std::min<Eigen::Index>(std::max<Eigen::Index>(wanted, counted) + 4, n - 1);
    space = std::min<Eigen::Index>(n, 2 * space + 4 * wanted);
  }
  keep(pairs, whole_multiples(pairs.values, static_cast<size_t>(count)));
  return pairs;
}

/// Whether all values at once are the quicker way (measured: 90 DOFs and a few values).
bool dense_is_quicker(Eigen::Index n, int count) {
  constexpr Eigen::Index small = 90, many = 8;
  return n <= small || (n <= dense_limit && many * count > n);
}

Eigenpairs largest_of_scaled(const SparseMatrix& A, const SparseMatrix& B,
                             const std::vector<int>& node_of, int count,
                             const Eigen::MatrixXd& known, const EigenProof& proof) {
  const Eigen::MatrixXd V = images(A, known);
  if (dense_is_quicker(B.rows(), count)) return all_by_dense(A, B, count, V);
  Eigenpairs pairs = largest_by_lanczos(A, B, node_of, count, V, proof);
  if (proof.wanted && !pairs.complete && B.rows() <= dense_limit)
    return all_by_dense(A, B, count, V);
  return pairs;
}

}  // namespace

Eigenpairs largest_eigenpairs(const SparseMatrix& A, const SparseMatrix& B,
                              const std::vector<int>& node_of, int count,
                              const Eigen::MatrixXd& known, const EigenProof& proof) {
  const double scale = B.rows() > 0 && count > 0 ? scale_of(A, B) : 0;
  if (scale == 0) {
    Eigenpairs pairs = none(B.rows());
    pairs.complete = true;
    return pairs;
  }
  const SparseMatrix scaled = A / scale;
  const EigenProof of_scaled{proof.wanted, [&](double bound) {
                               return proof.count ? proof.count(bound * scale)
                                                  : count_above(scaled, B, bound);
                             }};
  Eigenpairs pairs =
      largest_of_scaled(scaled, B, node_of, count, known * std::sqrt(scale), of_scaled);
  for (double& mu : pairs.values) mu *= scale;
  return pairs;
}

namespace {

/// y = S^-1 x.
class Inverse {
 public:
  using Scalar = double;
  explicit Inverse(const Factorisation& factor, Eigen::Index n) : factor_(factor), n_(n) {}
  Eigen::Index rows() const { return n_; }
  Eigen::Index cols() const { return n_; }
  void perform_op(const double* x, double* y) const {
    Eigen::Map<Eigen::VectorXd>(y, n_) =
        factor_.solve(Eigen::Map<const Eigen::VectorXd>(x, n_)).col(0);
  }

 private:
  const Factorisation& factor_;
  Eigen::Index n_;
};

/// Nothing if S + shift I is not positive definite or nothing converges.
std::optional<EigenSystem> least_by_lanczos(SparseMatrix S, const std::vector<int>& node_of,
                                            int count, double shift) {
  for (Eigen::Index i = 0; i < S.cols(); ++i) S.coeffRef(i, i) += shift;
  const Factorisation factor(S, node_of);
  if (!factor.positive_definite()) return std::nullopt;
  Inverse op(factor, S.cols());
  Spectra::SymEigsSolver<Inverse> lanczos(op, count, 4 * count + 10);
  lanczos.init();
  lanczos.compute(Spectra::SortRule::LargestAlge, 1000, 1e-10);
  const Eigen::VectorXd mu = lanczos.eigenvalues();
  if (mu.size() == 0) return std::nullopt;
  return EigenSystem{mu.cwiseInverse().array() - shift, lanczos.eigenvectors()};
}

}  // namespace

EigenSystem least_eigenpairs(const SparseMatrix& S, const std::vector<int>& node_of, int count,
                             double shift) {
  if (S.cols() > dense_limit) {
    if (std::optional<EigenSystem> found = least_by_lanczos(S, node_of, count, shift)) {
      return *std::move(found);
    }
  }
  const Eigen::MatrixXd full = Eigen::MatrixXd(S).selfadjointView<Eigen::Lower>();
  return symmetric_eigensystem(full);
}

}  // namespace tubewright
