// The true outer surface of the tubes of one load case, with the stress at each of its points.
#pragma once

#include <string>

#include "viz/files/member_stations.h"

namespace tubewright {

/// The bytes of a .vtu file of quads, with the points of surface_ring() at every station. Units mm,
/// N, MPa, rad. Point data: displacement (the section's, and its rotation times the offset),
/// rotation, axial_force, and at that very point stress_normal, von_mises and utilisation (of
/// yield; 0 where it cannot be checked). Cell data: member, section. Springs have no surface.
/// Numbers only, for readers that know no strings: the case's name stands as character codes in the
/// field data case_name_utf8.
std::string tube_skin_file(const CaseDrawing& drawing, double warp_scale);

}  // namespace tubewright
