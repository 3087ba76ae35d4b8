// The obstacles of the standard set of load cases, driven over.
#pragma once

#include <optional>

#include "cases/model/build_model.h"
#include "cases/vehicle/standard_cases.h"

namespace tubewright {

/// Up a step (standard_step(), 10 km/h) on either side, and over a hump, half a sine of 25 x 150
/// mm, at 15 km/h, on either side and across the road (heights and speeds: judgement, a kerb and a
/// plank). None where a wheel has no `radius` or no tyre rate. Where the vehicle cannot be driven
/// the factors are 0, and the doubts say why.
/// Requires: the frame is sound and weighs something.
std::optional<DrivenFactors> driven_factors(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
