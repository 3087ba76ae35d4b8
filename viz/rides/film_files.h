// Rides around their worst instants as animations for general 3D viewers: of each ride an index
// `ride_NAME.pvd` and for each image of its film (ride_film.h) the tubes as lines and the wheels.
// Time is in seconds of the ride.
//
// The mesh is undeformed, in mm; displace it by `displacement` (mm). That counts from standing at
// rest on level ground; forces and stresses are all there is, those at rest included.
#pragma once

#include <optional>
#include <string>

#include "cases/rides/ride_study.h"
#include "viz/files/load_files.h"

namespace tubewright {

/// Writes into `directory`, which is made if it is missing. Every file appears whole or not at all,
/// each index after what it lists. A ride without film has no files.
std::optional<WriteFailure> write_film_files(const RideStudy& study, const std::string& directory);

}  // namespace tubewright
