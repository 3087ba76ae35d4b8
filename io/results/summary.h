// The results as a page of text for a terminal: at most 100 columns, readable in monochrome.
#pragma once

#include <string>

#include "cases/studies/frame_studies.h"
#include "io/text/terminal.h"

namespace tubewright {

/// Mass; for every case the members nearest their limit, the greatest movement, reactions, balance;
/// the verdict; what was not checked; cautions.
std::string summary(const FrameStudies& studies, Paint paint = {});

/// One plain sentence: pass or fail, the governing member and case, by how much. No line end.
std::string verdict_sentence(const FrameStudies& studies);

/// The same with its first word painted.
std::string verdict(const FrameStudies& studies, Paint paint = {});

/// 0 if every check made passes, else 1.
int exit_code(const FrameStudies& studies);

}  // namespace tubewright
