#include "cases/joints/rivet_resistance.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tubewright {

double blind_rivet_shear_strength(double diameter) {
  constexpr double per_mm2 = 38e6;  // N/m2 of d^2
  return per_mm2 * diameter * diameter;
}

double bearing_strength(double f_u, double sheet_thickness, double d, double support_thickness) {
  const double t = std::min(sheet_thickness, support_thickness);
  constexpr double greatest_f_u = 260e6;
  const double f = std::min(f_u, greatest_f_u);
  const double thick = 1.5 * f * t * d;
  const double thin = std::min(2.5 * f * std::sqrt(t * t * t * d), thick);
  const double share = std::clamp((support_thickness / t - 1) / (2.5 - 1), 0.0, 1.0);
  return std::lerp(thin, thick, share);
}

double tear_out_strength(double f_u, double t, double d, double edge_distance) {
  const double two_planes = 2 * (edge_distance - d / 2) * t * f_u / std::sqrt(3.0);
  return two_planes < 0 ? 0 : two_planes;  // NaN, where something is not known, stays
}

double inter_rivet_buckling_stress(double E, double t, double pitch) {
  constexpr double c = 2;
  return c * std::numbers::pi * std::numbers::pi * E / 12 * (t / pitch) * (t / pitch);
}

}  // namespace tubewright
