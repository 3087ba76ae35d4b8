// What `ride` answers, as text and as JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/rides/ride_study.h"
#include "io/text/terminal.h"

namespace tubewright {

/// One line a ride: "kerb: FAIL, joint of `rail` 1.42 at 0.412 s; front_left 3.1 times its load".
std::string ride_lines(const RideStudy& study);

std::string ride_text(const RideStudy& study, Paint paint);
std::string ride_json(const RideStudy& study, const Diagnostics& warnings);

// What the report repeats.

/// The entry of one of the `rides` in the JSON.
nlohmann::ordered_json ride_part(const RideStudy& study, const RideResult& ride);

/// How long it lasts by one ride alone.
std::string wear_words(const RideStudy& study, const RideResult& ride);

/// What all rides and `life` use of the life of what they wear most; empty: nothing is counted.
std::string life_sentence(const RideStudy& study);

std::vector<std::string> ride_cautions(const RideStudy& study);

}  // namespace tubewright
