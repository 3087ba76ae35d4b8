#include "cases/studies/gauge_twist.h"

#include <cmath>

namespace tubewright {

double twist_angle(const GaugePair& gauges) {
  return std::atan2(gauges.left - gauges.right, gauges.distance);
}

double measured_stiffness(double couple, const GaugePair& front, const GaugePair& rear) {
  return couple / (twist_angle(front) - twist_angle(rear));
}

}  // namespace tubewright
