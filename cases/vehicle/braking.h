// Brake forces of the wheels, and what the tyres allow.
//
// Conventions as in cases/vehicle/wheel_loads.h. Forces are in N; a brake force is counted positive
// when it points backward (-x) on the vehicle.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "cases/vehicle/wheel_loads.h"

namespace tubewright {

struct Brakes {
  std::vector<bool> braked;  ///< one a wheel
  std::optional<double>
      front_share;  ///< of the total brake force; none: ideal, in proportion to load
};

/// Brake force of each wheel for a given total: shared between the axles, within an axle in
/// proportion to the wheels' loads over its braked wheels. An axle with no load on a braked wheel
/// gives its part to the other; all zero if there is none at all. The sum is `total` otherwise.
std::vector<double> brake_forces(const RigidVehicle& vehicle, const Brakes& brakes,
                                 const WheelLoads& loads, double total);

/// sqrt(F_x^2 + F_y^2) / N of each wheel: the friction it needs. 0 for a wheel without load.
std::vector<double> friction_needed(const WheelLoads& loads, const std::vector<double>& brake,
                                    const std::vector<double>& side);

/// The greatest deceleration in m/s2 on a slope (tangent, + = nose down) that friction `mu` and
/// lifting of the rear wheels allow, straight ahead, in closed form: each braked axle at most
/// mu N, N being the load on its braked wheels; below zero if the brakes cannot even hold the
/// vehicle on the slope. Level: rear brakes only mu a/(L + mu h), front only mu b/(L - mu h), all
/// ideal mu, times g.
struct Deceleration {
  double greatest = 0;
  enum class Limit { front_grip, rear_grip, nose_over, none } limit = Limit::none;
};
Deceleration reachable_deceleration(const RigidVehicle& vehicle, const Brakes& brakes, double mu,
                                    double slope, double g);

/// Accelerations in m/s2, on the level, at which the vehicle turns over: forward over the front
/// axle (g a/h), backward (g b/h), and sideways in a left and in a right turn (over the line
/// through the outer contacts; for three wheels the line from the single wheel to the outer one).
/// Infinite where the centre of mass lies on the road.
struct TippingLimits {
  double braking = 0;
  double driving = 0;
  double left_turn = 0;
  double right_turn = 0;
};
TippingLimits tipping_limits(const RigidVehicle& vehicle, double g);

}  // namespace tubewright
