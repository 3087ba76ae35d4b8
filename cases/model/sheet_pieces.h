// Which panels are one piece of sheet, and where each piece lies on its tubes.
//
// Panels of one sheet that lie in one plane, on one side of their tubes, and share a tube are one
// continuous piece: one row joins it to that tube. Sheets that are to be apart have names of their
// own. A piece without `offset` touches the deepest of its tubes: its middle plane lies half that
// tube's depth and half its own thickness from the plane of the axes.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// Panels count as lying in one plane if no corner is farther from it, and as flat if their
/// diagonals pass no farther from each other: 1 mm, which a sheet is drawn down by (common
/// practice).
constexpr double flat_within = 1e-3;

/// A member along a panel's edge, the way the panel goes round. Members and nodes by their index in
/// the frame.
struct PanelSide {
  int member = 0;
  int from = 0;
  int to = 0;
};

struct PanelFace {
  Eigen::Vector3d normal;  ///< right hand round the corners
  Eigen::Vector3d out;     ///< to the side that the sheet lies on; the normal where none is known
  bool sided = true;       ///< false: in the plane of the axes, which looks alike from both sides
  double warp = 0;         ///< how far the diagonals pass from each other, m
  std::vector<PanelSide> sides;
};

/// One a panel. Requires: the model's panels have their corners and edges.
std::vector<PanelFace> panel_faces(const Frame& frame, const NumberedFrame& numbered);

/// The sides anticlockwise as they look against `view`, a direction out of the page.
std::vector<PanelSide> sides_seen_from(const PanelFace& face, const Eigen::Vector3d& view);

/// Every panel in one group, by first panels, each group by number: those that would be one piece.
std::vector<std::vector<int>> sheet_groups(const Frame& frame, const NumberedFrame& numbered,
                                           const std::vector<PanelFace>& faces);

/// Every side of a group once, seen from outside; `rim` those with the sheet on one side only.
struct GroupSides {
  std::vector<PanelSide> all;
  std::vector<bool> rim;
};

GroupSides sides_of(const std::vector<PanelFace>& faces, const std::vector<int>& group);

/// True if panels of a group meet at a corner only, or lie on one another: no outline goes round
/// them, and each is a piece of its own.
bool touches_itself(const std::vector<PanelFace>& faces, const std::vector<int>& group);

/// Numbers the pieces of the model's panels and gives each panel its offset. Requires: the model
/// has its members, and its panels have their corners and edges.
void lay_sheets(const Frame& frame, NumberedFrame& numbered);

}  // namespace tubewright
