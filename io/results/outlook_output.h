// What lies beyond the load cases: fatigue screening, and the frame coming out otherwise than
// drawn.
#pragma once

#include <string>

#include "cases/verdict/frame_studies.h"
#include "io/text/json_lines.h"
#include "io/text/terminal.h"

namespace tubewright {

/// Nothing where there is none.
std::string fatigue_lines(const FrameStudies& studies, Paint paint);
std::string what_if_lines(const FrameStudies& studies, Paint paint);

void write_fatigue(JsonLines& out, const FrameStudies& studies);
void write_what_ifs(JsonLines& out, const FrameStudies& studies);

}  // namespace tubewright
