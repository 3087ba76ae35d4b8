// Nested dissection of the node graph, through CHOLMOD. Compiled only where CHOLMOD was found.
#pragma once

#include <optional>
#include <vector>

#include "solver/node_ordering.h"

namespace tubewright {

/// A. George, SIAM J. Numer. Anal. 10 (1973) 345, by the multilevel method of G. Karypis and
/// V. Kumar, SIAM J. Sci. Comput. 20 (1998) 359. Nothing if the library cannot do it (no memory, or
/// a CHOLMOD built without its partition module). The result depends on the numbering of the nodes
/// only, never on a clock or a random number.
std::optional<NodeOrder> nested_dissection_order(const NodeGraph& graph);

}  // namespace tubewright
