// The results as a page of text for a terminal: at most 100 columns, readable in monochrome.
#pragma once

#include <string>

#include "cases/verdict/frame_studies.h"
#include "io/text/terminal.h"

namespace tubewright {

/// The verdict, how much was checked, what is not proven; mass; for every case the members nearest
/// their limit, the greatest movement, reactions, balance; what was compared only and what is not
/// looked at; cautions; the verdict again as the last line.
std::string summary(const FrameStudies& studies, Paint paint = {});

}  // namespace tubewright
