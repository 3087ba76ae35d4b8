// Where the wheels of a vehicle are on a ride, and how long that lasts.
#pragma once

#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// Of the front axle before what it rides over, m, where a ride starts; on a random road that
/// begins there.
constexpr double run_up = 0.3;

/// The vehicle's wheels on one side of it, +y being left; a wheel within 10 mm of the middle is on
/// both.
std::vector<const Wheel*> wheels_on_side(const Vehicle& vehicle, RideSide side);

/// Distance from the foremost contact to the rearmost, m.
double wheelbase(const Vehicle& vehicle);

/// Length of what a ride goes over, m; 0 of a step and of a random road.
double obstacle_length(const RideEntry& ride);

/// Time in which the last wheel leaves what the ride goes over, s: run-up, obstacle, wheelbase and
/// the radius that reaches ahead and behind. Requires: a speed above 0.
double time_until_over(const Vehicle& vehicle, const RideEntry& ride);

/// As the file has it, or else until the last wheel is over and 2 s more, 60 s on a random road.
double duration_of(const Vehicle& vehicle, const RideEntry& ride);

/// The tyre rate of every wheel is known.
bool has_tyre_rates(const Vehicle& vehicle);

/// N/m and N s/m of a wheel's tyre; `carried`: what it carries at rest, kg. Damping is the wheel's
/// own, or the vehicle's, or by the vehicle's ratio 2 zeta sqrt(k m).
/// Requires: the wheel or the vehicle has a tyre rate.
double tyre_rate(const Vehicle& vehicle, const Wheel& wheel);
double tyre_damping(const Vehicle& vehicle, const Wheel& wheel, double carried);

}  // namespace tubewright
