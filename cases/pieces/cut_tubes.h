// The straight pieces of stock that a frame is made of, before their ends are cut.
//
// A path in one line is one tube; where it turns by more than half a degree the next one begins. Of
// two tubes that run through one node the bigger is whole, the other is cut in two there.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "cases/checks/welded_ends.h"
#include "cases/frame/frame.h"
#include "cases/frame/frame_symmetry.h"
#include "cases/model/build_model.h"
#include "solver/model/angle.h"

namespace tubewright {

/// A path that turns by less is one piece; tubes that meet within it are cut square.
constexpr double turns_at = path_turns_at;

/// A straight piece of stock: one member, or several in line of one path.
struct CutTube {
  /// Of the member, or of the path if this is all of it; of a part of a path the members: "rail.3",
  /// "rail.1-2".
  std::string name;
  std::vector<int> members;
  std::string section;
  std::array<int, 2> nodes{};  ///< at its ends
  Eigen::Matrix3d axes;        ///< rows: x from the first node to the second, y, z of the section
  double length = 0;           ///< node to node, m
};

/// The straight tubes and bars of the frame: beams, and links as bars from eye to eye; of a bent
/// tube its straight parts. Cables and springs are bought by their length and not among them.
std::vector<CutTube> cut_tubes(const Frame& frame, const NumberedFrame& numbered);

/// "rail.3", or of several members "rail.1-2".
std::string named_by_members(const Member& first, const Member& last);

/// The nodes a tube runs through, in order, without those at its ends.
std::vector<int> inner_nodes(const Frame& frame, const NumberedFrame& numbered,
                             const CutTube& tube);

/// The tubes as lines and sizes, for mirror_planes().
std::vector<DrawnTube> drawn_tubes(const Frame& frame, const NumberedFrame& numbered,
                                   const std::vector<CutTube>& tubes);

}  // namespace tubewright
