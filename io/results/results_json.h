// Results as one JSON object, "tubewright-results/1": the frame's answers for other programs.
//
// Workshop units: mm, rad, N, N m, MPa, kg; axes ISO 8855. Every number in full; a number that does
// not exist is null, never NaN. Sections that were not asked for are absent.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/verdict/frame_studies.h"

namespace tubewright {

/// `warnings`: doubts about the frame file, told besides the analysis's own remarks.
std::string results_json(const FrameStudies& studies, const Diagnostics& warnings = {});

}  // namespace tubewright
