#include "cases/studies/frame_studies.h"

#include <utility>

namespace tubewright {

namespace {

/// The answer, if there is one. That a study has none is no fault of a report on the whole.
template <class Study>
std::optional<Study> if_answered(std::variant<Study, Problems> outcome) {
  if (auto* study = std::get_if<Study>(&outcome)) return std::move(*study);
  return std::nullopt;
}

/// The load cases solved and checked, and nothing more.
std::variant<FrameStudies, Problems> solved(const Frame& frame,
                                            const std::vector<std::string>& only,
                                            const AnalysisOptions& options, const TellStep& tell) {
  AnalysisOutcome outcome = analyse(frame, only, options, tell);
  if (auto* problems = std::get_if<Problems>(&outcome)) return std::move(*problems);
  FrameStudies studies;
  studies.analysis = std::move(std::get<Analysis>(outcome));
  return studies;
}

std::variant<FrameStudies, Problems> with_fatigue(const Frame& frame,
                                                  const std::vector<std::string>& only,
                                                  const AnalysisOptions& options,
                                                  const TellStep& tell) {
  auto outcome = solved(frame, only, options, tell);
  auto* studies = std::get_if<FrameStudies>(&outcome);
  if (studies == nullptr) return outcome;
  tell("screening for fatigue", 0, 0);
  auto fatigue = fatigue_screening(studies->analysis);
  if (auto* problems = std::get_if<Problems>(&fatigue)) return std::move(*problems);
  studies->fatigue = std::move(std::get<std::optional<FatigueScreening>>(fatigue));
  return outcome;
}

}  // namespace

bool FrameStudies::passes() const {
  return analysis.passes() && (!fatigue || !fatigue->counts || fatigue->passes());
}

std::variant<FrameStudies, Problems> verdict_check(const Frame& frame,
                                                   const std::vector<std::string>& only,
                                                   const AnalysisOptions& options,
                                                   const TellStep& tell) {
  return frame.life ? with_fatigue(frame, only, options, tell) : solved(frame, only, options, tell);
}

std::variant<FrameStudies, Problems> full_check(const Frame& frame,
                                                const std::vector<std::string>& only,
                                                const AnalysisOptions& options,
                                                const TellStep& tell) {
  auto outcome = with_fatigue(frame, only, options, tell);
  auto* studies = std::get_if<FrameStudies>(&outcome);
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
