// Doubts about a frame: things that are allowed but seldom meant.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Warnings, in file order: nodes that nearly coincide, members that cross or touch without a
/// joint, a node lying on a member it is not joined to, duplicate members, unused nodes and
/// sections, four-sided bays with neither diagonal nor panel; rivets against
/// the rules of their spacing, skewed panels. Requires: validate() found no error.
Diagnostics lint(const Frame& frame);

}  // namespace tubewright
