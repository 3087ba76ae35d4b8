#include "cases/joint_stiffness/tube_corner.h"

#include <cmath>
namespace tubewright {
TableStiffness tube_corner(const TubeCorner& c, double E) {
  const double s = E * std::pow(c.wall, 3);
  const double turn = std::pow(std::cos(c.angle / 2), 2) * 2;
  return {JointStiffness{22 * s / turn * (c.crowded ? .5 : 1), 55 * s / turn, rigid}, ""};
}
}  // namespace tubewright
