// The best of several elimination orders, tried for as long as the saving is worth the search.
#pragma once

#include "solver/linear_algebra/node_ordering.h"

namespace tubewright {

/// The order of least predicted work found: `known`, minimum degree by other means and, where
/// CHOLMOD is built in and the work is large enough to pay for it, nested dissection. `known` is
/// the minimum degree order of `graph`. The result depends on the graph only.
NodeOrder least_work_order(const NodeGraph& graph, NodeOrder known);

}  // namespace tubewright
