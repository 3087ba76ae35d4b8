// The rides of the report: what wheels, masses and parts go through in each, and how long the frame
// lasts.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/rides/ride_study.h"

namespace tubewright {

/// Requires: the report's load cases are those of take_instants() (ride_verdict.h).
nlohmann::ordered_json report_rides(const RideStudy& study);

std::vector<std::string> ride_assumptions(const RideStudy& study);

}  // namespace tubewright
