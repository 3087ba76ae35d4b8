#include "solver/linear_algebra/factorisation.h"

#include <Eigen/Dense>
#include <limits>

#include "tests/catch.h"
#include "tests/solver/linear_algebra/random_frame_matrix.h"

namespace tubewright::factorisation_test {

namespace {

std::vector<FactorisationMethod> methods() {
  std::vector<FactorisationMethod> all = {FactorisationMethod::automatic,
                                          FactorisationMethod::simplicial};
  if (supernodal_available()) all.push_back(FactorisationMethod::supernodal);
  return all;
}

Eigen::MatrixXd full(const SparseMatrix& lower) {
  return SparseMatrix(lower.selfadjointView<Eigen::Lower>());
}

/// Right-hand sides with nothing special about them.
Eigen::MatrixXd loads(Eigen::Index n, Eigen::Index cases) {
  return Eigen::MatrixXd::NullaryExpr(n, cases, [](Eigen::Index i, Eigen::Index j) {
    return std::sin(1.0 + static_cast<double>(3 * i + 7 * j));
  });
}

void check_against_dense(const FrameMatrix& m) {
  const Eigen::MatrixXd K = full(m.lower);
  const Eigen::MatrixXd F = loads(K.rows(), 3);
  const Eigen::MatrixXd expected = K.ldlt().solve(F);
  for (const FactorisationMethod method : methods()) {
    const Factorisation factor(m.lower, m.node_of, method);
    CHECK((method == FactorisationMethod::automatic || factor.method() == method));
    REQUIRE(factor.positive_definite());
    CHECK((factor.solve(F) - expected).norm() <= 1e-10 * expected.norm());
    // K = G G': the roots one after the other solve, and each has the length that K^-1 gives it.
    const Eigen::VectorXd f = F.col(0), root = factor.solve_root(f);
    CHECK((factor.solve_root_transposed(root) - expected.col(0)).norm() <=
          1e-10 * expected.col(0).norm());
    CHECK_THAT(root.squaredNorm(), WithinRel(f.dot(expected.col(0)), 1e-10));
    // The last pivot of an elimination is 1 / (K^-1)_ii of its unknown, and no pivot is less.
    const Eigen::MatrixXd inverse = K.inverse();
    double least_margin = 1;
    for (Eigen::Index i = 0; i < K.rows(); ++i) {
      const double at_least = 1 / (inverse(i, i) * K(i, i));
      CHECK(factor.pivot_ratios()[i] <= 1 + 1e-12);
      CHECK(factor.pivot_ratios()[i] >= at_least * (1 - 1e-10));
      least_margin = std::min(least_margin, factor.pivot_ratios()[i] / at_least - 1);
    }
    CHECK(std::abs(least_margin) < 1e-9);
  }
}

/// Plane beam elements along x with DOFs w and theta; the textbook 4 by 4 stiffness
/// (Przemieniecki, Theory of Matrix Structural Analysis, 1968, eq. 5.116 with no shear). The first
/// node is left out where it is held.
FrameMatrix beam_chain(int elements, bool held) {
  const double L = 3.0 / elements, EI = 1234.5;
  Eigen::Matrix4d k;
  k << 12, 6 * L, -12, 6 * L,               //
      6 * L, 4 * L * L, -6 * L, 2 * L * L,  //
      -12, -6 * L, 12, -6 * L,              //
      6 * L, 2 * L * L, -6 * L, 4 * L * L;
  k *= EI / (L * L * L);
  const int left_out = held ? 2 : 0;
  const int n = 2 * (elements + 1) - left_out;
  std::vector<Eigen::Triplet<double>> entries;
  for (int e = 0; e < elements; ++e) {
    for (int i = 0; i < 4; ++i) {
      for (int j = 0; j <= i; ++j) {
        const int row = 2 * e + i - left_out, column = 2 * e + j - left_out;
        if (column >= 0) entries.emplace_back(row, column, k(i, j));
      }
    }
  }
  FrameMatrix m;
  m.lower.resize(n, n);
  m.lower.setFromTriplets(entries.begin(), entries.end());
  for (int i = 0; i < n; ++i) m.node_of.push_back(i / 2);
  return m;
}

FrameMatrix one_by_one(double value) {
  FrameMatrix m;
  m.lower.resize(1, 1);
  m.lower.insert(0, 0) = value;
  m.lower.makeCompressed();
  m.node_of = {4};
  return m;
}

}  // namespace

TEST_CASE("both methods solve like a dense LDLT, on chains, grids and lattices") {
  check_against_dense(random_lattice_matrix(1, 0, 0));
  check_against_dense(random_lattice_matrix(15, 1, 0));
  check_against_dense(random_lattice_matrix(5, 4, 0));
  check_against_dense(random_lattice_matrix(4, 3, 2));
}

TEST_CASE("nodes of one to six unknowns and members that meet anywhere solve like a dense LDLT") {
  check_against_dense(random_frame_matrix(
      {1, 6, 3, 2, 4, 5, 6, 1}, {{0, 7}, {1, 6}, {2, 5}, {3, 4}, {0, 1}, {7, 2}, {6, 3}, {5, 0}}));
}

TEST_CASE("a frame in several parts solves like a dense LDLT") {
  check_against_dense(random_frame_matrix({6, 6, 6, 6, 6, 2, 1},
                                          {{0, 4}, {1, 3}}));  // and three nodes on their own
}

TEST_CASE("one unknown is a division") {
  const FrameMatrix m = one_by_one(8);
  for (const FactorisationMethod method : methods()) {
    const Factorisation factor(m.lower, m.node_of, method);
    REQUIRE(factor.positive_definite());
    CHECK_THAT(factor.pivot_ratios()[0], WithinRel(1.0, 1e-14));
    CHECK(factor.solve(Eigen::MatrixXd::Constant(1, 2, 4.0))(0, 1) == Approx(0.5));
  }
}

TEST_CASE("no unknowns have an empty solution") {
  for (const FactorisationMethod method : methods()) {
    const Factorisation factor(SparseMatrix(0, 0), {}, method);
    CHECK(factor.positive_definite());
    CHECK(factor.pivot_ratios().size() == 0);
    CHECK(factor.solve(Eigen::MatrixXd(0, 3)).cols() == 3);
  }
}

TEST_CASE("a wide lattice goes to the supernodal method, a ladder does not") {
  const FrameMatrix ladder = random_lattice_matrix(300, 1, 0);
  CHECK(Factorisation(ladder.lower, ladder.node_of).method() == FactorisationMethod::simplicial);
  const FrameMatrix lattice = random_lattice_matrix(9, 8, 7);
  CHECK(
      Factorisation(lattice.lower, lattice.node_of).method() ==
      (supernodal_available() ? FactorisationMethod::supernodal : FactorisationMethod::simplicial));
}

TEST_CASE("a held chain of beams has pivots far above 1e-10 of the diagonal however fine") {
  for (const int elements : {1, 4, 16, 64, 256, 1024, 4096}) {
    const FrameMatrix m = beam_chain(elements, true);
    for (const FactorisationMethod method : methods()) {
      const Factorisation factor(m.lower, m.node_of, method);
      CAPTURE(elements);
      CHECK(factor.positive_definite());
      CHECK(factor.pivot_ratios().minCoeff() > 1e-3);
    }
  }
}

TEST_CASE("a free chain of beams leaves nothing of some pivot") {
  for (const int elements : {1, 4, 16, 64, 256, 1024}) {
    const FrameMatrix m = beam_chain(elements, false);
    for (const FactorisationMethod method : methods()) {
      const Factorisation factor(m.lower, m.node_of, method);
      CAPTURE(elements);
      CHECK(factor.pivot_ratios().minCoeff() < 1e-13);
    }
  }
}

TEST_CASE("a held chain's tip moves P L^3 / 3 E I with either method") {
  const FrameMatrix m = beam_chain(64, true);
  Eigen::VectorXd load = Eigen::VectorXd::Zero(m.lower.cols());
  load[load.size() - 2] = 10;
  for (const FactorisationMethod method : methods()) {
    const Factorisation factor(m.lower, m.node_of, method);
    const Eigen::MatrixXd u = factor.solve(load);
    CHECK_THAT(u(load.size() - 2, 0), WithinRel(10 * 27.0 / (3 * 1234.5), 1e-9));
  }
}

TEST_CASE("an unknown without stiffness is named by its pivot ratio") {
  FrameMatrix m = random_frame_matrix({6, 6, 1}, {{0, 1}});
  m.lower.coeffRef(12, 12) = 0;
  for (const FactorisationMethod method : methods()) {
    const Factorisation factor(m.lower, m.node_of, method);
    CHECK_FALSE(factor.positive_definite());
    CHECK(factor.pivot_ratios()[12] <= 0);
    CHECK(factor.pivot_ratios().allFinite());
  }
}

TEST_CASE("a negative diagonal entry never reads as a sound pivot") {
  for (const FactorisationMethod method : methods()) {
    const FrameMatrix m = one_by_one(-5);
    const Factorisation factor(m.lower, m.node_of, method);
    CHECK_FALSE(factor.positive_definite());
    CHECK(factor.pivot_ratios()[0] <= 0);
  }
}

TEST_CASE(
    "an indefinite matrix is refused and the unknowns eliminated before it keep their ratio") {
  FrameMatrix m = random_frame_matrix({6, 6, 6}, {{0, 1}});
  m.lower.coeffRef(14, 14) = -1;
  for (const FactorisationMethod method : methods()) {
    const Factorisation factor(m.lower, m.node_of, method);
    CHECK_FALSE(factor.positive_definite());
    CHECK(factor.pivot_ratios()[14] <= 0);
    CHECK(factor.pivot_ratios()[12] >= 0);
    CHECK(factor.pivot_ratios().allFinite());
  }
}

TEST_CASE("what is not a number, or too great for one, is never positive definite") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double bad : {nan, infinity, -infinity, 1e308}) {
    for (const auto& [row, column] : std::vector<std::array<int, 2>>{{7, 7}, {9, 2}}) {
      if (bad == 1e308 && row == column) continue;  // a stiff unknown, but a sound one
      FrameMatrix m = random_lattice_matrix(3, 2, 0);
      m.lower.coeffRef(row, column) = bad;
      for (const FactorisationMethod method : methods()) {
        CAPTURE(bad, row, column);
        const Factorisation factor(m.lower, m.node_of, method);
        CHECK_FALSE(factor.positive_definite());
        CHECK(factor.pivot_ratios().allFinite());
      }
    }
  }
}

}  // namespace tubewright::factorisation_test
