// The frame as a drawing: where its nodes are and which members run between them.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "cases/frame/frame.h"
#include "solver/model/angle.h"

namespace tubewright {

struct Layout {
  std::vector<Eigen::Vector3d> at;           ///< in the order of Frame::nodes, m
  std::vector<std::array<int, 2>> ends;      ///< nodes of each member; -1, -1 if it has no length
  std::vector<std::vector<int>> members_at;  ///< of each node, those with length
  double size = 0;  ///< diagonal of the box round all nodes in sensible places, m

  int other_end(int member, int node) const {
    return ends[member][0] == node ? ends[member][1] : ends[member][0];
  }
};

/// A path that turns by less is one piece, rad.
constexpr double path_turns_at = 0.5 * degree;

/// A member shorter than this fraction of the frame's size has no length: its stiffness would drown
/// that of all others in rounding (the bending stiffness grows with the cube of 1/L).
constexpr double shortest_member = 1e-6;

/// Members with unknown or coinciding ends count as having no length.
Layout layout_of(const Frame& frame);

/// Beams and links that lie end to end, in one straight line, from node `a` to node `b`; nothing if
/// they do not reach. Where tubes lie side by side, one that reaches all the way.
std::vector<int> members_in_line(const Frame& frame, const Layout& layout, int a, int b);

}  // namespace tubewright
