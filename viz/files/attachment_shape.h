// What is welded or bolted to a tube as a body to be drawn: plates, bosses, bolts.
//
// SI units, global axes, unloaded. A plate reaches from its foot to round its hole, as much wider
// than that as its `edge` says, and is as thick as given; a saddle and a through plate reach back
// past their tube. What the file does not give is drawn as is usual: a bolt's head 0.65 of its
// diameter high and 1.6 wide, a nut 0.8 high (near ISO 4014 and 4032, MEMORY), round a hole without
// a bolt a third of the plate's length.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// Flat convex faces, their corners anticlockwise seen from outside.
struct DrawnBody {
  std::vector<Eigen::Vector3d> points;
  std::vector<std::vector<int>> faces;  ///< indices of points
};

/// Requires: validate() found no error. `foot` and `hole`: where its nodes are.
DrawnBody attachment_body(const Frame& frame, const Attachment& attachment,
                          const Eigen::Vector3d& foot, const Eigen::Vector3d& hole);

/// A gusset's plates, from its node at the origin. Point i moves with the gusset's node, or the
/// node where its first or second leg ends, for i mod 3 = 0, 1, 2.
DrawnBody gusset_body(const Frame& frame, const Gusset& gusset);

}  // namespace tubewright
