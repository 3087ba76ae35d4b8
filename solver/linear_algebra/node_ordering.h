// The order in which the joints of a frame are eliminated, found on the graph of its nodes.
//
// All DOFs of a node have the same neighbours, so ordering nodes instead of DOFs gives the
// same fill for about a thirtieth of the edges. Minimum degree: P. R. Amestoy, T. A. Davis and
// I. S. Duff, SIAM J. Matrix Anal. Appl. 17 (1996) 886. Nested dissection: A. George, SIAM J.
// Numer. Anal. 10 (1973) 345, by the multilevel method of G. Karypis and V. Kumar, SIAM J. Sci.
// Comput. 20 (1998) 359. Elimination tree: J. W. H. Liu, SIAM J. Matrix Anal. Appl. 11 (1990) 134.
#pragma once

#include <Eigen/SparseCore>
#include <vector>

#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

/// Which nodes a stiffness matrix couples. Nodes are numbered 0, 1, ... in the order of their
/// DOFs; a node without DOFs does not appear.
struct NodeGraph {
  std::vector<int> first_unknown;  ///< one a node, then the number of DOFs
  std::vector<int> start;          ///< one a node, then the number of entries of `neighbours`
  std::vector<int> neighbours;     ///< of node k: start[k] to start[k + 1] - 1; both directions

  int size() const { return static_cast<int>(first_unknown.size()) - 1; }
  int unknowns(int node) const { return first_unknown[node + 1] - first_unknown[node]; }
};

/// `lower`: the lower triangle of a symmetric matrix. `node_of`: for each unknown the node it
/// belongs to; DOFs of one node are adjacent. The values of the matrix play no part.
NodeGraph node_graph(const SparseMatrix& lower, const std::vector<int>& node_of);

/// What a factorisation in some order costs, by node-by-node elimination of full blocks.
struct PredictedWork {
  double entries = 0;     ///< of the factor, diagonal included
  double operations = 0;  ///< multiplications and additions: the sum of squared column lengths
};

/// An elimination order: `nodes[k]` is eliminated k-th. Every subtree of the elimination tree is
/// contiguous (a postorder), which leaves the fill as it is and keeps memory access local.
struct NodeOrder {
  std::vector<int> nodes;
  PredictedWork work;
};

/// Best for slender frames. Ties between nodes fall by their numbering.
NodeOrder minimum_degree_order(const NodeGraph& graph);

/// The nodes by their distance from an outlying one, part by part: `result[k]` is the k-th.
std::vector<int> breadth_first_numbering(const NodeGraph& graph);

/// The same graph with node `numbering[k]` called k. Its first_unknown counts DOFs in the new
/// numbering. Requires: `numbering` is a permutation.
NodeGraph renumbered(const NodeGraph& graph, const std::vector<int>& numbering);

/// `nodes` put in postorder, its work predicted. Requires: `nodes` is a permutation.
NodeOrder postordered(const NodeGraph& graph, const std::vector<int>& nodes);

/// The elimination order of the DOFs: the nodes' order, the DOFs of a node adjacent and
/// ascending.
std::vector<int> unknown_order(const NodeGraph& graph, const std::vector<int>& nodes);

}  // namespace tubewright
