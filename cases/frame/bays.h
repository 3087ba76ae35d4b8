// The four-sided faces of a frame.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/frame/layout.h"

namespace tubewright {

struct Bay {
  std::array<int, 4> corners = {};  ///< nodes in order round the bay, the lowest number first
  std::vector<int> boundary;        ///< all nodes round it: a side may be several members in line
  Eigen::Vector3d normal;           ///< unit vector
  double area = 0;
};

/// Every flat, convex face with four sides of beams or links. Going round a face, each corner turns
/// into the member that lies nearest, in the face's plane, to the way back: so no member of that
/// plane runs through the inside, and a quadrilateral that a tube divides is not one bay but two.
/// Faces with a corner where more than 24 members meet are left out.
std::vector<Bay> four_sided_bays(const Frame& frame, const Layout& layout);

}  // namespace tubewright
