#include "cases/studies/torsion_study.h"

#include <utility>

#include "cases/analysis/frame_edits.h"
#include "cases/model/build_model.h"

namespace tubewright {

Result<TorsionStudy> torsion_study(const Frame& frame, TorsionHold hold) {
  Result<Torsion> outcome = torsion_test(frame, hold);
  if (auto* diagnostics = outcome.error()) return std::move(*diagnostics);
  TorsionStudy s;
  s.test = std::move(*outcome);
  const bool is_free = hold == TorsionHold::free;
  s.other_hold = torsional_stiffness(frame, is_free ? TorsionHold::clamped : TorsionHold::free);
  s.rigid_joints = torsional_stiffness(with_joint_flexibility(frame, rigid_joints), hold);
  if (!frame.panels.empty()) s.without_panels = torsional_stiffness(without_panels(frame), hold);
  const std::optional<double> free = is_free ? std::optional(s.test.stiffness) : s.other_hold;
  if (free) s.support = roll_support(frame, *free);
  const NumberedFrame numbered = build_model(frame);
  s.joints = joint_summary(frame, joint_springs(frame, numbered));
  s.mass = mass_summary(frame, numbered);
  return s;
}

bool torsion_passes(const Frame& frame, const TorsionStudy& study) {
  const std::optional<double>& wanted = frame.limits.torsional_stiffness;
  return !wanted || study.test.stiffness >= *wanted;
}

}  // namespace tubewright
