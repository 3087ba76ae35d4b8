// The supernodal factor against closed forms of the chain matrix tridiag(-1, 2, -1): pivots
// (i + 1)/i, inverse i (n + 1 - j)/(n + 1) for i <= j (by induction on n), and against plain
// elimination. Compiled only where CHOLMOD was found.
#include "solver/linear_algebra/supernodal.h"

#include <algorithm>
#include <limits>

#include "solver/linear_algebra/node_ordering.h"
#include "solver/linear_algebra/permuted_matrix.h"
#include "tests/catch.h"
#include "tests/solver/linear_algebra/random_frame_matrix.h"

namespace tubewright::supernodal_test {

namespace {

SparseMatrix chain(int n) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < n; ++i) {
    entries.emplace_back(i, i, 2);
    if (i > 0) entries.emplace_back(i, i - 1, -1);
  }
  SparseMatrix A(n, n);
  A.setFromTriplets(entries.begin(), entries.end());
  return A;
}

/// D of A = L D L' by elimination from the first row down, row by row.
Eigen::VectorXd eliminated(Eigen::MatrixXd A) {
  for (Eigen::Index k = 0; k < A.rows(); ++k) {
    for (Eigen::Index i = k + 1; i < A.rows(); ++i) {
      A.row(i).tail(A.cols() - k - 1) -= A(i, k) / A(k, k) * A.row(k).tail(A.cols() - k - 1);
    }
  }
  return A.diagonal();
}

/// A lattice in an elimination order that is a postorder, as the factorisation brings it.
SparseMatrix ordered_lattice(int x, int y, int z) {
  const FrameMatrix m = random_lattice_matrix(x, y, z);
  const NodeGraph graph = node_graph(m.lower, m.node_of);
  return permuted_lower(m.lower, unknown_order(graph, minimum_degree_order(graph).nodes));
}

}  // namespace

TEST_CASE("the supernodal pivots of a chain are (i + 1)/i and its solutions the known inverse") {
  constexpr int n = 50;
  const SupernodalFactor factor(chain(n));
  REQUIRE(factor.positive_definite());
  const Eigen::VectorXd D = factor.pivots();
  const Eigen::MatrixXd X = factor.solve(Eigen::MatrixXd::Identity(n, n));
  REQUIRE(D.size() == n);
  for (int i = 1; i <= n; ++i) {
    CHECK_THAT(D[i - 1], WithinRel((i + 1.0) / i, 1e-13));
    for (const int j : {1, 17, n}) {
      CHECK_THAT(X(i - 1, j - 1),
                 WithinRel(std::min(i, j) * (n + 1.0 - std::max(i, j)) / (n + 1), 1e-11));
    }
  }
}

TEST_CASE("the supernodal pivots of a lattice are those of plain elimination") {
  const SparseMatrix lower = ordered_lattice(4, 3, 2);
  const Eigen::MatrixXd K = SparseMatrix(lower.selfadjointView<Eigen::Lower>());
  const SupernodalFactor factor(lower);
  REQUIRE(factor.positive_definite());
  const Eigen::VectorXd D = factor.pivots(), expected = eliminated(K);
  CHECK(((D - expected).array() / expected.array()).abs().maxCoeff() < 1e-10);
  Eigen::MatrixXd known(K.rows(), 2);
  known.col(0).setLinSpaced(-1, 1);
  known.col(1).setOnes();
  CHECK((factor.solve(K * known) - known).norm() < 1e-9 * known.norm());
}

TEST_CASE("a chain whose diagonal fails half-way has its pivots up to there and is refused") {
  constexpr int n = 30, bad = 20;
  SparseMatrix lower = chain(n);
  lower.coeffRef(bad, bad) = -3;
  const SupernodalFactor factor(lower);
  CHECK_FALSE(factor.positive_definite());
  const Eigen::VectorXd D = factor.pivots();
  REQUIRE(D.size() == n);
  for (int i = 0; i < n; ++i) {
    // Within the supernode of the bad column nothing may be had: never a wrong value.
    if (D[i] != 0) CHECK_THAT(D[i], WithinRel((i + 2.0) / (i + 1), 1e-13));
    if (i >= bad) CHECK(D[i] == 0);
  }
}

TEST_CASE("an entry that is not a number never passes the supernodal factor") {
  SparseMatrix lower = chain(10);
  lower.coeffRef(4, 3) = std::numeric_limits<double>::quiet_NaN();
  CHECK_FALSE(SupernodalFactor(lower).positive_definite());
}

}  // namespace tubewright::supernodal_test
