// The tubes of one load case as lines: one polyline a member, with what holds on each section.
#pragma once

#include <string>

#include "viz/files/member_stations.h"

namespace tubewright {

/// The bytes of a .vtp file. Units mm, N, N m, MPa, rad; vectors in global axes. Members share no
/// points, since forces jump at joints. Point data: displacement, rotation, axial_force (tension
/// positive), shear_force and bending_moment (on the face whose outward normal runs from `from` to
/// `to`), torsion (about that normal), von_mises (worst on the section), stress_normal (the
/// longitudinal stress of greatest size, signed), utilisation (of yield; 0 where it cannot be
/// checked). Cell data: member, section (-1: none), indices into the field data member_names and
/// section_names. `warp_scale` goes into the field data as a suggestion.
std::string tube_lines_file(const Frame& frame, const CaseDrawing& drawing, double warp_scale);

}  // namespace tubewright
