// The order found for elimination against elimination itself, played on the graph with sets:
// eliminating a node joins all its neighbours to each other (D. J. Rose 1972, from memory).
#include "solver/linear_algebra/least_work_order.h"

#include <numeric>
#include <set>

#include "tests/catch.h"
#include "tests/solver/linear_algebra/random_frame_matrix.h"

namespace tubewright::least_work_order_test {

namespace {

/// Column j of the factor has the unknowns of its own node from j on and those of every neighbour
/// left at that time.
PredictedWork played(const NodeGraph& graph, const std::vector<int>& order) {
  std::vector<std::set<int>> neighbours(graph.size());
  for (int node = 0; node < graph.size(); ++node) {
    for (int e = graph.start[node]; e < graph.start[node + 1]; ++e) {
      neighbours[node].insert(graph.neighbours[e]);
    }
  }
  PredictedWork work;
  for (const int node : order) {
    int below = 0;
    for (const int other : neighbours[node]) below += graph.unknowns(other);
    for (int own = graph.unknowns(node); own > 0; --own) {
      const double length = own + below;
      work.entries += length;
      work.operations += length * length;
    }
    for (const int a : neighbours[node]) {
      neighbours[a].erase(node);
      for (const int b : neighbours[node]) {
        if (a != b) neighbours[a].insert(b);
      }
    }
  }
  return work;
}

NodeGraph lattice(int x, int y, int z) {
  const FrameMatrix m = random_lattice_matrix(x, y, z);
  return node_graph(m.lower, m.node_of);
}

}  // namespace

TEST_CASE(
    "the work predicted for the least order is what elimination takes, and no more than "
    "minimum degree takes") {
  for (const auto& [x, y, z] :
       std::vector<std::array<int, 3>>{{30, 1, 0}, {12, 12, 0}, {6, 5, 4}, {9, 8, 3}}) {
    const NodeGraph graph = lattice(x, y, z);
    const NodeOrder known = minimum_degree_order(graph);
    const NodeOrder least = least_work_order(graph, known);
    const PredictedWork work = played(graph, least.nodes);
    CHECK(least.work.operations == work.operations);
    CHECK(least.work.entries == work.entries);
    CHECK(least.work.operations <= played(graph, known.nodes).operations);
  }
}

// A hub with spokes is a tree: leaves first fills nothing, the hub first fills everything,
// n (n + 1)/2 entries of n unknowns.
TEST_CASE("an order that fills everything is given up for one that fills nothing") {
  constexpr int spokes = 200;
  std::vector<std::array<int, 2>> members;
  for (int k = 1; k <= spokes; ++k) members.push_back({0, k});
  const FrameMatrix m = random_frame_matrix(std::vector<int>(spokes + 1, 6), members);
  const NodeGraph graph = node_graph(m.lower, m.node_of);
  std::vector<int> hub_first(spokes + 1);
  std::iota(hub_first.begin(), hub_first.end(), 0);
  const NodeOrder worst = postordered(graph, hub_first);
  const double n = 6 * (spokes + 1);
  REQUIRE(worst.work.entries == n * (n + 1) / 2);
  const NodeOrder least = least_work_order(graph, worst);
  CHECK(least.work.entries == static_cast<double>(m.lower.nonZeros()));
}

TEST_CASE("a small frame keeps the order it came with") {
  // The search may spend a tenth of the work at most: there is not that much to save.
  const NodeGraph graph = lattice(3, 1, 0);
  const NodeOrder known = minimum_degree_order(graph);
  CHECK(least_work_order(graph, known).nodes == known.nodes);
}

}  // namespace tubewright::least_work_order_test
