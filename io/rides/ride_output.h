// What `ride` answers, as text and as JSON.
#pragma once

#include <string>

#include "cases/rides/ride_study.h"
#include "io/text/terminal.h"

namespace tubewright {

/// One line a ride: "kerb: FAIL, joint of `rail` 1.42 at 0.412 s; front_left 3.1 times its load".
std::string ride_lines(const RideStudy& study);

std::string ride_text(const RideStudy& study, Paint paint);
std::string ride_json(const RideStudy& study, const Diagnostics& warnings);

}  // namespace tubewright
