// Elimination orders from CHOLMOD against the laws of elimination on a square grid of k by k nodes:
// row by row it takes about k^4 operations, by nested dissection about k^3 (A. George, SIAM J.
// Numer. Anal. 10 (1973) 345). Compiled only where CHOLMOD was found.
#include "solver/linear_algebra/cholmod_orders.h"

#include <algorithm>
#include <numeric>

#include "tests/catch.h"
#include "tests/solver/linear_algebra/random_frame_matrix.h"

namespace tubewright::cholmod_orders_test {

namespace {

using Order = std::optional<NodeOrder> (*)(const NodeGraph&);
constexpr Order all_orders[] = {cholmod_minimum_degree_order, coarse_dissection_order,
                                multilevel_dissection_order};

std::vector<int> numbered(int n) {
  std::vector<int> nodes(n);
  std::iota(nodes.begin(), nodes.end(), 0);
  return nodes;
}

/// k by k nodes of one unknown, each joined to those beside it.
NodeGraph grid(int k) {
  NodeGraph graph;
  graph.first_unknown = numbered(k * k + 1);
  graph.start = {0};
  for (int i = 0; i < k; ++i) {
    for (int j = 0; j < k; ++j) {
      if (i > 0) graph.neighbours.push_back((i - 1) * k + j);
      if (j > 0) graph.neighbours.push_back(i * k + j - 1);
      if (j + 1 < k) graph.neighbours.push_back(i * k + j + 1);
      if (i + 1 < k) graph.neighbours.push_back((i + 1) * k + j);
      graph.start.push_back(static_cast<int>(graph.neighbours.size()));
    }
  }
  return graph;
}

}  // namespace

TEST_CASE("every order from outside holds each node once and knows its own work") {
  const FrameMatrix lattice = random_lattice_matrix(7, 5, 3);
  const FrameMatrix alone = random_frame_matrix({6, 3, 1}, {});
  for (const FrameMatrix& m : {lattice, alone}) {
    const NodeGraph graph = node_graph(m.lower, m.node_of);
    for (const Order order : all_orders) {
      const std::optional<NodeOrder> found = order(graph);
      REQUIRE(found);
      std::vector<int> sorted = found->nodes;
      std::sort(sorted.begin(), sorted.end());
      CHECK(sorted == numbered(graph.size()));
      const NodeOrder again = postordered(graph, found->nodes);
      CHECK(again.work.operations == found->work.operations);
      CHECK(again.nodes == found->nodes);  // it is a postorder as it stands
    }
  }
}

TEST_CASE("a grid takes far less work than row by row, and the more so the wider it is") {
  const NodeGraph coarse = grid(32), fine = grid(64);
  const double by_rows = postordered(fine, numbered(64 * 64)).work.operations;
  CHECK_THAT(by_rows, WithinRel(64.0 * 64 * 65 * 65, 0.05));  // k^2 columns of k + 1 entries
  for (const Order order : all_orders) {
    const double of_coarse = order(coarse)->work.operations;
    const double of_fine = order(fine)->work.operations;
    CHECK(of_fine < by_rows / 5);
    CHECK(of_fine / of_coarse < 12);  // k^3 grows to 8 times, k^4 to 16 times
  }
}

TEST_CASE("a tree is ordered without fill by minimum degree") {
  // Leaves first: J. W. H. Liu (1990), section 2.
  std::vector<std::array<int, 2>> members;
  for (int node = 1; node < 127; ++node) members.push_back({(node - 1) / 2, node});
  const FrameMatrix m = random_frame_matrix(std::vector<int>(127, 3), members);
  const NodeGraph graph = node_graph(m.lower, m.node_of);
  CHECK(cholmod_minimum_degree_order(graph)->work.entries ==
        static_cast<double>(m.lower.nonZeros()));
}

TEST_CASE("the same graph is ordered the same way at every call") {
  const NodeGraph graph = grid(30);
  for (const Order order : all_orders) CHECK(order(graph)->nodes == order(graph)->nodes);
}

}  // namespace tubewright::cholmod_orders_test
