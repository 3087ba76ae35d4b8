#include "solver/linear_algebra/cholmod_orders.h"

#include "solver/linear_algebra/cholmod_workspace.h"

namespace tubewright {

namespace {

/// `order(pattern, nodes, common)` fills `nodes` and returns whether it could.
template <typename Order>
std::optional<NodeOrder> order_by(const NodeGraph& graph, Order order) {
  const int n = graph.size();
  std::vector<int> start(n + 1, 0), rows;
  rows.reserve(graph.neighbours.size() / 2 + 1);
  for (int node = 0; node < n; ++node) {
    for (int e = graph.start[node]; e < graph.start[node + 1]; ++e) {
      if (graph.neighbours[e] > node) rows.push_back(graph.neighbours[e]);
    }
    start[node + 1] = static_cast<int>(rows.size());
  }
  rows.push_back(0);  // never read: keeps the pointer valid where no node has a neighbour
  CholmodWorkspace workspace;
  const SingleThreaded single;
  cholmod_sparse pattern = lower_view(n, start.data(), rows.data(), nullptr);
  std::vector<int> nodes(n);
  if (!order(&pattern, nodes.data(), &workspace.common)) return {};
  return postordered(graph, nodes);
}

}  // namespace

std::optional<NodeOrder> cholmod_minimum_degree_order(const NodeGraph& graph) {
  return order_by(graph, [](cholmod_sparse* pattern, int* nodes, cholmod_common* common) {
    return cholmod_amd(pattern, nullptr, 0, nodes, common) != 0;
  });
}

std::optional<NodeOrder> coarse_dissection_order(const NodeGraph& graph) {
  std::vector<int> parents(graph.size()), members(graph.size());
  return order_by(graph, [&](cholmod_sparse* pattern, int* nodes, cholmod_common* common) {
    return cholmod_nested_dissection(pattern, nullptr, 0, nodes, parents.data(), members.data(),
                                     common) >= 0;
  });
}

std::optional<NodeOrder> multilevel_dissection_order(const NodeGraph& graph) {
  return order_by(graph, [](cholmod_sparse* pattern, int* nodes, cholmod_common* common) {
    return cholmod_metis(pattern, nullptr, 0, 0, nodes, common) != 0;
  });
}

}  // namespace tubewright
