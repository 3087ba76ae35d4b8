// Largest and least eigenpairs against closed forms of chain matrices (eigenvalues
// 2 - 2 cos(k pi/(n + 1)) of tridiag(-1, 2, -1), 2 cos(...) of tridiag(1, 0, 1), any textbook on
// finite differences; from memory), and counts against a dense solution.
#include "solver/linear_algebra/eigenpairs.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

#include "tests/catch.h"

namespace tubewright::eigenpairs_test {

namespace {

constexpr double pi = std::numbers::pi;

/// Lower triangle: `first` and `last` at the ends of the diagonal, `d` between, `o` beside it.
SparseMatrix chain(int n, double d, double o, double first, double last) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < n; ++i) {
    entries.emplace_back(i, i, i == 0 ? first : i == n - 1 ? last : d);
    if (i > 0) entries.emplace_back(i, i - 1, o);
  }
  SparseMatrix A(n, n);
  A.setFromTriplets(entries.begin(), entries.end());
  return A;
}

SparseMatrix held_chain(int n) { return chain(n, 2, -1, 2, 2); }

SparseMatrix identity(int n) {
  SparseMatrix I(n, n);
  I.setIdentity();
  return I;
}

/// One unknown a node.
std::vector<int> nodes(int n) {
  std::vector<int> all(n);
  std::iota(all.begin(), all.end(), 0);
  return all;
}

double chain_value(int k, int n) { return 2 - 2 * std::cos(k * pi / (n + 1)); }

constexpr int small = 40, large = 400;  // solved as a dense problem, by Lanczos iteration

}  // namespace

TEST_CASE("the largest eigenpairs of a unit mass on a held chain are one over 2 - 2 cos") {
  const int n = GENERATE(small, large);
  const SparseMatrix B = held_chain(n);
  const Eigenpairs p = largest_eigenpairs(identity(n), B, nodes(n), 5);
  REQUIRE(p.values.size() == 5);
  REQUIRE(p.vectors.cols() == 5);
  CHECK(p.complete);
  for (int k = 1; k <= 5; ++k) {
    CHECK_THAT(p.values[k - 1], WithinRel(1 / chain_value(k, n), 1e-9));
    const Eigen::VectorXd x = p.vectors.col(k - 1);
    CHECK_THAT(x.dot(B.selfadjointView<Eigen::Lower>() * x), WithinRel(1.0, 1e-9));
    CHECK(x.maxCoeff() >= -x.minCoeff() * (1 - 1e-6));  // the greatest entry is positive
    Eigen::VectorXd shape(n);
    for (int i = 0; i < n; ++i) shape[i] = std::sin((i + 1) * k * pi / (n + 1));
    CHECK_THAT(std::abs(x.normalized().dot(shape.normalized())), WithinRel(1.0, 1e-7));
  }
}

// A ring has the eigenvalues 2 - 2 cos(2 pi k/n): all but the ends come twice.
TEST_CASE("a double value at the end of those asked for is returned whole") {
  const int n = GENERATE(small, large);
  SparseMatrix B = chain(n, 2.01, -1, 2.01, 2.01);
  B.coeffRef(n - 1, 0) = -1;
  const Eigenpairs p = largest_eigenpairs(identity(n), B, nodes(n), 2);
  REQUIRE(p.values.size() == 3);
  CHECK(p.complete);
  CHECK_THAT(p.values[0], WithinRel(1 / 0.01, 1e-9));
  const double twice = 1 / (2.01 - 2 * std::cos(2 * pi / n));
  CHECK_THAT(p.values[1], WithinRel(twice, 1e-8));
  CHECK_THAT(p.values[2], WithinRel(twice, 1e-8));
  CHECK(std::abs(p.vectors.col(1).normalized().dot(p.vectors.col(2).normalized())) < 1e-6);
}

TEST_CASE("of an indefinite matrix only the positive values come back, of a negative one none") {
  const Eigenpairs p = largest_eigenpairs(chain(small, 0, 1, 0, 0), identity(small), nodes(small),
                                          small);  // 2 cos(k pi/(n + 1)): half above zero
  REQUIRE(p.values.size() == small / 2);
  CHECK(p.complete);
  for (int k = 1; k <= small / 2; ++k) {
    CHECK_THAT(p.values[k - 1], WithinRel(2 * std::cos(k * pi / (small + 1)), 1e-11));
  }
  for (const int n : {small, large}) {
    const Eigenpairs none = largest_eigenpairs(-held_chain(n), identity(n), nodes(n), 3);
    CHECK(none.values.empty());
    CHECK(none.complete);
    CHECK(largest_eigenpairs(SparseMatrix(n, n), identity(n), nodes(n), 3).complete);
  }
}

