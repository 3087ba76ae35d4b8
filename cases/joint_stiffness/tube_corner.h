#pragma once
#include "cases/joint_stiffness/tube_on_tube.h"
namespace tubewright {
struct TubeCorner {
  double depth = 0, width = 0, wall = 0, angle = 0;
  bool crowded = false;
};
TableStiffness tube_corner(const TubeCorner& c, double E);
}  // namespace tubewright
