// The road of a ride, and where the wheels are on it.
#pragma once

#include "cases/frame/frame.h"
#include "solver/road/wheel_path_stream.h"

namespace tubewright {

/// The paths of all wheels, in the order of Vehicle::wheels. The front axle starts run_up before
/// what the ride goes over. Wheels that run in one track meet the same ground one after the other;
/// tracks of a random road go together as on an isotropic surface. A wheel in the middle of a
/// measured profile meets the mean of its tracks. Requires: validate() found no error.
WheelPathStream ride_paths(const Vehicle& vehicle, const RideEntry& ride, double time_step);

}  // namespace tubewright
