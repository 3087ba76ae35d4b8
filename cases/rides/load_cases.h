// The load cases that a frame is checked for.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// The frame with the load cases it is to be checked for: its own, those of kind ride as the worst
/// instants of their rides (ride_cases.h), or the standard set of a vehicle whose file names none,
/// with factors by its own obstacles where the wheels have radii and tyres (standard_obstacles.h).
/// A frame with neither comes back without cases, one that has been here as it is.
Result<Frame> with_load_cases(Frame frame);

}  // namespace tubewright
