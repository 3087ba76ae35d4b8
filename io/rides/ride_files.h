// The files of rides: all results, and the force of each wheel over time.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "cases/rides/ride_study.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

/// Time (s), then least and greatest force of each wheel in even parts of the ride, N.
std::string wheel_forces_csv(const RideResult& ride);

/// rides.json, and ride_NAME.csv and .svg of each ride, into `directory`, which is there. `json`:
/// ride_json().
std::optional<WriteFailure> write_ride_files(const RideStudy& study, const std::string& json,
                                             const std::filesystem::path& directory);

}  // namespace tubewright
