// Elimination orders of the node graph from CHOLMOD. Compiled only where CHOLMOD was found.
//
// Each gives nothing if the library cannot do it (no memory, or a CHOLMOD built without that part).
// The result depends on the numbering of the nodes only, never on a clock.
#pragma once

#include <optional>

#include "solver/linear_algebra/node_ordering.h"

namespace tubewright {

/// Minimum degree by the authors of the method (see node_ordering.h); fills wide lattices less than
/// minimum_degree_order().
std::optional<NodeOrder> cholmod_minimum_degree_order(const NodeGraph& graph);

/// Nested dissection (A. George, SIAM J. Numer. Anal. 10 (1973) 345) down to parts of 200 nodes,
/// those ordered by minimum degree.
std::optional<NodeOrder> coarse_dissection_order(const NodeGraph& graph);

/// Nested dissection by the multilevel method of G. Karypis and V. Kumar, SIAM J. Sci. Comput. 20
/// (1998) 359.
std::optional<NodeOrder> multilevel_dissection_order(const NodeGraph& graph);

}  // namespace tubewright
