#include "cases/checks/yield_check.h"

#include <cmath>

namespace tubewright {

double safety_factor(const Frame& frame, const Case& c) {
  return c.yield_factor.value_or(c.rare ? 1.0 : frame.limits.yield_factor);
}

CheckResult yield_check(const Stress& stress, const Material& material, double factor) {
  CheckResult r;
  r.clause = "EN 1993-1-1 6.2.1(5)";
  if (std::isnan(material.yield)) {
    r.reason = "the material has no yield strength";
  } else {
    r.utilisation = factor * stress.von_mises / material.yield;
  }
  return r;
}

}  // namespace tubewright
