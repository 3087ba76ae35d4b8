// How much to exaggerate displacements so that a frame's bending can be seen.
#pragma once

#include <vector>

#include "viz/files/member_stations.h"

namespace tubewright {

/// 1, 2 or 5 times a power of ten: the largest that draws nothing in any case further than a
/// twentieth of the frame's diagonal. One value for all cases, so that they compare by eye. 1 if
/// nothing moves.
double suggested_warp_scale(const std::vector<CaseDrawing>& cases);

}  // namespace tubewright
