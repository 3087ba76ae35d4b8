// What the drawings of sheets cannot show: tubes in the way, pieces that lie on each other.
#pragma once

#include <Eigen/Core>
#include <set>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/sheets/clad_frame.h"

namespace tubewright {

/// Of tubes that come out on the sheet's side at these nodes. Requires: its side is known.
void tell_of_tubes_through(const CladFrame& f, const Sheet& sheet, const std::set<int>& nodes,
                           const Eigen::Vector3d& out, Diagnostics& remarks);

/// Where a piece lies.
struct PlacedBlank {
  std::string name;
  std::string sheet;
  Eigen::Vector3d out;
  bool sided = true;  ///< false: `out` may be either side
  std::vector<PanelSide> sides;
};

/// Of every two pieces that lie on one face of a tube.
void tell_of_laps(const CladFrame& f, const std::vector<PlacedBlank>& placed, Diagnostics& remarks);

}  // namespace tubewright
