// Bent tubes as single pieces: their straight parts, cut at their ends like any tube, with the
// bends between them.
#pragma once

#include <vector>

#include "cases/frame/frame.h"
#include "cases/pieces/cut_geometry.h"

namespace tubewright {

/// `parts`: one a straight tube, in order; EndCut::against counts the pieces returned.
std::vector<CutPiece> joined_over_bends(const Frame& frame, const NumberedFrame& numbered,
                                        const std::vector<CutPiece>& parts);

}  // namespace tubewright
