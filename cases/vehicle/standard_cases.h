// The load cases of a vehicle whose frame file names none.
//
// Factors come from road-car literature and cycling measurements; no published set for 60 to 150 kg
// tube-frame vehicles is known. Each case's note states its source and how sure it is.
#pragma once

#include <vector>

#include "cases/frame/frame.h"
#include "cases/vehicle/vehicle_cases.h"

namespace tubewright {

/// Standing, braking, both turns, braking in a turn, bumps at each wheel and axle, a step at each
/// front wheel, a kerb on each side, and (four wheels) each wheel of the lighter axle just lifted.
std::vector<Case> standard_cases(const Frame& frame, const VehicleFacts& facts);

}  // namespace tubewright
