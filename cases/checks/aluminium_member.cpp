#include "cases/checks/aluminium_member.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <numbers>
#include <string>

#include "cases/checks/lateral_torsional.h"
#include "cases/checks/section_class.h"
#include "cases/checks/weld_check.h"
#include "solver/elements/stress.h"

namespace tubewright {

namespace {

constexpr double beyond_any_use = 1e9;  // where a utilisation or a growth of moments is cut off

/// Not above `beyond_any_use`, which also stands for what has overflowed.
double bounded(double utilisation) {
  return utilisation < beyond_any_use ? utilisation : beyond_any_use;
}

constexpr const char* not_finite = "the forces are not finite";

bool usable(std::initializer_list<double> values) {
  return std::all_of(values.begin(), values.end(),
                     [](double x) { return x > 0 && std::isfinite(x); });
}

std::string unless(bool fulfilled, const char* fault) { return fulfilled ? "" : fault; }

std::string missing_strength(const AluminiumMaterial& m) {
  if (member_strength(m) > 0) return "";
  return usable({m.fo}) ? "the strengths beside the welds are not known"
                        : "the material has no yield strength";
}

/// Why nothing can be said of the section, empty if something can.
std::string unusable(const Section& s) {
  const Profile& p = s.profile;
  const bool outline = p.kind == ProfileKind::unknown ||
                       (usable({p.height, p.width}) && p.wall >= 0 && std::isfinite(p.wall));
  const bool walls = p.kind != ProfileKind::hollow_rectangle || p.wall > 0;
  return unless(outline && walls && usable({s.A, s.Iy, s.Iz, s.Wy, s.Wz, s.Wt}),
                "the section has no area, stiffness or wall");
}

/// Table 6.2 and Table 6.3, internal parts.
struct WallRow {
  std::array<double, 3> limits;  // beta_1, beta_2, beta_3 over epsilon
  double C1, C2;
};

const WallRow& wall_row(AlloyClass alloy_class, bool heated) {
  static constexpr WallRow A = {{11, 16, 22}, 32, 220}, A_heated = {{9, 13, 18}, 29, 198};
  static constexpr WallRow B = {{13, 16.5, 18}, 29, 198}, B_heated = {{10, 13.5, 15}, 25, 150};
  if (alloy_class == AlloyClass::A) return heated ? A_heated : A;
  return heated ? B_heated : B;
}

double beta_of_worst_wall(const Section& s) {
  const Profile& p = s.profile;
  if (p.wall == 0 || p.kind == ProfileKind::solid_rectangle) return 0;
  if (p.kind == ProfileKind::round) return 3 * std::sqrt(std::max(0.0, p.height / p.wall - 1));
  return std::max(0.0, flat_width(s, std::max(p.height, p.width)) / p.wall);
}

std::string bent_the_strong_way(const Profile& p, double My, double Mz) {
  const bool strong = (p.height > p.width && My != 0) || (p.width > p.height && Mz != 0);
  return unless(p.kind != ProfileKind::solid_rectangle || !strong,
                "outside the scope: a flat bar bent the strong way may buckle sideways (6.3.2)");
}

/// The first that is not empty.
std::string first_of(std::initializer_list<std::string> faults) {
  const auto* found =
      std::find_if(faults.begin(), faults.end(), [](const auto& f) { return !f.empty(); });
  return found == faults.end() ? "" : *found;
}

CheckResult checked(const char* clause, double utilisation,
                    std::initializer_list<std::string> faults) {
  CheckResult r;
  r.clause = clause;
  r.reason = first_of(faults);
  if (r.reason.empty()) r.utilisation = bounded(utilisation);
  return r;
}

/// What equal moments at both ends of a pinned column grow to in its middle.
double moment_growth(double N_over_N_cr) {
  if (N_over_N_cr >= 1) return beyond_any_use;
  return bounded(1 / std::cos(std::numbers::pi / 2 * std::sqrt(N_over_N_cr)));
}

}  // namespace

double member_strength(const AluminiumMaterial& m) {
  if (!usable({m.fo})) return 0;
  if (!m.heat_affected) return m.fo;
  const HeatAffected& h = *m.heat_affected;
  if (!usable({h.yield, h.ultimate})) return 0;
  return std::min({m.fo, h.yield, h.ultimate * (aluminium_gamma_M1 / aluminium_gamma_M2)});
}

int aluminium_wall_class(double beta_over_epsilon, AlloyClass alloy_class, bool heated) {
  int value = 1;
  for (double limit : wall_row(alloy_class, heated).limits) value += beta_over_epsilon > limit;
  return value;
}

double local_buckling_factor(double beta_over_epsilon, AlloyClass alloy_class, bool heated) {
  const WallRow& row = wall_row(alloy_class, heated);
  if (!(beta_over_epsilon > row.limits[2])) return 1;
  return (row.C1 - row.C2 / beta_over_epsilon) / beta_over_epsilon;
}

AluminiumClass aluminium_class(const Section& s, const AluminiumMaterial& m) {
  constexpr double reference = 250e6;  // Pa, 6.1.4.4
  const bool heated = m.heat_affected.has_value();
  const std::string fault =
      first_of({missing_strength(m), unusable(s),
                unless(s.profile.kind != ProfileKind::unknown,
                       "the section is given by its properties: its walls are not known")});
  if (!fault.empty()) return {.reason = fault};
  AluminiumClass r;
  r.beta = beta_of_worst_wall(s);
  const double ratio = r.beta / std::sqrt(reference / m.fo);
  if (!std::isfinite(ratio)) return {.reason = "the walls are too thin to be told a class"};
  r.value = aluminium_wall_class(ratio, m.alloy_class, heated);
  r.rho_c = local_buckling_factor(ratio, m.alloy_class, heated);
  if (r.value == 4 && s.profile.kind == ProfileKind::round) {
    return {.reason = "class 4: a round tube so thin is a shell (EN 1999-1-5)"};
  }
  return r;
}

double aluminium_reduction_factor(double lambda_bar, AlloyClass alloy_class) {
  const bool A = alloy_class == AlloyClass::A;
  const double alpha = A ? 0.20 : 0.32, lambda_0 = A ? 0.10 : 0.0;  // Table 6.6
  if (lambda_bar <= lambda_0) return 1;
  const double Phi = 0.5 * (1 + alpha * (lambda_bar - lambda_0) + lambda_bar * lambda_bar);
  return 1 / (Phi + std::sqrt(Phi * Phi - lambda_bar * lambda_bar));
}

AluminiumColumn aluminium_column(const Section& s, const AluminiumMaterial& m,
                                 const BucklingLengths& lengths) {
  const AluminiumClass c = aluminium_class(s, m);
  const double fo = member_strength(m);
  const std::string fault =
      first_of({c.reason, unless(usable({m.E}), "the material has no modulus of elasticity"),
                unless(usable({lengths.y, lengths.z}), "the member has no effective length")});
  if (!fault.empty()) return {.reason = fault};
  AluminiumColumn r;
  r.N_cr_y = euler_load(m.E, s.Iy, lengths.y);
  r.N_cr_z = euler_load(m.E, s.Iz, lengths.z);
  r.lambda_bar = std::sqrt(c.rho_c * s.A * fo / std::min(r.N_cr_y, r.N_cr_z));
  r.chi = aluminium_reduction_factor(r.lambda_bar, m.alloy_class);
  r.N_b_Rd = r.chi * c.rho_c * s.A * fo / aluminium_gamma_M1;
  if (!usable({r.N_cr_y, r.N_cr_z, r.lambda_bar, r.chi, r.N_b_Rd})) {
    return {.reason = "the numbers are beyond those of any column"};
  }
  return r;
}

CheckResult aluminium_section_check(const Section& s, const AluminiumMaterial& m, double N,
                                    double My, double Mz) {
  const double fo_d = member_strength(m) / aluminium_gamma_M1;
  const std::string force_fault = unless(std::isfinite(N + My + Mz), not_finite);
  if (N >= 0 && My == 0 && Mz == 0) {
    return checked("EN 1999-1-1 6.2.3", N / (s.A * fo_d),
                   {force_fault, missing_strength(m), unusable(s)});
  }
  const AluminiumClass c = aluminium_class(s, m);
  const double A = N < 0 ? c.rho_c * s.A : s.A;
  const double moments = std::abs(My) / (c.rho_c * s.Wy) + std::abs(Mz) / (c.rho_c * s.Wz);
  return checked("EN 1999-1-1 6.2.9", (std::abs(N) / A + moments) / fo_d, {force_fault, c.reason});
}

double local_weld_factor(double omega_0, double chi, double from_end, double length) {
  const double at = std::clamp(from_end / length, 0.0, 0.5);
  return std::min(1.0, omega_0 / (chi + (1 - chi) * std::sin(std::numbers::pi * at)));
}

double aluminium_lateral_factor(double M_Rk, double M_cr, int section_class) {
  if (!(M_cr > 0)) return 0;
  const bool compact = section_class <= 2;
  const double alpha = compact ? 0.10 : 0.20, lambda_0 = compact ? 0.6 : 0.4;
  const double lambda = std::sqrt(M_Rk / M_cr);
  if (lambda <= lambda_0) return 1;
  const double Phi = 0.5 * (1 + alpha * (lambda - lambda_0) + lambda * lambda);
  return std::min(1.0, 1 / (Phi + std::sqrt(Phi * Phi - lambda * lambda)));
}

CheckResult aluminium_member_check(const Section& s, const AluminiumMaterial& m,
                                   const BucklingLengths& lengths, double N, double My, double Mz,
                                   const AluminiumSideEffects& effects) {
  const double fo_d = member_strength(m) / aluminium_gamma_M1;
  const std::string force_fault = unless(std::isfinite(N + My + Mz), not_finite);
  const bool tips = effects.critical_moment.has_value();
  const std::string scope_fault =
      tips ? unless(*effects.critical_moment > 0, "nothing keeps it from tipping over sideways")
           : bent_the_strong_way(s.profile, My, Mz);
  if (N >= 0 && !tips) {
    CheckResult r = aluminium_section_check(s, m, N, My, Mz);
    if (r.reason.empty()) r.reason = scope_fault;
    if (!r.reason.empty()) r.utilisation.reset();
    return r;
  }
  const AluminiumClass c = aluminium_class(s, m);
  double m_y = std::abs(My) / (c.rho_c * s.Wy * fo_d);
  double m_z = std::abs(Mz) / (c.rho_c * s.Wz * fo_d);
  if (tips) {
    const bool about_y = strong_about_y(s.profile);
    const double W = c.rho_c * (about_y ? s.Wy : s.Wz);
    double& weak = about_y ? m_z : m_y;
    (about_y ? m_y : m_z) /=
        aluminium_lateral_factor(W * member_strength(m), *effects.critical_moment, c.value);
    constexpr double xi_zc = 0.8;  // (6.63), the least value allowed
    weak = std::max(weak, std::pow(weak, xi_zc));
  }
  if (N >= 0) {
    return checked("EN 1999-1-1 6.3.2, 6.3.3", m_y + m_z, {force_fault, c.reason, scope_fault});
  }
  const AluminiumColumn column = aluminium_column(s, m, lengths);
  constexpr double psi_c = 0.8;  // (6.62), the least value allowed
  const double n = -N / (effects.weld_factor * column.N_b_Rd);
  const double k_y = moment_growth(-N / column.N_cr_y), k_z = moment_growth(-N / column.N_cr_z);
  return checked(tips ? "EN 1999-1-1 6.3.1, 6.3.2, 6.3.3" : "EN 1999-1-1 6.3.1, 6.3.3",
                 std::max(n + k_y * m_y + k_z * m_z, std::pow(n, psi_c) + m_y + m_z),
                 {force_fault, column.reason, scope_fault});
}

AluminiumWeld aluminium_weld_check(const Section& s, double throat, double corner_radius,
                                   const HeatAffected& h, double f_w, const SectionForces& f) {
  const Profile& p = s.profile;
  const bool finite = std::isfinite(f.N + f.Vy + f.Vz + f.T + f.My + f.Mz);
  const bool radius_fits = corner_radius >= 0 && 2 * corner_radius <= std::min(p.height, p.width);
  const std::string force_fault = unless(finite, not_finite), section_fault = unusable(s);
  const std::string heat_fault = missing_strength({1, 1, AlloyClass::B, h});
  const std::string metal_fault = unless(usable({f_w}), "the weld metal has no strength f_w");
  const std::string radius_fault =
      unless(radius_fits, "the corner radius does not fit the section");
  FilletWeld fillet;
  fillet.throat = throat;
  fillet.corner_radius = corner_radius;
  fillet.fu = f_w;
  const WeldCheck line = weld_check(p, fillet, f);
  const std::string& line_fault = line.directional.reason;

  constexpr double sqrt3 = std::numbers::sqrt3, sqrt2 = std::numbers::sqrt2;
  const double shear_of_leg = std::hypot(sqrt2 * line.sigma_perp, line.tau_par) / sqrt2;
  const double f_u_haz_d = h.ultimate / aluminium_gamma_Mw;
  const double tube_strength = std::min(h.yield / aluminium_gamma_M1, f_u_haz_d);
  AluminiumWeld r;
  r.weld = checked("EN 1999-1-1 8.6.3.3", line.equivalent / (f_w / aluminium_gamma_Mw),
                   {force_fault, section_fault, metal_fault, radius_fault, line_fault});
  r.fusion =
      checked("EN 1999-1-1 8.6.3.4", sqrt3 * shear_of_leg / f_u_haz_d,
              {force_fault, section_fault, heat_fault, metal_fault, radius_fault, line_fault});
  r.tube = checked("EN 1999-1-1 6.2.1, 8.6.3.4", worst_stress(s, f).von_mises / tube_strength,
                   {force_fault, section_fault, heat_fault});
  return r;
}

}  // namespace tubewright
