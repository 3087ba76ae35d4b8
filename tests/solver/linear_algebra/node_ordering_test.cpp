#include "solver/linear_algebra/node_ordering.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <numeric>
#include <random>

#include "solver/linear_algebra/least_work_order.h"
#include "solver/linear_algebra/permuted_matrix.h"
#include "tests/catch.h"
#include "tests/solver/linear_algebra/random_frame_matrix.h"

namespace tubewright::node_ordering_test {

namespace {

bool is_permutation_of_all(std::vector<int> order, int n) {
  std::sort(order.begin(), order.end());
  std::vector<int> all(n);
  std::iota(all.begin(), all.end(), 0);
  return order == all;
}

/// Entries of the factor as Eigen's own symbolic analysis counts them, diagonal included.
double entries_of_factor(const SparseMatrix& K, const std::vector<int>& order) {
  const SparseMatrix upper = permuted_upper(K, order);
  Eigen::SimplicialLDLT<SparseMatrix, Eigen::Upper, Eigen::NaturalOrdering<int>> factor(upper);
  return static_cast<double>(factor.matrixL().nestedExpression().nonZeros() + K.cols());
}

}  // namespace

TEST_CASE("nodes of one to six unknowns are told apart by their unknowns") {
  const FrameMatrix m = random_frame_matrix({1, 6, 3, 2, 4, 5}, {{0, 1}, {1, 2}, {4, 5}});
  const NodeGraph graph = node_graph(m.lower, m.node_of);
  REQUIRE(graph.size() == 6);
  for (int node = 0; node < 6; ++node) {
    CHECK(graph.unknowns(node) == std::vector<int>({1, 6, 3, 2, 4, 5})[node]);
  }
  CHECK(graph.start == std::vector<int>{0, 1, 3, 4, 4, 5, 6});
  CHECK(graph.neighbours == std::vector<int>{1, 0, 2, 1, 5, 4});
}

TEST_CASE("every order is a permutation with the nodes' unknowns side by side") {
  for (const auto& [bays_x, bays_y, bays_z] :
       std::vector<std::array<int, 3>>{{0, 0, 0}, {1, 0, 0}, {2, 0, 0}, {9, 1, 0}, {7, 5, 3}}) {
    const FrameMatrix m = random_lattice_matrix(bays_x, bays_y, bays_z);
    const NodeGraph graph = node_graph(m.lower, m.node_of);
    const int n = graph.size();
    const NodeOrder degree = minimum_degree_order(graph);
    const NodeOrder least = least_work_order(graph, degree);
    CHECK(is_permutation_of_all(degree.nodes, n));
    CHECK(is_permutation_of_all(least.nodes, n));
    CHECK(is_permutation_of_all(breadth_first_numbering(graph), n));
    const std::vector<int> unknowns = unknown_order(graph, least.nodes);
    CHECK(is_permutation_of_all(unknowns, static_cast<int>(m.node_of.size())));
    for (std::size_t k = 1; k < unknowns.size(); ++k) {
      if (m.node_of[unknowns[k]] == m.node_of[unknowns[k - 1]]) {
        CHECK(unknowns[k] == unknowns[k - 1] + 1);
      }
    }
  }
}

TEST_CASE("the predicted entries are those that Eigen's symbolic analysis counts") {
  for (const auto& [x, y, z] : std::vector<std::array<int, 3>>{{12, 1, 0}, {6, 2, 2}, {4, 4, 4}}) {
    const FrameMatrix m = random_lattice_matrix(x, y, z);
    const NodeGraph graph = node_graph(m.lower, m.node_of);
    const NodeOrder degree = minimum_degree_order(graph);
    CHECK(degree.work.entries == entries_of_factor(m.lower, unknown_order(graph, degree.nodes)));
    const NodeOrder least = least_work_order(graph, degree);
    CHECK(least.work.entries == entries_of_factor(m.lower, unknown_order(graph, least.nodes)));
    CHECK(least.work.operations <= degree.work.operations);
  }
}

TEST_CASE(
    "a dense block of n unknowns takes n (n + 1) / 2 entries and n (n + 1)(2 n + 1) / 6 "
    "operations") {
  // Golub and Van Loan, Matrix Computations, section 4.2: Cholesky takes about n^3 / 3 operations.
  const FrameMatrix m = random_frame_matrix({4, 3}, {{0, 1}});
  const NodeOrder order = minimum_degree_order(node_graph(m.lower, m.node_of));
  CHECK(order.work.entries == 28);
  CHECK(order.work.operations == 140);
}

TEST_CASE("minimum degree fills a chain of nodes no more than the chain itself") {
  // A tree is eliminated from its leaves without fill: J. W. H. Liu (1990), section 2.
  std::vector<std::array<int, 2>> members;
  std::vector<int> shuffled(200);
  std::iota(shuffled.begin(), shuffled.end(), 0);
  std::mt19937 random(7);
  for (int k = 199; k > 0; --k) std::swap(shuffled[k], shuffled[random() % (k + 1)]);
  for (int k = 1; k < 200; ++k) members.push_back({shuffled[k - 1], shuffled[k]});
  const FrameMatrix m = random_frame_matrix(std::vector<int>(200, 6), members);
  const NodeOrder order = minimum_degree_order(node_graph(m.lower, m.node_of));
  CHECK(order.work.entries == m.lower.nonZeros());
}

TEST_CASE("the order found for a frame is the same at every call") {
  const FrameMatrix m = random_lattice_matrix(10, 8, 6);
  const NodeGraph graph = node_graph(m.lower, m.node_of);
  const NodeOrder first = least_work_order(graph, minimum_degree_order(graph));
  const NodeOrder second = least_work_order(graph, minimum_degree_order(graph));
  CHECK(first.nodes == second.nodes);
}

TEST_CASE("a permuted triangle holds the same symmetric matrix") {
  const FrameMatrix m = random_lattice_matrix(3, 2, 1);
  std::vector<int> order(m.node_of.size());
  std::iota(order.rbegin(), order.rend(), 0);
  const Eigen::MatrixXd K = SparseMatrix(m.lower.selfadjointView<Eigen::Lower>());
  const Eigen::MatrixXd expected = K(order, order);
  const SparseMatrix upper = permuted_upper(m.lower, order);
  const SparseMatrix lower = permuted_lower(m.lower, order);
  CHECK(Eigen::MatrixXd(upper).isUpperTriangular());
  CHECK(Eigen::MatrixXd(lower).isLowerTriangular());
  CHECK(Eigen::MatrixXd(SparseMatrix(upper.selfadjointView<Eigen::Upper>())) == expected);
  CHECK(Eigen::MatrixXd(SparseMatrix(lower.selfadjointView<Eigen::Lower>())) == expected);
}

}  // namespace tubewright::node_ordering_test
