// One load case of the terminal summary.
#pragma once

#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "io/text/terminal.h"

namespace tubewright {

/// The members nearest their limit (at most five), the greatest movement, what the supports give,
/// how well the forces balance, slack cables.
std::string case_summary(const Analysis& analysis, const CaseResult& result, Paint paint);

/// Indices of the members with a utilisation above 1.
std::vector<int> failing_members(const CaseResult& result);

}  // namespace tubewright
