// Where the gussets of a frame stand: their legs' tubes, faces and nodes.
//
// Gusset NAME makes the nodes NAME.1 and NAME.2 on the axes of its first and second tube, where its
// legs end (unless something stands within a millimetre).
#pragma once

#include "cases/attachments/part_tubes.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Fills in the legs, adds nodes to the frame and to `cuts`. Reports tubes that are not there, that
/// run through, have no flat face toward each other, or are shorter than a leg. Members whose ends
/// do not exist are left to validate().
Diagnostics place_gussets(Frame& frame, TubeCuts& cuts);

}  // namespace tubewright
