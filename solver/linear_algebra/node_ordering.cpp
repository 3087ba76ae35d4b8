#include "solver/linear_algebra/node_ordering.h"

#include <Eigen/OrderingMethods>
#include <algorithm>
#include <cassert>
#include <numeric>

namespace tubewright {
namespace {

/// Parent of each position in the elimination tree (-1 at a root), and how many DOFs the
/// factor's column of a position has below its own.
struct EliminationTree {
  std::vector<int> parent;
  std::vector<double> below;
};

std::vector<int> inverse(const std::vector<int>& order) {
  std::vector<int> position(order.size());
  for (int k = 0; k < static_cast<int>(order.size()); ++k) position[order[k]] = k;
  return position;
}

/// Row k of the factor is the part of the tree that is reached by climbing from the earlier
/// neighbours of k towards k (Liu 1990, section 3).
EliminationTree elimination_tree(const NodeGraph& graph, const std::vector<int>& nodes) {
  const int n = graph.size();
  const std::vector<int> position = inverse(nodes);
  EliminationTree tree{std::vector<int>(n, -1), std::vector<double>(n, 0.0)};
  std::vector<int> reached(n, -1);
  for (int k = 0; k < n; ++k) {
    const int node = nodes[k];
    const int weight = graph.unknowns(node);
    reached[k] = k;
    for (int e = graph.start[node]; e < graph.start[node + 1]; ++e) {
      int i = position[graph.neighbours[e]];
      if (i >= k) continue;
      for (; reached[i] != k; i = tree.parent[i]) {
        if (tree.parent[i] < 0) tree.parent[i] = k;
        tree.below[i] += weight;
        reached[i] = k;
      }
    }
  }
  return tree;
}

PredictedWork predicted_work(const NodeGraph& graph, const std::vector<int>& nodes,
                             const EliminationTree& tree) {
  PredictedWork work;
  for (int k = 0; k < graph.size(); ++k) {
    for (int own = graph.unknowns(nodes[k]); own > 0; --own) {
      const double column = own + tree.below[k];
      work.entries += column;
      work.operations += column * column;
    }
  }
  return work;
}

/// Positions of the tree, children before parents, every subtree contiguous.
std::vector<int> postorder(const std::vector<int>& parent) {
  const int n = static_cast<int>(parent.size());
  std::vector<int> first_child(n, -1), next_sibling(n, -1), order, stack;
  for (int k = n - 1; k >= 0; --k) {
    if (parent[k] < 0) continue;
    next_sibling[k] = first_child[parent[k]];
    first_child[parent[k]] = k;
  }
  order.reserve(n);
  for (int root = 0; root < n; ++root) {
    if (parent[root] >= 0) continue;
    stack.push_back(root);
    while (!stack.empty()) {
      const int k = stack.back();
      if (first_child[k] >= 0) {
        stack.push_back(first_child[k]);
        first_child[k] = next_sibling[first_child[k]];
      } else {
        order.push_back(k);
        stack.pop_back();
      }
    }
  }
  return order;
}

/// Appends the part of the graph that `root` lies in, nearest nodes first, to `found`.
void append_by_distance(const NodeGraph& graph, int root, std::vector<int>& mark, int visit,
                        std::vector<int>& found) {
  std::size_t next = found.size();
  found.push_back(root);
  mark[root] = visit;
  for (; next < found.size(); ++next) {
    const int node = found[next];
    for (int e = graph.start[node]; e < graph.start[node + 1]; ++e) {
      const int other = graph.neighbours[e];
      if (mark[other] == visit) continue;
      mark[other] = visit;
      found.push_back(other);
    }
  }
}

}  // namespace

NodeGraph node_graph(const SparseMatrix& lower, const std::vector<int>& node_of) {
  assert(lower.rows() == lower.cols() && lower.rows() == static_cast<int>(node_of.size()));
  const int n = static_cast<int>(node_of.size());
  NodeGraph graph;
  std::vector<int> node_at(n);
  for (int i = 0; i < n; ++i) {
    if (i == 0 || node_of[i] != node_of[i - 1]) graph.first_unknown.push_back(i);
    node_at[i] = static_cast<int>(graph.first_unknown.size()) - 1;
  }
  graph.first_unknown.push_back(n);

  const int nodes = graph.size();
  std::vector<int> later, later_start{0}, seen(nodes, -1);
  later.reserve(static_cast<std::size_t>(nodes) * 4);
  graph.start.assign(nodes + 1, 0);
  for (int node = 0; node < nodes; ++node) {
    seen[node] = node;
    for (int j = graph.first_unknown[node]; j < graph.first_unknown[node + 1]; ++j) {
      for (SparseMatrix::InnerIterator entry(lower, j); entry; ++entry) {
        const int other = node_at[entry.index()];
        if (seen[other] == node) continue;
        seen[other] = node;
        later.push_back(other);
        ++graph.start[node + 1];
        ++graph.start[other + 1];
      }
    }
    later_start.push_back(static_cast<int>(later.size()));
  }

  std::partial_sum(graph.start.begin(), graph.start.end(), graph.start.begin());
  graph.neighbours.resize(2 * later.size());
  std::vector<int> next(graph.start.begin(), graph.start.end() - 1);
  for (int node = 0; node < nodes; ++node) {
    for (int e = later_start[node]; e < later_start[node + 1]; ++e) {
      graph.neighbours[next[node]++] = later[e];
      graph.neighbours[next[later[e]]++] = node;
    }
  }
  return graph;
}

NodeOrder postordered(const NodeGraph& graph, const std::vector<int>& nodes) {
  const EliminationTree tree = elimination_tree(graph, nodes);
  NodeOrder result{postorder(tree.parent), predicted_work(graph, nodes, tree)};
  for (int& position : result.nodes) position = nodes[position];
  return result;
}

NodeOrder minimum_degree_order(const NodeGraph& graph) {
  const int n = graph.size();
  if (n < 3) {  // nothing to choose, and less than the library's ordering takes
    std::vector<int> nodes(n);
    std::iota(nodes.begin(), nodes.end(), 0);
    return postordered(graph, nodes);
  }
  Eigen::SparseMatrix<signed char> pattern(n, n);
  pattern.resizeNonZeros(static_cast<Eigen::Index>(graph.neighbours.size()) + n);
  int* entry = pattern.innerIndexPtr();
  for (int node = 0; node < n; ++node) {
    pattern.outerIndexPtr()[node] = graph.start[node] + node;
    *entry++ = node;  // a row without its diagonal entry would be put last, unordered
    entry = std::copy(graph.neighbours.begin() + graph.start[node],
                      graph.neighbours.begin() + graph.start[node + 1], entry);
  }
  pattern.outerIndexPtr()[n] = graph.start[n] + n;
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> elimination;
  Eigen::internal::minimum_degree_ordering(pattern, elimination);
  const int* indices = elimination.indices().data();
  return postordered(graph, std::vector<int>(indices, indices + n));
}

std::vector<int> breadth_first_numbering(const NodeGraph& graph) {
  constexpr int unseen = 0, scouted = 1, numbered = 2;
  const int n = graph.size();
  std::vector<int> mark(n, unseen), numbering, scouts;
  numbering.reserve(n);
  for (int node = 0; node < n; ++node) {
    if (mark[node] != unseen) continue;
    scouts.clear();
    append_by_distance(graph, node, mark, scouted, scouts);
    append_by_distance(graph, scouts.back(), mark, numbered, numbering);
  }
  return numbering;
}

NodeGraph renumbered(const NodeGraph& graph, const std::vector<int>& numbering) {
  const std::vector<int> position = inverse(numbering);
  NodeGraph result{{0}, {0}, {}};
  result.first_unknown.reserve(graph.first_unknown.size());
  result.start.reserve(graph.start.size());
  result.neighbours.reserve(graph.neighbours.size());
  for (const int node : numbering) {
    for (int e = graph.start[node]; e < graph.start[node + 1]; ++e) {
      result.neighbours.push_back(position[graph.neighbours[e]]);
    }
    result.start.push_back(static_cast<int>(result.neighbours.size()));
    result.first_unknown.push_back(result.first_unknown.back() + graph.unknowns(node));
  }
  return result;
}

std::vector<int> unknown_order(const NodeGraph& graph, const std::vector<int>& nodes) {
  std::vector<int> order;
  order.reserve(graph.first_unknown.back());
  for (const int node : nodes) {
    for (int i = graph.first_unknown[node]; i < graph.first_unknown[node + 1]; ++i) {
      order.push_back(i);
    }
  }
  return order;
}

}  // namespace tubewright
