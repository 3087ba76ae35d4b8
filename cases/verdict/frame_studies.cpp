#include "cases/verdict/frame_studies.h"

#include <utility>

namespace tubewright {

namespace {

/// The answer, if there is one. That a study has none is no fault of a report on the whole.
template <class Study>
std::optional<Study> if_answered(Result<Study> outcome) {
  if (auto* study = outcome.get()) return std::move(*study);
  return std::nullopt;
}

}  // namespace

Result<FrameStudies> verdict_check(const Frame& frame, const std::vector<std::string>& only,
                                   const AnalysisOptions& options, const TellStep& tell) {
  Result<Analysis> outcome = analyse(frame, only, options, tell);
  if (auto* diagnostics = outcome.error()) return std::move(*diagnostics);
  FrameStudies studies;
  studies.analysis = std::move(*outcome);
  tell("screening for fatigue", 0, 0);
  auto fatigue = fatigue_screening(studies.analysis);
  if (auto* diagnostics = fatigue.error()) return std::move(*diagnostics);
  studies.fatigue = std::move(*fatigue);
  studies.limits = limit_checks(studies.analysis);
  studies.verdict = verdict_of(studies.analysis, studies.limits, studies.fatigue);
  return studies;
}

Result<FrameStudies> full_check(const Frame& frame, const std::vector<std::string>& only,
                                const AnalysisOptions& options, const TellStep& tell) {
  auto outcome = verdict_check(frame, only, options, tell);
  auto* studies = outcome.get();
  if (studies != nullptr && frame.members.size() <= large_frame) {
    tell("what if it comes out otherwise", 0, 0);
    studies->what_ifs = what_ifs(studies->analysis, only);
  }
  return outcome;
}

void complete_studies(FrameStudies& studies, const TellStep& tell) {
  const Frame& frame = studies.analysis.frame;
  tell("laying pieces out on bars", 0, 0);
  studies.cut = cut_list(frame);
  studies.sheets = sheet_blanks(frame);
  if (frame.members.size() > large_frame) return;
  if (frame.torsion) {
    tell("twisting the frame", 0, 0);
    studies.torsion = if_answered(torsion_study(frame, TorsionHold::free));
  }
  if (frame.torsion && !frame.panels.empty()) {
    tell("judging the floor", 0, 0);
    studies.floor = if_answered(floor_study(frame));
  }
  constexpr int modes = 10, factors = 4;  // as `modes` and `buckle` give unasked
  tell("finding natural modes", 0, 0);
  studies.modes = if_answered(frame_modes(frame, modes));
  tell("finding buckling factors", 0, 0);
  studies.buckling = if_answered(buckle_study(frame, {}, factors));
}

}  // namespace tubewright
