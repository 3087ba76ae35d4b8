// What `floor` answers, as text and as JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/studies/floor_study.h"
#include "io/text/terminal.h"

namespace tubewright {

std::string floor_text(const Frame& frame, const FloorStudy& study, Paint paint);
std::string floor_json(const Frame& frame, const FloorStudy& study, const Problems& warnings);

/// `floor` of floor_json().
nlohmann::ordered_json floor_part(const FloorStudy& study);

}  // namespace tubewright
