// What a passing result does not mean, in the words every output repeats.
#pragma once

#include <string>
#include <vector>

#include "cases/studies/frame_studies.h"

namespace tubewright {

/// The standing cautions: one sentence each, capital to full stop.
std::vector<std::string> cautions();

/// The same with what concerns the answer of one command, first.
std::vector<std::string> torsion_cautions();
std::vector<std::string> floor_cautions();
std::vector<std::string> bench_cautions();
std::vector<std::string> modes_cautions();
std::vector<std::string> buckling_cautions();

/// Checks that were not made or only in part, and why, each with how many members it concerns:
/// "joint: no tube runs through there: no rule for a corner (12 members)".
std::vector<std::string> checks_not_made(const FrameStudies& studies);

}  // namespace tubewright
