// Where each tube is cut: from the lines of the frame to the true shape of every piece.
//
// A tube that runs through a node is whole there; one that ends is cut along the face of what is
// there already, or past its end. Who is there already:
// 1. the tube that runs through; of several the biggest, the others are cut in two there
//    (cut_tubes.h);
// 2. of those that end, who comes first by cut_order.h. Two of one turn share the room between them
//    by a mitre.
// The first at a node, if nothing holds it, reaches to the outside.
// An end that turns, slides or gives (a release of the file) is no weld but a joint: it is cut
// square at its node, to suit its pin or bush later, not against others nor they against it. Tubes
// that leave a node within 10 degrees of each other are not cut against each other: a drawing by
// lines does not say how they lie. A plane that would take off less than 1 mm is left out
// (shown_cuts.h).
// Rules: common practice, no source. tests/cases/pieces/cut_solids_test.cpp proves the pieces as
// solids: nothing overlaps.
#pragma once

#include <array>
#include <vector>

#include "cases/bends/bending.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "cases/pieces/cut_tubes.h"
#include "cases/pieces/end_cuts.h"

namespace tubewright {

struct CutPiece {
  CutTube tube;
  std::array<TubeEnd, 2> ends;  ///< of the second x runs inward too, y and z stay
  double long_point = 0;        ///< between the farthest points: what is cut from the bar, m
  double short_point = 0;       ///< between the nearest points of the four corners
  double first_point = 0;       ///< where the farthest point of the first end is, from its node, m
  double weld_length = 0;       ///< of both ends, m
  std::vector<TubeBend> bends;  ///< of a bent tube; its lengths are those before bending
};

/// One a tube of cut_tubes(); straight parts of one bent tube joined to one piece, whose axes are
/// those of its first part. A tube that stands on a bend is left as long as to its node.
std::vector<CutPiece> cut_pieces(const Frame& frame, const NumberedFrame& numbered);

/// The same with the straight parts of bent tubes apart: true to their place in space.
std::vector<CutPiece> cut_straight_parts(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
