// The permuted triangles of a sparse matrix against its definition: entry (i, j) of P K P' is
// K(order[i], order[j]).
#include "solver/linear_algebra/permuted_matrix.h"

#include <algorithm>
#include <numeric>
#include <random>

#include "tests/catch.h"
#include "tests/solver/linear_algebra/random_frame_matrix.h"

namespace tubewright::permuted_matrix_test {

namespace {

std::vector<int> shuffled(int n, unsigned seed) {
  std::vector<int> order(n);
  std::iota(order.begin(), order.end(), 0);
  std::mt19937 random(seed);
  for (int k = n - 1; k > 0; --k) std::swap(order[k], order[random() % (k + 1)]);
  return order;
}

/// K of its lower triangle.
Eigen::MatrixXd full(const SparseMatrix& lower) {
  return SparseMatrix(lower.selfadjointView<Eigen::Lower>());
}

}  // namespace

TEST_CASE("every entry of a permuted triangle is the one its order calls for") {
  const unsigned seed = GENERATE(1u, 2u, 3u);
  const FrameMatrix m = random_lattice_matrix(3, 2, 1);
  const auto n = static_cast<int>(m.node_of.size());
  const std::vector<int> order = shuffled(n, seed);
  const Eigen::MatrixXd K = full(m.lower);
  const Eigen::MatrixXd upper = permuted_upper(m.lower, order);
  const Eigen::MatrixXd lower = permuted_lower(m.lower, order);
  int wrong = 0;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const double expected = K(order[i], order[j]);
      wrong += upper(i, j) != (i <= j ? expected : 0);
      wrong += lower(i, j) != (i >= j ? expected : 0);
    }
  }
  CHECK(wrong == 0);
}

TEST_CASE("permuting and putting back gives the triangle back, entry by entry") {
  const FrameMatrix m = random_lattice_matrix(4, 2, 0);
  const auto n = static_cast<int>(m.node_of.size());
  const std::vector<int> order = shuffled(n, 11);
  std::vector<int> back(n);
  for (int k = 0; k < n; ++k) back[order[k]] = k;
  const SparseMatrix there = permuted_lower(m.lower, order);
  CHECK(there.nonZeros() == m.lower.nonZeros());
  CHECK(there.isCompressed());
  CHECK(Eigen::MatrixXd(permuted_lower(there, back)) == Eigen::MatrixXd(m.lower));
  CHECK(Eigen::MatrixXd(permuted_upper(there, back)) == Eigen::MatrixXd(m.lower).transpose());
}

TEST_CASE("no unknowns are permuted to no unknowns") {
  CHECK(permuted_lower(SparseMatrix(0, 0), {}).cols() == 0);
  CHECK(permuted_upper(SparseMatrix(0, 0), {}).cols() == 0);
}

}  // namespace tubewright::permuted_matrix_test
