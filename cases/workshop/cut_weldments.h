// The weldments that the pieces make: the frame proper, each arm, each rod by itself.
//
// Pieces are welded in one that end by a weld at one node, or run through it. An end that turns,
// slides or gives (a release of the file) and the eye of a link part them, so a tube belongs to
// what its other end is welded to, or is a weldment of its own.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/pieces/cut_geometry.h"

namespace tubewright {

struct CutWeldment {
  std::string name;  ///< "frame", or the first tube
  std::vector<size_t> pieces;
  std::vector<int> nodes;   ///< all that its pieces end at or run through, ascending
  std::vector<int> welded;  ///< those of them where they are not held by a fitting
};

/// The frame proper first, which is welded at most nodes, then as in the file; pieces by themselves
/// last.
std::vector<CutWeldment> cut_weldments(const Frame& frame, const NumberedFrame& numbered,
                                       const std::vector<CutPiece>& pieces);

/// True for a piece that nothing is welded to.
bool is_single(const CutWeldment& weldment);

}  // namespace tubewright
