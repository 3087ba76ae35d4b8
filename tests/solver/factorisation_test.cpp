// The sparse factorisation against Eigen's dense LDLT, by both methods, sound and unsound.
#include "solver/factorisation.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <limits>
#include <random>

#include "solver/assembly.h"
#include "solver/node_ordering.h"
#include "solver/section_shapes.h"
#include "tests/catch.h"

using namespace tubewright;

namespace {

std::vector<FactorisationMethod> methods() {
  std::vector<FactorisationMethod> m = {FactorisationMethod::automatic, FactorisationMethod::simplicial};
  if (supernodal_available()) m.push_back(FactorisationMethod::supernodal);
  return m;
}

struct BlockMatrix {
  SparseMatrix lower;
  std::vector<int> node_of;
};

/// Random symmetric positive definite: nodes of one to six unknowns, random pairs joined by B B'.
BlockMatrix random_matrix(int nodes, double joined, unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> u(-1, 1);
  BlockMatrix b;
  std::vector<int> first = {0};
  for (int n = 0; n < nodes; ++n) {
    const int unknowns = 1 + static_cast<int>(random() % 6);
    for (int i = 0; i < unknowns; ++i) b.node_of.push_back(n);
    first.push_back(first.back() + unknowns);
  }
  Eigen::MatrixXd K = 0.1 * Eigen::MatrixXd::Identity(first.back(), first.back());
  for (int m = 0; m < nodes; ++m) {
    for (int n = m + 1; n < nodes; ++n) {
      if (u(random) > 2 * joined - 1) continue;
      std::vector<int> rows;
      for (int i = first[m]; i < first[m + 1]; ++i) rows.push_back(i);
      for (int i = first[n]; i < first[n + 1]; ++i) rows.push_back(i);
      const Eigen::MatrixXd B = Eigen::MatrixXd::NullaryExpr(
          static_cast<Eigen::Index>(rows.size()), 3, [&](Eigen::Index, Eigen::Index) { return u(random); });
      K(rows, rows) += B * B.transpose();
    }
  }
  b.lower = K.triangularView<Eigen::Lower>().toDenseMatrix().sparseView();
  return b;
}

Eigen::MatrixXd dense(const SparseMatrix& lower) {
  return Eigen::MatrixXd(lower).selfadjointView<Eigen::Lower>();
}

/// A chain of steel tubes along x, free or with its start held.
BlockMatrix chain(int pieces, bool held) {
  Model m;
  m.sections.push_back(hollow_rectangle(0.025, 0.025, 0.002, cold_formed_corners(0.002), 0.3));
  m.materials.push_back({210e9, 81e9, 7850, 235e6, 360e6});
  for (int i = 0; i <= pieces; ++i) {
    m.nodes.emplace_back(2.0 * i / pieces, 0, 0);
    if (i > 0) m.beams.push_back({i - 1, i, 0, 0, 0, welded, welded});
  }
  if (held) m.supports.push_back({0, {true, true, true, true, true, true}});
  const FreeUnknowns free = number_free_unknowns(m);
  return {assemble_stiffness(m, free, {}), free.node_of};
}

}  // namespace

TEST_CASE("every method solves what the dense LDLT solves") {
  for (unsigned seed = 1; seed <= 8; ++seed) {
    const BlockMatrix b = random_matrix(5 + 7 * static_cast<int>(seed), 0.15, seed);
    const Eigen::MatrixXd F = Eigen::MatrixXd::Random(b.lower.rows(), 3);
    const Eigen::MatrixXd expected = dense(b.lower).ldlt().solve(F);
    for (const FactorisationMethod method : methods()) {
      const Factorisation K(b.lower, b.node_of, method);
      REQUIRE(K.positive_definite());
      CHECK((K.solve(F) - expected).norm() < 1e-10 * expected.norm());
      CHECK(K.pivot_ratios().minCoeff() > 0);
      CHECK(K.pivot_ratios().maxCoeff() <= 1 + 1e-12);
    }
  }
}

