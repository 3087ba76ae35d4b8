// The `mirror` rule: half a frame is described, the other half follows.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Adds the mirror image (y negated) of every node, member, panel and support whose name ends in
/// frame.mirror->from; the copy's name ends in frame.mirror->to. A node on the plane is shared; so
/// is a member, support or panel that is its own image. Reports clashes of names and parts whose
/// image cannot be named. Does nothing without a mirror rule.
Diagnostics expand_mirror(Frame& frame);

/// `name` with the one ending of the rule replaced by the other; unchanged if it has neither.
std::string swap_ending(const std::string& name, const MirrorRule& rule);

}  // namespace tubewright
