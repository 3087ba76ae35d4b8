// In which order to weld the joints of a frame that is tacked together, so that heat is spread.
//
// Tack everything, measure, then weld: joints that are images of each other one after the other,
// and next the joint farthest from the three just welded, beginning with the one nearest the
// middle. What is balanced this way draws the frame in and does not twist it (common practice, no
// source).
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/pieces/cut_geometry.h"

namespace tubewright {

/// One joint, or two that are images of each other.
struct WeldStep {
  std::vector<std::string> nodes;
  int ends = 0;            ///< of tubes, at all its nodes
  double weld_length = 0;  ///< m
};

/// Every node at which an end is welded, once. The same frame gives the same order.
std::vector<WeldStep> weld_order(const Frame& frame, const NumberedFrame& numbered,
                                 const std::vector<CutPiece>& pieces);

}  // namespace tubewright
