// The load cases of a vehicle whose frame file names none.
//
// Factors come from road-car literature and cycling measurements. EN 17860-3:2024 covers carrier
// cycles with several tracks up to 300 kg: its scope was seen, its test forces were not, and none
// is used here. Each case's note states its source and how sure it is.
#pragma once

#include <vector>

#include "cases/frame/frame.h"
#include "cases/vehicle/vehicle_cases.h"

namespace tubewright {

/// Standing, braking, both turns, braking in a turn, bumps at each wheel and axle, a step at each
/// front wheel, a kerb on each side, and (four wheels) each wheel of the lighter axle just lifted.
std::vector<Case> standard_cases(const Frame& frame, const VehicleFacts& facts);

}  // namespace tubewright