TEST_CASE("the product of the pivots is the determinant") {
  const BlockMatrix b = random_matrix(12, 0.3, 3);
  const double expected = dense(b.lower).ldlt().vectorD().array().log().sum();
  for (const FactorisationMethod method : methods()) {
    const Factorisation K(b.lower, b.node_of, method);
    const Eigen::VectorXd diagonal = dense(b.lower).diagonal();
    CHECK_THAT((K.pivot_ratios().array() * diagonal.array()).log().sum(), WithinRel(expected, 1e-10));
  }
}

TEST_CASE("pivot ratios tell a held chain from a free one at every refinement") {
  for (const int pieces : {4, 64, 1024}) {
    const BlockMatrix sound = chain(pieces, true), loose = chain(pieces, false);
    for (const FactorisationMethod method : methods()) {
      const Factorisation K(sound.lower, sound.node_of, method);
      REQUIRE(K.positive_definite());
      CHECK(K.pivot_ratios().minCoeff() > 1e-6);
      const Factorisation L(loose.lower, loose.node_of, method);
      CHECK((!L.positive_definite() || L.pivot_ratios().minCoeff() < 1e-11));
    }
  }
}

TEST_CASE("separate pieces, single unknowns and nothing at all are factorised") {
  BlockMatrix two = random_matrix(6, 0.0, 1);  // no node joined to any other
  for (const FactorisationMethod method : methods()) {
    const Factorisation K(two.lower, two.node_of, method);
    const Eigen::VectorXd f = Eigen::VectorXd::Ones(two.lower.rows());
    CHECK((0.1 * K.solve(f) - f).norm() < 1e-12);

    SparseMatrix one(1, 1);
    one.insert(0, 0) = 4;
    CHECK(Factorisation(one, {7}, method).solve(Eigen::VectorXd::Ones(1))(0, 0) == 0.25);
    CHECK(Factorisation(SparseMatrix(0, 0), {}, method).positive_definite());
  }
}

TEST_CASE("zero, negative and non-finite matrices are refused without a crash") {
  const BlockMatrix b = random_matrix(8, 0.5, 2);
  for (const FactorisationMethod method : methods()) {
    for (const double bad : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN(),
                             std::numeric_limits<double>::infinity()}) {
      SparseMatrix K = b.lower;
      K.coeffRef(5, 5) = bad;
      CHECK_FALSE(Factorisation(K, b.node_of, method).positive_definite());
    }
    const SparseMatrix zero = 0.0 * b.lower;
    CHECK_FALSE(Factorisation(zero, b.node_of, method).positive_definite());
  }
}

TEST_CASE("a node order is a permutation whose predicted entries are those of the factor") {
  const BlockMatrix b = random_matrix(30, 0.1, 5);
  const NodeGraph graph = node_graph(b.lower, b.node_of);
  const NodeOrder order = minimum_degree_order(graph);
  std::vector<int> sorted = order.nodes;
  std::sort(sorted.begin(), sorted.end());
  for (int i = 0; i < graph.size(); ++i) REQUIRE(sorted[i] == i);

  // Count the factor's entries by eliminating node blocks in a dense pattern.
  const std::vector<int> unknowns = unknown_order(graph, order.nodes);
  const Eigen::Index n = b.lower.rows();
  Eigen::MatrixXi pattern = Eigen::MatrixXi::Zero(n, n);
  const auto joined = [&](int i, int j) {
    if (b.node_of[i] == b.node_of[j]) return true;
    const int a = b.node_of[i], c = b.node_of[j];
    return std::find(graph.neighbours.begin() + graph.start[a],
                     graph.neighbours.begin() + graph.start[a + 1], c) !=
           graph.neighbours.begin() + graph.start[a + 1];
  };
  for (Eigen::Index j = 0; j < n; ++j) {
    for (Eigen::Index i = j; i < n; ++i) pattern(i, j) = joined(unknowns[i], unknowns[j]);
  }
  for (Eigen::Index k = 0; k < n; ++k) {
    for (Eigen::Index i = k + 1; i < n; ++i) {
      for (Eigen::Index j = k + 1; pattern(i, k) != 0 && j <= i; ++j) pattern(i, j) |= pattern(j, k);
    }
  }
  CHECK(order.work.entries == pattern.sum());
}
