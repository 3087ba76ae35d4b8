// A full check that tells which step it is at, for whoever wants to show it.
#pragma once

#include <cstddef>
#include <functional>
#include <string_view>

#include "cases/analysis/analysis.h"

namespace tubewright {

/// `step`: "solving load cases"; `number` of `count`, counted from 1; count 0: not counted.
using TellStep = std::function<void(std::string_view step, std::size_t number, std::size_t count)>;

/// As analyse() and full_check() of analysis.h. `tell` is called by the thread that calls these.
AnalysisOutcome analyse(const Frame& frame, const std::vector<std::string>& only,
                        const AnalysisOptions& options, const TellStep& tell);
AnalysisOutcome full_check(const Frame& frame, const std::vector<std::string>& only,
                           const AnalysisOptions& options, const TellStep& tell);

}  // namespace tubewright
