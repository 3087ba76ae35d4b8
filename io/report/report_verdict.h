// The verdict on a frame, as the head of the report shows it.
#pragma once

#include <nlohmann/json.hpp>

#include "cases/verdict/frame_studies.h"

namespace tubewright {

/// The answer, its counts and reasons, as a word and in sentences; what is nearest its limit, null
/// where nothing could be checked.
nlohmann::ordered_json report_verdict(const FrameStudies& studies);

}  // namespace tubewright
