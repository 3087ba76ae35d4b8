// What a passing result does not mean, in the words every output repeats.
#pragma once

#include <string>
#include <vector>

#include "cases/verdict/frame_studies.h"

namespace tubewright {

/// The standing cautions: one sentence each, capital to full stop.
std::vector<std::string> cautions();

/// The same with what concerns the answer of one command, first.
std::vector<std::string> torsion_cautions();
std::vector<std::string> floor_cautions();
std::vector<std::string> bench_cautions();
std::vector<std::string> modes_cautions();
std::vector<std::string> buckling_cautions();

/// Checks made by a rule outside its stated range, each with what the rule was not written for and
/// how many members it concerns: "weld: walls below 4 mm (12 members)".
std::vector<std::string> comparisons(const Analysis& analysis);

/// Parts of the job that this program does not check at all, as far as the frame has them.
std::vector<std::string> not_looked_at(const Analysis& analysis);

/// What is not proven, then what is not looked at.
std::vector<std::string> checks_not_made(const FrameStudies& studies);

}  // namespace tubewright
