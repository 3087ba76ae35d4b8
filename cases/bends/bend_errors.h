// The wording of faults in bends. Lengths in m.
#pragma once

#include <cstddef>
#include <string>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// `given` radii in a list for so many nodes between the ends of the path.
Diagnostic bends_and_corners(const std::string& tube, std::size_t given, std::size_t corners);
/// `needed`: what the bends at both ends of the piece take of it; `there`: its length.
Diagnostic bend_does_not_fit(const std::string& tube, const std::string& from,
                             const std::string& to, double needed, double there);
/// `least`: half the depth of the tube.
Diagnostic bend_too_tight(const std::string& tube, const std::string& node, double radius,
                          double least);
Diagnostic bend_turns_back(const std::string& tube, const std::string& node);
Diagnostic two_bends_at_node(const std::string& tube, const std::string& other,
                             const std::string& node);

}  // namespace tubewright
