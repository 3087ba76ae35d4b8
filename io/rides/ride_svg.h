// The forces of the wheels over a ride, as a picture.
#pragma once

#include <string>

#include "cases/rides/ride_study.h"

namespace tubewright {

/// A plain SVG that follows the reader's light or dark screen; no scripts. One band a wheel, from
/// the least to the greatest force at each time, with lines at its load at rest and at what the
/// standard set of cases counts with.
std::string ride_svg(const RideResult& ride);

}  // namespace tubewright
