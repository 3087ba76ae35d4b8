// Yield: von Mises stress against the yield strength, EN 1993-1-1:2005, 6.2.1(5).
#pragma once

#include "cases/checks/check_result.h"
#include "cases/frame/frame.h"
#include "solver/elements/stress.h"
#include "solver/model/material.h"

namespace tubewright {

/// The safety factor asked of a case: its own `yield_factor`; else 1.0 for a rare event, in which
/// yield may be reached (common practice, no source); else `limits.yield_factor`, 1.5 unless given.
double safety_factor(const Frame& frame, const Case& c);

/// utilisation = factor sigma_v / f_y, gamma_M0 = 1.0.
CheckResult yield_check(const Stress& stress, const Material& material, double factor);

}  // namespace tubewright
