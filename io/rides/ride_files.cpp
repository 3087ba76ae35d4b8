#include "io/rides/ride_files.h"

#include <cmath>

#include "io/rides/ride_svg.h"
#include "io/text/text_layout.h"

namespace tubewright {

std::string wheel_forces_csv(const RideResult& ride) {
  std::string text = "time";
  for (const RideWheel& w : ride.wheels) text += "," + w.name + " least," + w.name + " greatest";
  text += '\n';
  for (size_t k = 0; k < ride.trace.time.size(); ++k) {
    // A short ride has fewer steps than parts.
    if (!std::isfinite(ride.trace.least.front()[k])) continue;
    text += fixed(ride.trace.time[k], 5);
    for (size_t w = 0; w < ride.wheels.size(); ++w) {
      text += "," + fixed(ride.trace.least[w][k], 2) + "," + fixed(ride.trace.greatest[w][k], 2);
    }
    text += '\n';
  }
  return text;
}

std::optional<WriteFailure> write_ride_files(const RideStudy& study, const std::string& json,
                                             const std::filesystem::path& directory) {
  if (auto failure = write_file_atomically(directory / "rides.json", json)) return failure;
  for (const RideResult& ride : study.rides) {
    const std::string name = "ride_" + ride.name;
    auto failure = write_file_atomically(directory / (name + ".csv"), wheel_forces_csv(ride));
    if (!failure) failure = write_file_atomically(directory / (name + ".svg"), ride_svg(ride));
    if (failure) return failure;
  }
  return std::nullopt;
}

}  // namespace tubewright
