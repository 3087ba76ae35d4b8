// Everything that is known of a frame: the finished results that every output is written from.
// Whatever an output shows is solved here, once a run; writers compute nothing.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/frame/diagnostic.h"
#include "cases/sheets/sheet_blanks.h"
#include "cases/studies/buckle_study.h"
#include "cases/studies/floor_study.h"
#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion_study.h"
#include "cases/verdict/fatigue_screening.h"
#include "cases/verdict/limit_checks.h"
#include "cases/verdict/verdict.h"
#include "cases/verdict/what_if.h"
#include "cases/workshop/cut_list.h"

namespace tubewright {

/// Members beyond which studies take too long to be made unasked.
constexpr std::size_t large_frame = 2000;

struct FrameStudies {
  Analysis analysis;
  std::optional<FatigueScreening> fatigue;
  std::vector<LimitCheck> limits;
  Verdict verdict;  ///< of the load cases, the limits and fatigue
  std::vector<WhatIf> what_ifs;

  // Of complete_studies() only. None: the frame has not what it takes, or is too large.
  std::optional<TorsionStudy> torsion;
  std::optional<FloorStudy> floor;
  std::optional<FrameModes> modes;
  std::optional<BuckleStudy> buckling;
  std::optional<CutList> cut;
  std::optional<SheetBlanks> sheets;
};

/// The load cases solved and checked, screened for fatigue, and (large frames excepted) what
/// becomes of the frame if it comes out otherwise than drawn. `only`: see analyse().
Result<FrameStudies> full_check(const Frame& frame, const std::vector<std::string>& only = {},
                                const AnalysisOptions& options = {},
                                const TellStep& tell = tell_nobody);

/// As much of it as the verdict needs.
Result<FrameStudies> verdict_check(const Frame& frame, const std::vector<std::string>& only = {},
                                   const AnalysisOptions& options = {},
                                   const TellStep& tell = tell_nobody);

/// Adds the studies that the frame has what it takes for: those of a report, its files for the
/// workshop and its modes. Of large frames only what the workshop needs.
void complete_studies(FrameStudies& studies, const TellStep& tell = tell_nobody);

}  // namespace tubewright
