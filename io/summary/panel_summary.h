// The sheets of one load case in the terminal summary.
#pragma once

#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "io/text/terminal.h"

namespace tubewright {

/// Indices of the panels with a utilisation above 1.
std::vector<int> failing_panels(const CaseResult& result);

/// The panels nearest their limit (at most five): shear flow, stress, whether they buckled, rivets.
std::string panel_rows(const Analysis& analysis, const CaseResult& result, Paint paint);

}  // namespace tubewright
