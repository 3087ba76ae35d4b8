// The pieces of sheet metal a frame needs: outline and rivet holes of each, flat.
//
// Panels of one sheet that lie in one plane and share a tube are one piece. It ends flush with the
// outer faces of the tubes round it: half a tube's width beyond the line through its nodes. It is
// seen from outside, tubes behind it; its longest straight edge lies below, along x.
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/sheets/sheet_outline.h"

namespace tubewright {

/// The piece of a tube that a sheet lies on, along its centre line.
struct BlankTube {
  std::string member;
  Eigen::Vector2d from = Eigen::Vector2d::Zero();
  Eigen::Vector2d to = Eigen::Vector2d::Zero();
  double width = 0;  ///< of the face
  bool rim = false;  ///< at the edge of the sheet, else across it
};

struct BlankNode {
  std::string name;
  Eigen::Vector2d at = Eigen::Vector2d::Zero();
  Eigen::Vector2d inward = Eigen::Vector2d::Zero();  ///< toward the middle of a panel, unit vector
};

/// Lengths in m in the sheet's own plane, from the lower left of the rectangle round it.
struct SheetBlank {
  std::string name;  ///< of the sheet, or where it comes in several pieces of the first panel
  std::string sheet;
  std::vector<std::string> panels;
  Polygon outline;                ///< inside on the left
  std::vector<Polygon> openings;  ///< inside of the sheet on the left
  std::vector<BlankTube> tubes;
  std::vector<BlankNode> nodes;
  double hole_diameter = 0;  ///< 0: no rivets
  std::vector<Eigen::Vector2d> holes;
  double width = 0;  ///< of the rectangle to buy, along x
  double height = 0;
  double area = 0;                                    ///< of the sheet, holes not taken off
  double mass = 0;                                    ///< kg, the same
  Eigen::Vector2d forward = Eigen::Vector2d::Zero();  ///< the frame's x axis in the plane, |f| <= 1
  bool sided = true;  ///< false: in the plane of the axes, so seen from either side
};

struct SheetBlanks {
  std::vector<SheetBlank> blanks;
  Diagnostics remarks;
};

/// In the order of their first panels. A piece that cannot be drawn is left out with the reason
/// among the remarks. Requires: validate() found no error.
SheetBlanks sheet_blanks(const Frame& frame);

}  // namespace tubewright
