// Whether sheets lie on the outer faces of the tubes they are joined to.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// What is to be said of the sheets that do not touch all their tubes, at most once of each.
struct ContactDoubts {
  Diagnostics warnings;  ///< in the plane of the axes, not quite at its tubes, or of unlike tubes
  Diagnostics unproven;  ///< one that is somewhere else than its file can mean
};

/// Requires: validate() found no error.
ContactDoubts contact_doubts(const Frame& frame);

}  // namespace tubewright
