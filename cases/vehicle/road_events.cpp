#include "cases/vehicle/road_events.h"

#include <cmath>

namespace tubewright {

// The road is pitched nose down by th, then rolled left side down by beta about its own x.
Eigen::Vector3d body_force(const RoadState& road, double g) {
  const double cos_pitch = 1 / std::sqrt(1 + road.grade * road.grade);
  const double sin_pitch = road.grade * cos_pitch;
  const double cos_bank = std::cos(road.bank), sin_bank = std::sin(road.bank);
  const double corner = g * road.corner;      // horizontal: in a banked turn partly into the road
  const double gravity_down = g * cos_pitch;  // square to the vehicle's x
  return {g * (road.brake + sin_pitch), gravity_down * sin_bank - corner * cos_bank,
          -road.vertical * gravity_down * cos_bank - corner * sin_bank};
}

double dip_factor(double speed, double radius, double g) {
  return 1 + speed * speed / (g * radius);
}

double step_force(double load, double height, double radius, double factor) {
  const double sine = 1 - height / radius;
  const double cosine = std::sqrt(1 - sine * sine);
  return factor * load * cosine / sine;
}

double kerb_nudge(double weight, double track, double height, double factor) {
  return factor * weight * track / (2 * height);
}

// Energy: m g (s + d) = k d^2 / 2 at the greatest squeeze d; the factor is k d / (m g).
double drop_factor(double drop, double rate, double mass, double g) {
  return 1 + std::sqrt(1 + 2 * drop * rate / (mass * g));
}

}  // namespace tubewright
