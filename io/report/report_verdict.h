// The verdict on a frame, as the head of the report shows it.
#pragma once

#include <nlohmann/json.hpp>

#include "cases/studies/frame_studies.h"

namespace tubewright {

/// Whether the frame passes, in a sentence, and what is nearest its limit; nulls where nothing
/// could be checked.
nlohmann::ordered_json report_verdict(const FrameStudies& studies);

}  // namespace tubewright
