#include "cases/studies/torsion_study.h"

#include <utility>

#include "cases/analysis/frame_edits.h"
#include "cases/model/build_model.h"

namespace tubewright {

std::variant<TorsionStudy, Problems> torsion_study(const Frame& frame, TorsionHold hold) {
  TorsionOutcome outcome = torsion_test(frame, hold);
  if (auto* problems = std::get_if<Problems>(&outcome)) return std::move(*problems);
  TorsionStudy s;
  s.test = std::move(std::get<Torsion>(outcome));
  const bool is_free = hold == TorsionHold::free;
  s.other_hold = torsional_stiffness(frame, is_free ? TorsionHold::clamped : TorsionHold::free);
  if (!frame.panels.empty()) s.without_panels = torsional_stiffness(without_panels(frame), hold);
  const std::optional<double> free = is_free ? std::optional(s.test.stiffness) : s.other_hold;
  if (free) s.support = roll_support(frame, *free);
  s.mass = mass_summary(frame, build_model(frame));
  return s;
}

bool torsion_passes(const Frame& frame, const TorsionStudy& study) {
  const std::optional<double>& wanted = frame.limits.torsional_stiffness;
  return !wanted || study.test.stiffness >= *wanted;
}

}  // namespace tubewright
