// Two frames side by side: their numbers, what is to be bought and cut for each, what was changed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/tell_step.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/model/mass_summary.h"
#include "cases/variants/frame_changes.h"
#include "cases/variants/frame_numbers.h"

namespace tubewright {

/// One of the two.
struct FrameSide {
  std::optional<FrameNumbers> numbers;  ///< none: its load cases have no answer
  Diagnostics trouble;                  ///< why
  MassSummary mass;
  std::vector<double> frequencies;  ///< the frame's own, Hz, the lowest few
  int bars = 0;                     ///< to buy
  std::optional<double> cost;       ///< of all bars; none: a size has no price
  int pieces = 0;                   ///< to cut
  double weld_length = 0;           ///< m
};

/// What is used at most in a case.
struct ComparedCase {
  std::string name;
  Pair<std::optional<Worst>> worst;  ///< none: no such case, no check in it, or no answer
};

/// The bars of one size.
struct ComparedBars {
  SectionEntry section;  ///< of the first frame that has it
  Pair<int> bars{};
  Pair<std::optional<double>> cost;
};

struct FrameComparison {
  Pair<FrameSide> sides;
  std::vector<ComparedCase> cases;  ///< in the order of the second, then those of the first alone
  std::vector<ComparedBars> bars;
  FrameChanges changes;
};

/// Solves both, side by side. Requires: both are sound and have their load cases.
FrameComparison compare_frames(const Frame& first, const Frame& second,
                               const TellStep& tell = tell_nobody);

/// The second passes.
bool comparison_passes(const FrameComparison& comparison);

}  // namespace tubewright
