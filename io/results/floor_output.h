// What `floor` answers, as text and as JSON.
#pragma once

#include <string>

#include "cases/studies/floor_study.h"
#include "io/text/terminal.h"

namespace tubewright {

/// False if the frame with its sheet fails a check or is softer than `limits.torsional_stiffness`.
bool floor_passes(const Frame& frame, const FloorStudy& study);

std::string floor_text(const Frame& frame, const FloorStudy& study, Paint paint);
std::string floor_json(const Frame& frame, const FloorStudy& study, const Problems& warnings);

}  // namespace tubewright
