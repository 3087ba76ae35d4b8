// The rows of rivets of one piece of sheet: one along each tube, run on through nodes where its
// tube does.
#pragma once

#include <Eigen/Core>
#include <set>
#include <string>
#include <vector>

#include "cases/sheets/clad_frame.h"
#include "cases/sheets/panel_groups.h"
#include "cases/sheets/sheet_outline.h"

namespace tubewright {

struct WantedRivets {
  std::vector<Eigen::Vector2d> holes;  ///< in the plane, row by row
  std::set<std::string> without;       ///< tubes whose joints leave no room for one
};

/// Requires: the sheet is riveted.
WantedRivets wanted_rivets(const CladFrame& f, const Sheet& sheet, const GroupSides& sides,
                           const SheetPlane& plane);

/// The holes that are far enough from every edge and from those before them.
std::vector<Eigen::Vector2d> kept_apart(const std::vector<Eigen::Vector2d>& wanted,
                                        const Polygon& outline,
                                        const std::vector<Polygon>& openings, double hole_diameter);

}  // namespace tubewright
