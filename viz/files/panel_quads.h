// The sheets of one load case as flat quadrilaterals.
#pragma once

#include <string>

#include "cases/analysis/analysis.h"

namespace tubewright {

/// The bytes of a .vtp file: one quadrilateral a panel, in the plane of its sheet (offset
/// included), with points of its own. Units mm, N, N/mm, MPa. Point data: displacement, rotation
/// (of the tubes' nodes, carried out to the sheet). Cell data: panel (index into the field data
/// panel_names), shear_flow (greatest along an edge), shear_stress, critical_stress,
/// stiffness_kept, rivet_load (0 without rivets), utilisation (of the check nearest its limit).
/// `warp_scale` goes into the field data as a suggestion.
std::string panel_quads_file(const Analysis& analysis, const CaseResult& result, int step,
                             double warp_scale);

}  // namespace tubewright
