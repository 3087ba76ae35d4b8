#include "solver/nested_dissection.h"

#include "solver/cholmod_workspace.h"

namespace tubewright {

std::optional<NodeOrder> nested_dissection_order(const NodeGraph& graph) {
  const int n = graph.size();
  std::vector<int> start(n + 1, 0), rows;
  rows.reserve(graph.neighbours.size() / 2);
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
  if (!cholmod_metis(&pattern, nullptr, 0, 0, nodes.data(), &workspace.common)) return {};
  return postordered(graph, nodes);
}

}  // namespace tubewright
