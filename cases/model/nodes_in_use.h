// Which nodes something besides a tube is fastened to, or acts on.
#pragma once

#include <string>
#include <unordered_set>

#include "cases/frame/frame.h"

namespace tubewright {

/// Nodes that something of the file besides a member needs: supports, masses, panels, wheels,
/// loads, what is twisted or measured.
std::unordered_set<std::string> nodes_in_use(const Frame& frame);

}  // namespace tubewright
