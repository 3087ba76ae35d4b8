// What one tube takes away from the end of another that meets it at a node.
//
// A tube is a prism: what stands on it leaves it by the faces it looks out of. One that ends at the
// node is left by its faces or past its end, which is put as minima and maxima of planes.
#pragma once

#include <vector>

#include "cases/pieces/end_cuts.h"
#include "cases/pieces/tube_arms.h"

namespace tubewright {

/// Along the faces of a tube without an end there. None if the arm misses it.
std::vector<EndCut> cuts_by_whole(const UncutTubes& all, const TubeArm& arm, int whole);

/// Along the faces of one that ends there and is cut already, or past that end. All of them have to
/// be made; none if the arm misses it.
std::vector<EndCut> cuts_by_placed(const UncutTubes& all, const TubeArm& arm, const TubeArm& placed,
                                   const TubeEnd& end);

/// Two of one turn share the room between them.
EndCut cut_between(const UncutTubes& all, const TubeArm& arm, const TubeArm& other);

/// How far beyond the node a tube has to reach so that the others can stand on its face, m, <= 0.
double outermost(const UncutTubes& all, const TubeArm& arm, const std::vector<TubeArm>& arms);

}  // namespace tubewright
