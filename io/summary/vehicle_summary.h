// The part of the terminal summary that speaks of wheels, balance and suspension.
#pragma once

#include <string>

#include "cases/analysis/analysis.h"
#include "io/text/terminal.h"

namespace tubewright {

/// How the vehicle stands, what it can do at all, and where its model comes from; "" without one.
std::string vehicle_lines(const Analysis& analysis);

/// Wheel table, balance, links and pick-ups of one case of kind vehicle; "" for others.
std::string driving_lines(const Analysis& analysis, const CaseResult& result, Paint paint);

}  // namespace tubewright
