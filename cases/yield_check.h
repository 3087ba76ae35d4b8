// Yield: von Mises stress against the yield strength, EN 1993-1-1:2005, 6.2.1(5).
#pragma once

#include <optional>
#include <string>

#include "solver/material.h"
#include "solver/stress.h"

namespace tubewright {

/// One check of one item. `utilisation` is 1 at the limit; empty when the check does not apply or
/// cannot be made, and `reason` then says why.
struct CheckResult {
  std::optional<double> utilisation;
  std::string reason;
  std::string clause;  ///< the rule it follows
};

/// utilisation = factor sigma_v / f_y, gamma_M0 = 1.0. `factor`: the reserve asked for, 1.5 in
/// service and 1.0 for rare events unless the frame file says otherwise (common practice).
CheckResult yield_check(const Stress& stress, const Material& material, double factor);

}  // namespace tubewright
