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

/// True if an end turns, slides or gives in some direction: a pin, a bush or an eye, and no weld.
bool is_joint(const EndConnection& end);

/// Of a member, at its start (0) or end (1).
const EndConnection& connection_at(const Member& member, size_t end);

/// Its nodes; of equals the first. The frame proper of a vehicle, as a rule.
std::vector<int> largest_weldment(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
