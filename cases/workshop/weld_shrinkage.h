// By how much welds draw a frame in: advice, in no length of the cut list.
//
// Across a weld S = 0.1 A_w/t, A_w the area of the weld metal and t the thickness it is laid on:
// O. W. Blodgett (from memory), a rule for plate. A fillet with throat a has legs of a sqrt 2, so
// A_w = a^2 (derived); t is the wall of the tube that ends. A leg of 3 mm on a wall of 1.5 mm gives
// 0.3 mm; the allowance for plate of TWI, 0.8 mm a fillet, is above it. Steel only: aluminium draws
// in more, and no rule is known to the authors.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/pieces/cut_geometry.h"

namespace tubewright {

/// m, for one weld with that throat on a wall. Requires: both above zero.
double transverse_shrinkage(double throat, double wall);

/// What is to be added to each end of a piece, m: half where two meet in a mitre, 0 at free ends.
/// None for what is not steel, or a solid bar.
using EndShrinkage = std::array<std::optional<double>, 2>;

EndShrinkage end_shrinkage(const Frame& frame, const CutPiece& piece);

/// The row of tubes along one axis whose welds draw in most. A row goes from tube to tube at nodes
/// where both end; its tubes lie within 30 degrees of the axis. The welds at its ends count, and of
/// those across a tube that runs through a node the greatest.
struct DrawIn {
  int axis = 0;       ///< 0, 1, 2: along x, y, z
  double amount = 0;  ///< m
  int welds = 0;
  std::vector<std::string> row;
};

struct WeldShrinkage {
  std::vector<EndShrinkage> pieces;  ///< as cut_pieces()
  std::vector<DrawIn> along;         ///< axes with any weld across them, x first
  int unknown = 0;                   ///< welded ends without a rule: not in the sums
};

WeldShrinkage weld_shrinkage(const Frame& frame, const NumberedFrame& numbered,
                             const std::vector<CutPiece>& pieces);

}  // namespace tubewright
