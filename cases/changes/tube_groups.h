// Tubes that a builder changes together.
#pragma once

#include <string>
#include <vector>

#include "cases/changes/tube_edits.h"
#include "cases/frame/frame.h"

namespace tubewright {

struct TubeGroup {
  std::string name;   ///< of its first member
  MemberSet members;  ///< ascending; all of one section
};

/// Each member with a section with the other pieces of its path, and with what is its image, left
/// and right: in the plane of the `mirror` rule, or in the one square to y that mirrors most of the
/// frame. In the order of their first members; springs are in none.
std::vector<TubeGroup> tube_groups(const Frame& frame);

/// The pair of nodes that two nodes turn into in that plane: itself where they lie on it or are
/// each other's image. Empty names: the frame has no such plane, or no node there.
std::pair<std::string, std::string> image_of(const Frame& frame, const std::string& from,
                                             const std::string& to);

}  // namespace tubewright
