// A frame as a line drawing: two of them side by side show what was changed.
#pragma once

#include <string>

#include "cases/variants/frame_comparison.h"
#include "io/variants/compare_output.h"

namespace tubewright {

/// The tubes of both frames from the same side and at the same scale, as SVG without a size of its
/// own. Tubes are of class `same`, `other`, `resized` or `moved`; each has its name as title.
Pair<std::string> frame_figures(const Comparison& c);

}  // namespace tubewright
