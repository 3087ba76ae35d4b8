// A frame in a handful of numbers, to set it beside others: what it weighs, how stiff it is, what
// is used of its limits.
#pragma once

#include <optional>

#include "cases/analysis/analysis.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/verdict/frame_studies.h"
#include "cases/verdict/verdict.h"

namespace tubewright {

struct FrameNumbers {
  double mass = 0;  ///< of tubes and panels, kg
  std::optional<double>
      stiffness;  ///< in torsion, N m/rad; none: no `torsion`, or it has no answer
  std::optional<double> frequency;  ///< lowest of the frame's own, Hz
  std::optional<WorstOfAll> worst;  ///< of all cases
  Verdict::Answer verdict = Verdict::Answer::not_proven;
};

/// Those of a frame that has been checked; solves what the check did not need.
FrameNumbers numbers_of(const FrameStudies& studies);

/// Solves the frame. Diagnostics: its load cases have no answer. Requires: the frame is sound.
Result<FrameNumbers> frame_numbers(const Frame& frame);

}  // namespace tubewright
