// Who comes first at a node: the order in which tubes that end there are cut.
//
// 1. Of those that end, the bigger by its outer size;
// 2. of one size, runs that go on: of a path that turns, or in line within 10 degrees;
// 3. then as in the file, where an image in a plane that mirrors most of the frame
//    (frame_symmetry.h) counts as standing beside its original. Left and right come out alike.
// Two of one size come in one turn, and share the room by the plane between them, if they are runs
// that go on, or images of each other in that plane through the node and it mirrors all that came
// before them, so that none has a reason to be first. Left to the file are free corners, where
// neither stands on anything, if they are sharper than square, or square and of three or more (a
// box): there a square end and a face are less work than points.
// Rules: common practice, no source.
#pragma once

#include <vector>

#include "cases/pieces/tube_arms.h"

namespace tubewright {

/// Into the order above. Sets TubeArm::goes_on.
void put_in_order(const UncutTubes& all, std::vector<TubeArm>& arms);

/// A node while its tubes are cut.
struct NodeTurn {
  std::vector<int> through;             ///< tubes that are whole there
  std::vector<const TubeArm*> placed;   ///< cut already, in order
  std::vector<const TubeArm*> waiting;  ///< in order
};

/// The first that waits, the other run of its path, and what is its image. Requires: one waits.
std::vector<const TubeArm*> next_alike(const UncutTubes& all, const NodeTurn& node);

}  // namespace tubewright
