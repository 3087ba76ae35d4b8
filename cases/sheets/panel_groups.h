// The pieces of sheet as they are drawn: which panels, and the closed lines round them.
#pragma once

#include <vector>

#include "cases/model/sheet_pieces.h"
#include "cases/sheets/clad_frame.h"

namespace tubewright {

/// Every panel in one group, by first panels, each group by number: `sheet_groups`.
std::vector<std::vector<int>> panel_groups(const CladFrame& f);

/// The rim's closed lines, as indices into the sides. Requires: it does not touch itself.
std::vector<std::vector<std::size_t>> rim_loops(const GroupSides& sides);

}  // namespace tubewright
