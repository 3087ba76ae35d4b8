// The screening for fatigue, as the report tells it.
#pragma once

#include <nlohmann/json.hpp>

#include "cases/verdict/frame_studies.h"

namespace tubewright {

/// What the frame goes through and what becomes of each member; null where it was not screened.
nlohmann::ordered_json report_fatigue(const FrameStudies& studies);

}  // namespace tubewright
