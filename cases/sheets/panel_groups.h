// Which panels are one piece of sheet: those of one sheet that lie in one plane and share a tube.
#pragma once

#include <vector>

#include "cases/sheets/clad_frame.h"

namespace tubewright {

/// Panels count as lying in one plane if no corner is farther from it, and as flat if their
/// diagonals pass no farther from each other: 1 mm, which a sheet is drawn down by (common
/// practice).
constexpr double flat_within = 1e-3;

/// Every panel in one group, by first panels, each group by number.
std::vector<std::vector<int>> panel_groups(const CladFrame& f);

/// Every side of a group once, seen from outside; `rim` those with the sheet on one side only.
struct GroupSides {
  std::vector<PanelSide> all;
  std::vector<bool> rim;
};

GroupSides sides_of(const CladFrame& f, const std::vector<int>& group);

/// True if panels of a group meet at a corner only, or lie on one another: no outline goes round
/// them.
bool touches_itself(const CladFrame& f, const std::vector<int>& group);

/// The rim's closed lines, as indices into the sides. Requires: it does not touch itself.
std::vector<std::vector<std::size_t>> rim_loops(const GroupSides& sides);

}  // namespace tubewright
