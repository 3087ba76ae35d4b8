// What torsion asks of a frame, in one answer: the test, held the other way too and without sheets,
// and what the stiffness is good for on the road.
#pragma once

#include <optional>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/mass_summary.h"
#include "cases/studies/roll_support.h"
#include "cases/studies/torsion.h"

namespace tubewright {

struct TorsionStudy {
  Torsion test;
  std::optional<double> other_hold;    ///< stiffness held the other way, N m/rad
  std::optional<double> rigid_joints;  ///< as if tubes met rigidly where their axes do, N m/rad
  JointSummary joints;
  std::optional<double> without_panels;  ///< N m/rad; none: no panels, or loose without them
  RollSupportOutcome support;
  MassSummary mass;
};

/// Requires: the frame is sound and has a torsion test.
Result<TorsionStudy> torsion_study(const Frame& frame, TorsionHold hold);

/// False if softer than `limits.torsional_stiffness`.
bool torsion_passes(const Frame& frame, const TorsionStudy& study);

}  // namespace tubewright
