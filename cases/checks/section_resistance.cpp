#include "cases/checks/section_resistance.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/checks/effective_section.h"
#include "solver/elements/stress.h"

namespace tubewright {

namespace {

enum class Outline { hollow_rectangle, round_tube, flat_bar, round_bar };

Outline outline_of(const Profile& p) {
  if (p.kind == ProfileKind::hollow_rectangle) return Outline::hollow_rectangle;
  if (p.kind == ProfileKind::solid_rectangle) return Outline::flat_bar;
  return p.wall > 0 ? Outline::round_tube : Outline::round_bar;
}

/// Each force over its own resistance.
struct Shares {
  double n = 0, vy = 0, vz = 0, t = 0, my = 0, mz = 0;

  double sum() const { return n + vy + vz + t + my + mz; }
  double greatest() const { return std::max({n, vy, vz, t, my, mz}); }
};

Shares operator/(const Shares& s, double d) {
  return {s.n / d, s.vy / d, s.vz / d, s.t / d, s.my / d, s.mz / d};
}

Shares shares_of(const SectionForces& f, const SectionResistance& r) {
  const auto share = [](double force, double resistance) { return std::abs(force) / resistance; };
  return {share(f.N, r.N_Rd), share(f.Vy, r.Vy_Rd), share(f.Vz, r.Vz_Rd),
          share(f.T, r.T_Rd), share(f.My, r.My_Rd), share(f.Mz, r.Mz_Rd)};
}

/// Share of the area in the walls beside a pair of walls of the width given, at most 0.5.
double web_share(const Section& s, double flange_width) {
  return std::min(0.5, (s.A - 2 * flange_width * s.profile.wall) / s.A);
}

/// V_y and V_z together: each has its own walls in a rectangle, in a round they add as vectors.
double shear_share(const Section& s, const Shares& u) {
  const bool round = s.profile.kind == ProfileKind::round;
  return round ? std::hypot(u.vy, u.vz) : std::max(u.vy, u.vz);
}

/// N + M of class 1 and 2 by outline; n < 1.
double axial_and_bending(const Section& s, double n, double my, double mz) {
  switch (outline_of(s.profile)) {
    case Outline::hollow_rectangle: {
      const double alpha = biaxial_exponent(n);
      const double y = my / moment_beside_axial_rectangle(n, web_share(s, s.profile.width));
      const double z = mz / moment_beside_axial_rectangle(n, web_share(s, s.profile.height));
      return std::pow(y, alpha) + std::pow(z, alpha);
    }
    case Outline::round_tube: {
      const double m = std::hypot(my, mz) / moment_beside_axial_round(n);
      return m * m;
    }
    case Outline::flat_bar:
      return (my + mz) / (1 - n * n);
    case Outline::round_bar:
      break;
  }
  return n + std::hypot(my, mz);
}

/// The interaction of class 1 and 2. Where one share alone is at its limit the sum is returned: it
/// is at least 1 and finite.
double plastic_value(const Section& s, const Shares& u) {
  const double v = shear_share(s, u);
  if (u.n >= 1 || v + u.t >= 1) return u.sum();
  const double left = 1 - shear_reduction(v, u.t);
  const double n = u.n / left, my = u.my / left, mz = u.mz / left;
  if (n >= 1) return n + my + mz;
  return std::max({n, axial_and_bending(s, n, my, mz), u.t, v / (1 - u.t)});
}

/// The divisor that brings the shares to the limit of plastic_value(), `least` if it is below that.
double plastic_load_share(const Section& s, const Shares& u, double least) {
  double beyond = u.greatest();  // divided by this, one share is 1
  double within = u.sum();       // 6.2.1(7): a sum of shares of 1 is safe
  if (beyond == 0) return least;
  if (least > 0 && (within <= least || plastic_value(s, u / least) <= 1)) return least;
  constexpr int halvings = 40;  // to 1e-11
  for (int i = 0; i < halvings; ++i) {
    const double middle = (within + beyond) / 2;
    (plastic_value(s, u / middle) <= 1 ? within : beyond) = middle;
  }
  return within;
}

/// V beside T, 6.2.7(9). With T at its limit nothing is left for V: the sum is beyond 1 too.
double shear_beside_torsion(double v, double t) {
  if (v == 0) return 0;
  return v + t >= 1 ? v + t : v / (1 - t);
}

/// Hypotenuse of the effective section's N + M and the gross section's elastic shear stress.
double effective_value(const Section& s, double fy, const SectionForces& f, const Shares& u) {
  SectionForces shear = f;
  shear.N = shear.My = shear.Mz = 0;
  return std::hypot(u.n + u.my + u.mz, worst_stress(s, shear).von_mises / fy);
}

const char* combined_clause(int section_class) {
  if (section_class == 4) return "EN 1993-1-1 6.2.9.3 (6.44), EN 1993-1-5 4.4";
  if (section_class == 3) return "EN 1993-1-1 6.2.9.2, 6.2.1(5) (6.1)";
  return "EN 1993-1-1 6.2.9.1, 6.2.10";
}

/// Why no check can be made; empty if it can.
std::string obstacle(const Section& s, double fy, const SectionForces& f, const SectionClass& c) {
  if (c.value == 0) return c.reason;
  for (double force : {f.N, f.Vy, f.Vz, f.T, f.My, f.Mz}) {
    if (!std::isfinite(force)) return "the section forces are not finite";
  }
  if (c.value == 4 && s.profile.kind == ProfileKind::round) {
    return "class 4: effective section needed (EN 1993-1-6)";
  }
  if (s.profile.kind == ProfileKind::hollow_rectangle) {
    constexpr double eta = 1;  // EN 1993-1-5 5.1, the safe value
    const double h_w = std::max(s.profile.height, s.profile.width) - 2 * s.profile.wall;
    if (h_w / s.profile.wall > 72 * yield_epsilon(fy) / eta) {
      return "outside the scope: the walls may buckle in shear (EN 1993-1-5)";
    }
  }
  return "";
}

}  // namespace

double shear_area_z(const Section& section) {
  const Profile& p = section.profile;
  if (p.kind == ProfileKind::unknown) return 0;
  switch (outline_of(p)) {
    case Outline::hollow_rectangle:
      return section.A * p.height / (p.width + p.height);
    case Outline::round_tube:
      return 2 * section.A / std::numbers::pi;
    case Outline::flat_bar:
      return section.A * 2 / 3;
    case Outline::round_bar:
      break;
  }
  return section.A * 3 / 4;
}

double shear_area_y(const Section& section) {
  Section turned = section;
  std::swap(turned.profile.height, turned.profile.width);
  return shear_area_z(turned);
}

SectionResistance section_resistance(const Section& s, double fy, int section_class) {
  SectionResistance r;
  if (section_class < 1 || section_class > 4 || !(fy > 0)) return r;
  const double f = fy / gamma_M0;
  const double tau = f / std::sqrt(3.0);
  r.Vy_Rd = shear_area_y(s) * tau;
  r.Vz_Rd = shear_area_z(s) * tau;
  r.T_Rd = s.Wt * tau;
  if (section_class == 4) {
    const EffectiveSection e = effective_section(s, fy);
    r.N_Rd = e.A * f;
    r.My_Rd = e.Wy * f;
    r.Mz_Rd = e.Wz * f;
  } else {
    const bool plastic = section_class <= 2;
    r.N_Rd = s.A * f;
    r.My_Rd = (plastic ? s.Wply : s.Wy) * f;
    r.Mz_Rd = (plastic ? s.Wplz : s.Wz) * f;
  }
  return r;
}

double moment_beside_axial_rectangle(double n, double a) {
  return std::clamp((1 - n) / (1 - 0.5 * a), 0.0, 1.0);
}

double moment_beside_axial_round(double n) { return n >= 1 ? 0 : 1 - std::pow(n, 1.7); }

double biaxial_exponent(double n) {
  constexpr double greatest = 6;
  const double rest = 1 - 1.13 * n * n;
  return rest * greatest <= 1.66 ? greatest : 1.66 / rest;
}

double shear_reduction(double v, double t) {
  if (v == 0) return 0;
  if (v + t >= 1) return 1;
  const double share = v / (1 - t);
  return share <= 0.5 ? 0 : (2 * share - 1) * (2 * share - 1);
}

SectionCheck section_check(const Section& s, double fy, const SectionForces& f,
                           double least_load_share) {
  SectionCheck r;
  r.section_class = section_class(s, fy, f);
  r.axial.clause = "EN 1993-1-1 6.2.3, 6.2.4";
  r.bending.clause = "EN 1993-1-1 6.2.5";
  r.shear.clause = "EN 1993-1-1 6.2.6, 6.2.7(9)";
  r.torsion.clause = "EN 1993-1-1 6.2.7";
  const int number = r.section_class.value;
  r.combined.clause = combined_clause(number);
  r.load_share.clause = r.combined.clause;

  const std::string why = obstacle(s, fy, f, r.section_class);
  if (!why.empty()) {
    for (CheckResult* c :
         {&r.axial, &r.bending, &r.shear, &r.torsion, &r.combined, &r.load_share}) {
      c->reason = why;
    }
    return r;
  }

  const Shares u = shares_of(f, section_resistance(s, fy, number));
  r.axial.utilisation = u.n;
  r.bending.utilisation = std::max(u.my, u.mz);
  r.torsion.utilisation = u.t;
  r.shear.utilisation = shear_beside_torsion(shear_share(s, u), u.t);
  if (number <= 2) {
    r.combined.utilisation = plastic_value(s, u);
    r.load_share.utilisation = plastic_load_share(s, u, least_load_share);
  } else {
    r.combined.utilisation =
        number == 3 ? worst_stress(s, f).von_mises / fy : effective_value(s, fy, f, u);
    r.load_share.utilisation = std::max(least_load_share, *r.combined.utilisation);
  }
  return r;
}

}  // namespace tubewright
