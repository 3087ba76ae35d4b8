// A vehicle in its modes driven along one ride: what wheels and carried masses do.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/rides/ride_model.h"
#include "cases/rides/ride_result.h"

namespace tubewright {

/// Some instants of a ride, `stride` steps apart, one a column: forces, and what elastic modes have
/// beyond their static answer to them (RideModel).
struct RideSamples {
  std::int64_t first = 0;  ///< step of the first column
  std::int64_t stride = 1;
  Eigen::MatrixXd x;
};

/// s, at most a quarter of a millisecond and 2 mm of way.
double time_step_of(const RideEntry& ride);

/// Drives, and once more with half the step. Of the result: name, times, wheels, masses, trace,
/// speed lost, whether it converged. `each`: gets samples at most 0.5 ms apart, block by block.
/// Diagnostics: the vehicle does not stand, or the numbers grow beyond all bounds.
Result<RideResult> drive_ride(const Vehicle& vehicle, const RideModel& model, const RideEntry& ride,
                              const std::function<void(const RideSamples&)>& each);

/// Why an answer by this ride is not proven.
std::vector<std::string> doubts_of(const RideEntry& ride, const RideResult& driven);

}  // namespace tubewright
