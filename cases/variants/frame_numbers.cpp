#include "cases/variants/frame_numbers.h"

#include <string>
#include <utility>

#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion.h"
#include "cases/verdict/limit_checks.h"

namespace tubewright {

namespace {

/// What a limit of the file had to be held against, and so has been found already.
std::optional<double> found_for_limit(const FrameStudies& studies, const std::string& name) {
  for (const LimitCheck& limit : studies.limits) {
    if (limit.name == name && limit.result.utilisation) return limit.found;
  }
  return std::nullopt;
}

std::optional<double> stiffness_of(const FrameStudies& studies) {
  if (const auto found = found_for_limit(studies, "torsional_stiffness")) return found;
  const Frame& frame = studies.analysis.frame;
  return frame.torsion ? torsional_stiffness(frame) : std::nullopt;
}

std::optional<double> frequency_of(const FrameStudies& studies) {
  if (const auto found = found_for_limit(studies, "frequency")) return found;
  constexpr int lowest = 1;
  const Result<FrameModes> modes = frame_modes(studies.analysis.frame, lowest);
  const FrameMode* mode = modes ? lowest_elastic(*modes) : nullptr;
  return mode != nullptr ? std::optional(mode->frequency) : std::nullopt;
}

}  // namespace

FrameNumbers numbers_of(const FrameStudies& studies) {
  const MassSummary& mass = studies.analysis.mass;
  return {mass.tubes + mass.panels, stiffness_of(studies), frequency_of(studies),
          worst_of_all(studies.analysis), studies.verdict.answer};
}

Result<FrameNumbers> frame_numbers(const Frame& frame) {
  auto checked = verdict_check(frame);
  if (auto* diagnostics = checked.error()) return std::move(*diagnostics);
  return numbers_of(*checked);
}

}  // namespace tubewright
