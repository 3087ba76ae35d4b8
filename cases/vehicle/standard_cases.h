// The load cases of a vehicle whose frame file names none.
//
// Factors come from road-car literature and cycling measurements. EN 17860-3:2024 covers carrier
// cycles with several tracks up to 300 kg: its scope was seen, its test forces were not, and none
// is used here. Each case's note states its source and how sure it is.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/vehicle/vehicle_cases.h"

namespace tubewright {

/// What the set's own obstacles do to a vehicle that is driven over them: peak over standing load
/// of each wheel, in the order of Vehicle::wheels.
struct DrivenFactors {
  std::vector<double> step;            ///< up a step, on that wheel's side only
  std::vector<double> bump;            ///< over a hump, likewise
  std::vector<double> axle_bump;       ///< over a hump across the road
  std::string step_words, bump_words;  ///< "a step of 50 mm at 10 km/h"
  std::vector<std::string> doubts;     ///< why they are not proven
};

/// Height of the set's step before a front wheel, m: as the file has it or 50 mm, no more than half
/// the wheel's radius.
double standard_step(const Vehicle& vehicle, const Wheel& wheel);

/// Standing, braking, both turns, braking in a turn, bumps at each wheel and axle, a step at each
/// front wheel, a kerb on each side, and (four wheels) each wheel of the lighter axle just lifted.
///
/// `driven`: told beside the factors of bumps and steps; where they are larger, they count for a
/// vehicle without springs. What the file says counts before either. Null: not driven.
std::vector<Case> standard_cases(const Frame& frame, const VehicleFacts& facts,
                                 const DrivenFactors* driven = nullptr);

}  // namespace tubewright
