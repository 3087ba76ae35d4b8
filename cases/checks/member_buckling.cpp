#include "cases/checks/member_buckling.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "cases/checks/effective_section.h"
#include "cases/checks/lateral_torsional.h"

namespace tubewright {

namespace {

/// Phi of 6.3.1.2(1).
double buckling_Phi(double lambda_bar, double alpha) {
  return 0.5 * (1 + alpha * (lambda_bar - 0.2) + lambda_bar * lambda_bar);
}

/// What the class leaves of a section, to be multiplied by f_y.
struct Characteristic {
  double A = 0;
  double Wy = 0;
  double Wz = 0;
};

Characteristic characteristic(const Section& s, double fy, int section_class) {
  if (section_class == 4) {
    const EffectiveSection e = effective_section(s, fy);
    return {e.A, e.Wy, e.Wz};
  }
  if (section_class == 3) return {s.A, s.Wy, s.Wz};
  return {s.A, s.Wply, s.Wplz};
}

/// k_yy or k_zz of Table B.1.
double moment_growth(double C_m, double lambda_bar, double n, int section_class) {
  if (section_class <= 2) return C_m * (1 + std::clamp(lambda_bar - 0.2, 0.0, 0.8) * n);
  return C_m * (1 + 0.6 * std::min(lambda_bar, 1.0) * n);
}

bool finite(const MemberMoments& m) {
  return std::isfinite(m.start) && std::isfinite(m.end) && std::isfinite(m.greatest);
}

bool bent_the_strong_way(const Profile& p, const CompressedMember& m) {
  if (p.kind != ProfileKind::solid_rectangle) return false;
  return (p.height > p.width && greatest_moment(m.y) > 0) ||
         (p.width > p.height && greatest_moment(m.z) > 0);
}

/// Why no check can be made; empty if it can.
std::string obstacle(const Section& s, double E, const BucklingLengths& lengths,
                     const CompressedMember& m, const SectionClass& c) {
  const auto usable = [](double x) { return x > 0 && std::isfinite(x); };
  if (c.value == 0) return c.reason;
  if (!usable(E)) return "the material has no modulus of elasticity";
  if (!usable(lengths.y) || !usable(lengths.z)) return "the member has no effective length";
  if (!std::isfinite(m.N) || !finite(m.y) || !finite(m.z)) return "the forces are not finite";
  if (m.N >= 0 && !m.critical_moment) {
    return "not compressed: the member does not buckle, its section is checked";
  }
  if (c.value == 4 && s.profile.kind == ProfileKind::round) {
    return "class 4: effective section needed (EN 1993-1-6)";
  }
  if (bent_the_strong_way(s.profile, m) && !m.critical_moment) {
    return "outside the scope: a flat bar bent the strong way may buckle sideways (6.3.2)";
  }
  if (m.critical_moment && !(*m.critical_moment > 0)) {
    return "nothing keeps it from tipping over sideways (6.3.2)";
  }
  return "";
}

}  // namespace

double imperfection_factor(BucklingCurve curve) {
  switch (curve) {
    case BucklingCurve::a0:
      return 0.13;
    case BucklingCurve::a:
      return 0.21;
    case BucklingCurve::b:
      return 0.34;
    case BucklingCurve::c:
      return 0.49;
    case BucklingCurve::d:
      break;
  }
  return 0.76;
}

BucklingCurve buckling_curve(const Profile& profile, Corners corners, double fy) {
  const bool tube = profile.kind == ProfileKind::hollow_rectangle ||
                    (profile.kind == ProfileKind::round && profile.wall > 0);
  if (!tube || corners != Corners::hot_finished) return BucklingCurve::c;
  constexpr double S460 = 460e6;  // Pa
  return fy >= S460 ? BucklingCurve::a0 : BucklingCurve::a;
}

double euler_load(double E, double I, double length) {
  return std::numbers::pi * std::numbers::pi * E * I / (length * length);
}

double reduction_factor(double lambda_bar, BucklingCurve curve) {
  if (lambda_bar <= 0.2) return 1;
  const double Phi = buckling_Phi(lambda_bar, imperfection_factor(curve));
  return std::min(1.0, 1 / (Phi + std::sqrt(Phi * Phi - lambda_bar * lambda_bar)));
}

FlexuralBuckling flexural_buckling(double A, double I, double fy, double E, double length,
                                   BucklingCurve curve) {
  FlexuralBuckling r;
  r.N_cr = euler_load(E, I, length);
  r.lambda_bar = std::sqrt(A * fy / r.N_cr);
  r.Phi = buckling_Phi(r.lambda_bar, imperfection_factor(curve));
  r.chi = reduction_factor(r.lambda_bar, curve);
  r.N_b_Rd = r.chi * A * fy / gamma_M1;
  return r;
}

double greatest_moment(const MemberMoments& m) {
  return std::max({std::abs(m.start), std::abs(m.end), std::abs(m.greatest)});
}

double equivalent_moment_factor(const MemberMoments& m) {
  const bool start_governs = std::abs(m.start) >= std::abs(m.end);
  const double M = start_governs ? m.start : m.end;
  const double other = start_governs ? m.end : m.start;
  constexpr double rounding = 1 + 1e-6;
  const bool greater_between = std::abs(m.greatest) > rounding * std::abs(M);
  if (m.loaded_between || greater_between || M == 0) return 1;
  if (m.sway) return 0.9;
  return std::max(0.4, 0.6 + 0.4 * other / M);
}

MemberBuckling member_buckling(const Section& section, double fy, double E, BucklingCurve curve,
                               const BucklingLengths& lengths, const CompressedMember& member) {
  MemberBuckling r;
  r.result.clause = "EN 1993-1-1 6.3.3 (6.61), (6.62), Annex B";
  r.section_class = section_class_compressed(section, fy);
  const int number = r.section_class.value;
  r.result.reason = obstacle(section, E, lengths, member, r.section_class);
  if (!r.result.reason.empty()) return r;

  const Characteristic c = characteristic(section, fy, number);
  r.y = flexural_buckling(c.A, section.Iy, fy, E, lengths.y, curve);
  r.z = flexural_buckling(c.A, section.Iz, fy, E, lengths.z, curve);
  const double compression = std::max(0.0, -member.N);
  r.n_y = compression / r.y.N_b_Rd;
  r.n_z = compression / r.z.N_b_Rd;
  r.C_my = equivalent_moment_factor(member.y);
  r.C_mz = equivalent_moment_factor(member.z);
  r.k_yy = moment_growth(r.C_my, r.y.lambda_bar, r.n_y, number);
  r.k_zz = moment_growth(r.C_mz, r.z.lambda_bar, r.n_z, number);
  r.k_yz = (number <= 2 ? 0.6 : 1.0) * r.k_zz;
  r.k_zy = (number <= 2 ? 0.6 : 0.8) * r.k_yy;

  double m_y = greatest_moment(member.y) / (c.Wy * fy / gamma_M1);
  double m_z = greatest_moment(member.z) / (c.Wz * fy / gamma_M1);
  if (member.critical_moment) {
    const bool about_y = strong_about_y(section.profile);
    r.chi_LT = lateral_torsional_factor((about_y ? c.Wy : c.Wz) * fy, *member.critical_moment);
    (about_y ? m_y : m_z) /= r.chi_LT;
    if (r.chi_LT < 1) {
      for (double* k : about_y ? std::array{&r.k_zy, &r.k_zz} : std::array{&r.k_yz, &r.k_yy}) {
        *k = std::max(*k, 1.0);
      }
    }
  }
  r.eq_6_61 = r.n_y + r.k_yy * m_y + r.k_yz * m_z;
  r.eq_6_62 = r.n_z + r.k_zy * m_y + r.k_zz * m_z;
  r.result.utilisation = std::max(r.eq_6_61, r.eq_6_62);
  if (r.chi_LT < 1) r.result.clause = "EN 1993-1-1 6.3.2, 6.3.3 (6.61), (6.62), Annex B";
  return r;
}

}  // namespace tubewright
