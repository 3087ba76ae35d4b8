// The wording of what can be wrong with a ride in the frame file. Lengths in m, times in s.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

Diagnostic ride_over_nothing(const std::string& ride);
/// `keys`: those given of step, obstacle, road and profile.
Diagnostic ride_over_several(const std::string& ride, const std::vector<std::string>& keys);
/// `key` is asked for by `of`, "a pothole".
Diagnostic ride_lacks(const std::string& ride, const std::string& of, const std::string& key);
/// `key` says nothing of what the ride goes over, "a step".
Diagnostic not_of_this_ride(const std::string& ride, const std::string& key,
                            const std::string& over);
Diagnostic level_step(const std::string& ride);
Diagnostic no_seed(const std::string& ride);

/// `why`: in words, from the system or from the reader of the file.
Diagnostic unreadable_profile(const std::string& ride, const std::string& file,
                              const std::string& why);

Diagnostic ride_without_vehicle(const std::string& ride);
Diagnostic wheel_without_radius(const std::string& wheel, const std::string& ride);
Diagnostic wheel_without_tyre(const std::string& wheel, const std::string& ride);
Diagnostic unclimbable(const std::string& ride, double height, const std::string& wheel,
                       double radius);
Diagnostic ride_too_short(const std::string& ride, double duration, double needed);
Diagnostic does_not_stand();
Diagnostic ride_diverges(const std::string& ride);
Diagnostic no_rides();
/// `ride_case`: a case whose instants are named after it.
Diagnostic name_of_an_instant(const std::string& load_case, const std::string& ride_case);
Diagnostic no_wheel_on_side(const std::string& ride, const std::string& side);

}  // namespace tubewright
