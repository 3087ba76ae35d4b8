#include "cases/checks/weld_check.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tubewright {

namespace {

constexpr double pi = std::numbers::pi;

/// Second moment of a line of width 1 round a rectangle with rounded corners, about the axis across
/// `depth`.
double line_second_moment(double depth, double breadth, double r) {
  const double flat_flange = breadth - 2 * r, flat_web = depth - 2 * r;
  const double to_centre = depth / 2 - r;  // of a corner's arc
  const double quarter_arc =
      r * (pi / 2 * to_centre * to_centre + 2 * to_centre * r + pi / 4 * r * r);
  return flat_flange * depth * depth / 2 + std::pow(flat_web, 3) / 6 + 4 * quarter_arc;
}

/// Stress per throat area where the weld is worst.
struct WeldStress {
  double across = 0;  ///< sigma_w
  double along = 0;   ///< tau_par
};

WeldStress worst_weld_stress(const Profile& p, const WeldLine& w, const SectionForces& f) {
  const double axial = std::abs(f.N) / w.A_w, torsion = std::abs(f.T) / w.W_wt;
  const double z = p.height / 2, y = p.width / 2;
  if (p.kind == ProfileKind::round) {
    return {axial + std::hypot(f.My, f.Mz) * z / w.I_wy, torsion + std::hypot(f.Vy, f.Vz) / w.A_vz};
  }
  return {axial + std::abs(f.My) * z / w.I_wy + std::abs(f.Mz) * y / w.I_wz,
          torsion + std::max(std::abs(f.Vy) / w.A_vy, std::abs(f.Vz) / w.A_vz)};
}

std::string obstacle(const Profile& p, double throat, const FilletWeld& weld,
                     const SectionForces& f) {
  if (p.kind == ProfileKind::unknown) {
    return "the section is given by its properties: its outline is not known";
  }
  if (!(weld.fu > 0)) return "the material has no ultimate strength";
  if (!(weld.beta_w > 0)) return "the weld has no correlation factor beta_w";
  if (!(throat > 0) || !std::isfinite(throat)) return "the weld has no throat";
  for (double force : {f.N, f.Vy, f.Vz, f.T, f.My, f.Mz}) {
    if (!std::isfinite(force)) return "the section forces are not finite";
  }
  return "";
}

std::string scope_remark(const Profile& p, double throat) {
  constexpr double least_material = 4e-3;  // m, EN 1993-1-8 4.1(1)
  constexpr double least_throat = 3e-3;    // m, EN 1993-1-8 4.5.2(2)
  if (p.wall > 0 && p.wall < least_material) {
    return "outside the scope: EN 1993-1-8 4.1 covers material of 4 mm and more";
  }
  if (throat < least_throat) {
    return "outside the scope: EN 1993-1-8 4.5.2 asks for a throat of 3 mm or more";
  }
  return "";
}

}  // namespace

double correlation_factor(double fy) {
  if (fy <= 235e6) return 0.80;
  if (fy <= 275e6) return 0.85;
  if (fy <= 355e6) return 0.90;
  return 1.0;
}

double weld_shear_strength(double fu, double beta_w) {
  return fu / (std::sqrt(3.0) * beta_w * gamma_M2);
}

double full_strength_throat(double fy, double fu, double beta_w) {
  return std::numbers::sqrt2 * beta_w * gamma_M2 * fy / fu;
}

WeldLine weld_line(const Profile& p, double throat, double corner_radius) {
  const double a = throat, h = p.height, b = p.width, r = corner_radius;
  WeldLine w;
  if (p.kind == ProfileKind::unknown) return w;
  if (p.kind == ProfileKind::round) {
    const double R = h / 2;
    w.A_w = 2 * pi * R * a;
    w.I_wy = w.I_wz = pi * R * R * R * a;
    w.W_wt = 2 * pi * R * R * a;
    w.A_vy = w.A_vz = w.A_w / 2;
    return w;
  }
  w.A_w = a * (2 * (h + b) - (8 - 2 * pi) * r);
  w.I_wy = a * line_second_moment(h, b, r);
  w.I_wz = a * line_second_moment(b, h, r);
  w.W_wt = 2 * a * (h * b - (4 - pi) * r * r);
  w.A_vy = 2 * b * a;
  w.A_vz = 2 * h * a;
  return w;
}

WeldCheck weld_check(const Profile& profile, const FilletWeld& weld, const SectionForces& forces) {
  WeldCheck r;
  r.directional.clause = "EN 1993-1-8 4.5.3.2";
  r.simplified.clause = "EN 1993-1-8 4.5.3.3";
  const double throat = weld.throat.value_or(profile.wall);
  r.directional.reason = r.simplified.reason = obstacle(profile, throat, weld, forces);
  if (!r.directional.reason.empty()) return r;
  r.remark = scope_remark(profile, throat);

  const WeldLine line = weld_line(profile, throat, weld.corner_radius);
  const WeldStress s = worst_weld_stress(profile, line, forces);
  r.sigma_perp = r.tau_perp = s.across / std::numbers::sqrt2;
  r.tau_par = s.along;
  r.equivalent = std::sqrt(r.sigma_perp * r.sigma_perp +
                           3 * (r.tau_perp * r.tau_perp + r.tau_par * r.tau_par));
  r.directional.utilisation = std::max(r.equivalent / (weld.fu / (weld.beta_w * gamma_M2)),
                                       r.sigma_perp / (0.9 * weld.fu / gamma_M2));
  r.simplified.utilisation =
      std::hypot(s.across, s.along) / weld_shear_strength(weld.fu, weld.beta_w);
  return r;
}

}  // namespace tubewright
