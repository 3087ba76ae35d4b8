// Faults of a frame that a reader of single keys cannot see: references, geometry, joints.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Every error in the frame, in file order: missing references with a near name, members of no
/// length, impossible section sizes, releases that leave a member loose, supports or loads on
/// nothing, circular combinations, panels that do not close. Empty = build_model() may be called.
Diagnostics validate(const Frame& frame);

}  // namespace tubewright