TEST_CASE("values grow with the first matrix and fall with the second, whatever their size") {
  const SparseMatrix B = held_chain(large);
  const double one = largest_eigenpairs(identity(large), B, nodes(large), 1).values[0];
  for (const double a : {1e-9, 1e9}) {
    const Eigenpairs p = largest_eigenpairs(a * identity(large), B / a, nodes(large), 1);
    CHECK_THAT(p.values[0], WithinRel(a * a * one, 1e-8));
  }
}

TEST_CASE("count_above counts as a dense solution does (Sylvester's law of inertia)") {
  constexpr int n = 30;
  std::mt19937 random(5);
  std::uniform_real_distribution<double> u(-1, 1);
  Eigen::MatrixXd A = Eigen::MatrixXd::NullaryExpr(n, n, [&] { return u(random); });
  A = (A + A.transpose()).eval();
  Eigen::MatrixXd B = Eigen::MatrixXd::NullaryExpr(n, n, [&] { return u(random); });
  B = (B * B.transpose() + Eigen::MatrixXd::Identity(n, n)).eval();
  const Eigen::VectorXd mu =
      Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(A, B).eigenvalues();
  const SparseMatrix lower_A = SparseMatrix(A.sparseView()).triangularView<Eigen::Lower>();
  const SparseMatrix lower_B = SparseMatrix(B.sparseView()).triangularView<Eigen::Lower>();
  for (Eigen::Index i = 1; i < n; ++i) {
    const double bound = (mu[i - 1] + mu[i]) / 2;
    if (bound > 0) CHECK(count_above(lower_A, lower_B, bound) == n - i);
  }
  CHECK(count_above(lower_A, lower_B, mu[n - 1] * 1.01) == 0);
}

TEST_CASE("count_above of a unit mass on a chain is the number of 2 - 2 cos below one over it") {
  const SparseMatrix B = held_chain(large);
  for (const int k : {1, 7, 100, 399}) {
    const double bound = 2 / (chain_value(k, large) + chain_value(k + 1, large));
    CHECK(count_above(identity(large), B, bound) == k);
  }
}

// A free chain, 1 at both ends of the diagonal: 2 - 2 cos(k pi/n) from k = 0, vectors
// cos((i + 1/2) k pi/n).
TEST_CASE("the least eigenpairs of a free chain begin with its rigid motion") {
  const int n = GENERATE(small, large);
  const EigenSystem s = least_eigenpairs(chain(n, 2, -1, 1, 1), nodes(n), 4, 1e-8);
  REQUIRE(s.values.size() == (n == small ? small : 4));
  for (int k = 0; k < 4; ++k) {
    CHECK_THAT(s.values[k], WithinAbs(2 - 2 * std::cos(k * pi / n), 1e-10));
    Eigen::VectorXd shape(n);
    for (int i = 0; i < n; ++i) shape[i] = std::cos((i + 0.5) * k * pi / n);
    CHECK_THAT(std::abs(s.vectors.col(k).normalized().dot(shape.normalized())),
               WithinRel(1.0, 1e-7));
  }
  CHECK(std::is_sorted(s.values.begin(), s.values.end()));
}

TEST_CASE("negative pivots are the negative eigenvalues, and one that is lost is told") {
  Eigen::MatrixXd C(3, 3);
  C << 2, 1, 0, 1, -3, 1, 0, 1, 1;
  const auto lower = [](const Eigen::MatrixXd& full) {
    return SparseMatrix(SparseMatrix(full.sparseView()).triangularView<Eigen::Lower>());
  };
  CHECK(negative_pivots(lower(C)) == 1);
  CHECK(negative_pivots(lower(-C)) == 2);
  // Singular but for rounding: a pivot of 1e-12 beside a diagonal of 1.
  Eigen::MatrixXd S(2, 2);
  S << 1, 1, 1, 1 + 1e-12;
  CHECK(negative_pivots(lower(S)) == 0);
  CHECK(negative_pivots(lower(S), 1e-9) == -1);
}

TEST_CASE("a count of one's own proves completeness; without proof nothing is claimed") {
  const SparseMatrix A = identity(large), B = held_chain(large);
  int asked = 0;
  const EigenProof own{true, [&](double bound) {
                         ++asked;
                         return count_above(A, B, bound);
                       }};
  const Eigenpairs proven = largest_eigenpairs(A, B, nodes(large), 4, {}, own);
  CHECK(proven.complete);
  CHECK(asked > 0);
  const Eigenpairs likely = largest_eigenpairs(A, B, nodes(large), 4, {}, {false, {}});
  CHECK(!likely.complete);
  REQUIRE(likely.values.size() == proven.values.size());
  for (size_t k = 0; k < likely.values.size(); ++k) {
    CHECK_THAT(likely.values[k], WithinRel(proven.values[k], 1e-4));
  }
}

}  // namespace tubewright::eigenpairs_test
