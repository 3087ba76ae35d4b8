// The `mirror` rule: half a frame is described, the other half follows.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Adds the mirror image (y negated) of every node, member, panel, support, carried mass,
/// attachment and wheel
/// whose name ends in frame.mirror->from; the copy's name ends in frame.mirror->to. A node on the
/// plane is shared; so is a part that is its own image. A mass or wheel whose image the file gives
/// itself stays as given. Reports clashes of other names and parts whose image cannot be named.
/// Does nothing without a mirror rule.
Diagnostics expand_mirror(Frame& frame);

/// `name` with the one ending of the rule replaced by the other; unchanged if it has neither.
std::string swap_ending(const std::string& name, const MirrorRule& rule);

}  // namespace tubewright
