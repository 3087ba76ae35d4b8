// The pieces that a frame is welded into: frame proper, arms, uprights.
#pragma once

#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// The weldment of each node, named by the first of its nodes. Beams join their
/// two nodes unless one of their ends is released in some direction; links, cables and springs join
/// nothing.
std::vector<int> weldments(const Frame& frame, const NumberedFrame& numbered);

/// Its nodes; of equals the first. The frame proper of a vehicle, as a rule.
std::vector<int> largest_weldment(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
