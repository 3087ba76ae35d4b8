// The targets that `limits` of a frame file set for the frame as a whole: mass, torsional
// stiffness, lowest natural frequency. (Deflection is a check of each load case.)
#pragma once

#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/checks/check_result.h"
#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion_study.h"

namespace tubewright {

/// One target. Its utilisation is what it takes of the target: mass over the greatest allowed,
/// stiffness or frequency asked for over that found.
struct LimitCheck {
  std::string name;  ///< the key of the frame file
  double asked = 0;  ///< kg, N m/rad, Hz
  double found = 0;  ///< likewise; 0 where `result` has no number
  CheckResult result;
};

/// Those that the file sets, in the order of their keys. Solves what they need.
std::vector<LimitCheck> limit_checks(const Analysis& analysis);

}  // namespace tubewright
