#include "cases/attachment_checks/plate_weld.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/checks/weld_check.h"
#include "cases/joints/joint_scope.h"

namespace tubewright {
namespace {

double effective_length(const FootWeld& w) { return std::max(0.0, w.length - 2 * w.throat); }

CheckResult against(const FootWeld& w, double line_force, double length) {
  CheckResult r;
  r.clause = "EN 1993-1-8 4.5.3.3";
  if (!(w.fu > 0)) {
    r.reason = "the ultimate strength of what is joined is not known";
    return r;
  }
  if (!(length > 0)) {
    r.reason = "the weld is no longer than its ends, which do not count (4.5.1)";
    return r;
  }
  constexpr double least_throat = 3e-3, least_part = 4e-3, least_length = 30e-3, rounding = 1e-9;
  RangesLeft left;
  left.note(w.throat < least_throat - rounding, "a throat under 3 mm");
  left.note(w.thinnest < least_part - rounding, "parts under 4 mm");
  left.note(length < std::max(least_length, 6 * w.throat) - rounding,
            "a weld shorter than 30 mm or 6 throats");
  const double strength = w.throat * weld_shear_strength(w.fu, correlation_factor(w.fy));
  r.utilisation = line_force / strength;
  r.comparison = !left.none();
  r.reason = left.text();
  return r;
}

}  // namespace

double greatest_line_force(const FootWeld& w, const FootLoads& f) {
  const double l = effective_length(w), t = w.apart;
  // Two lines: W = 2 l^2/6 in their plane, a couple t apart across it, J = 2 (l^3/12 + l (t/2)^2).
  const double J = 2 * (std::pow(l, 3) / 12 + l * t * t / 4);
  const double across =
      std::abs(f.N) / (2 * l) + 3 * std::abs(f.M_strong) / (l * l) + std::abs(f.M_weak) / (t * l);
  const double along = std::abs(f.V_along) / (2 * l) + std::abs(f.M_twist) * t / 2 / J;
  const double aside = std::abs(f.V_aside) / (2 * l) + std::abs(f.M_twist) * l / 2 / J;
  return std::hypot(across, along, aside);
}

double greatest_ring_force(const FootWeld& w, const FootLoads& f) {
  const double D = w.length;
  const double M = std::hypot(f.M_strong, f.M_weak), V = std::hypot(f.V_along, f.V_aside);
  const double across = std::abs(f.N) / (std::numbers::pi * D) + 4 * M / (std::numbers::pi * D * D);
  const double round =
      2 * V / (std::numbers::pi * D) + 2 * std::abs(f.M_twist) / (std::numbers::pi * D * D);
  return std::hypot(across, round);
}

CheckResult plate_weld_check(const FootWeld& w, const FootLoads& f) {
  const double l = effective_length(w);
  return against(w, l > 0 ? greatest_line_force(w, f) : 0, l);
}

CheckResult ring_weld_check(const FootWeld& w, const FootLoads& f) {
  return against(w, greatest_ring_force(w, f), std::numbers::pi * w.length);
}

double usual_plate_throat(double thinnest) { return 0.7 * thinnest; }

CheckResult plate_yield_check(double t, double h, double fy, const FootLoads& f) {
  CheckResult r;
  r.clause = "EN 1993-1-1 6.2.1(5)";
  if (!(fy > 0)) {
    r.reason = "the plate's yield strength is not known";
    return r;
  }
  const double sigma = std::abs(f.N) / (t * h) + std::abs(f.M_strong) / (t * h * h / 6) +
                       std::abs(f.M_weak) / (h * t * t / 6);
  const double tau =
      std::hypot(f.V_along, f.V_aside) / (t * h) + 3 * std::abs(f.M_twist) / (h * t * t);
  r.utilisation = std::sqrt(sigma * sigma + 3 * tau * tau) / fy;
  return r;
}

}  // namespace tubewright
