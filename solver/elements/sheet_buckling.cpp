#include "solver/elements/sheet_buckling.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tubewright {

double critical_shear_stress(double E, double nu, double t, double a, double b, SheetEdge edge) {
  const auto [shorter, longer] = std::minmax(a, b);
  const double ratio = shorter / longer;
  const double k_s =
      edge == SheetEdge::clamped ? 8.98 + 5.60 * ratio * ratio : 5.34 + 4.00 * ratio * ratio;
  const double slenderness = t / shorter;
  return k_s * std::numbers::pi * std::numbers::pi * E / (12 * (1 - nu * nu)) * slenderness *
         slenderness;
}

double diagonal_tension_share(double tau, double critical) {
  return tau > critical ? std::tanh(0.5 * std::log10(tau / critical)) : 0;
}

double shear_stiffness_kept(double k, double nu) { return 1 / ((1 - k) + 2 * k / (1 + nu)); }

double tension_field_angle(double t, double depth, double bay, double flange_area,
                           double upright_area) {
  return std::atan(
      std::pow((1 + t * depth / (2 * flange_area)) / (1 + t * bay / upright_area), 0.25));
}

SheetStress tension_field_stress(double tau, double k, double alpha) {
  const double s = std::sin(2 * alpha);
  return {2 * k * tau / s + tau * (1 - k) * s, -tau * (1 - k) * s};
}

}  // namespace tubewright
