// Aluminium tubes: local and flexural buckling, axial force with bending, welds and the
// heat-affected tube beside them. EN 1999-1-1:2007, all of it MEMORY (clauses, tables and factors).
//
// SI units; forces as in solver/elements/beam_field.h, N tension positive; loads are design loads.
// Tubes are drawn or extruded: a seam welded along the member (kappa of 6.3.1.2) is not covered.
// Shear and torsion away from the ends are not part of the member check.
#pragma once

#include <optional>
#include <string>

#include "cases/checks/check_result.h"
#include "cases/checks/member_buckling.h"
#include "cases/frame/frame.h"
#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr double aluminium_gamma_M1 = 1.10;                             // 6.1.3, recommended value
constexpr double aluminium_gamma_M2 = 1.25, aluminium_gamma_Mw = 1.25;  // 6.1.3, 8.1.1, likewise

struct AluminiumMaterial {
  double fo = 0;  ///< f_o away from welds, Pa
  double E = 0;
  AlloyClass alloy_class = AlloyClass::B;
  std::optional<HeatAffected> heat_affected;  ///< f_o,haz, f_u,haz; given: heated by a weld
};

/// The f_o that counts: of what is heated the least of f_o, f_o,haz and f_u,haz gamma_M1/gamma_M2
/// (safe: EN 1999-1-1 6.2 lets f_u,haz alone govern beside a weld across). 0: not known.
double member_strength(const AluminiumMaterial& material);

/// Class of an internal part by beta/epsilon, Table 6.2: limits 11, 16, 22 (A), 13, 16.5, 18 (B);
/// with welds 9, 13, 18 (A), 10, 13.5, 15 (B).
int aluminium_wall_class(double beta_over_epsilon, AlloyClass alloy_class, bool heated);

/// rho_c = C1/(beta/epsilon) - C2/(beta/epsilon)^2 in class 4, else 1; 6.1.5, Table 6.3, internal
/// parts: C1, C2 = 32, 220 (A), 29, 198 (B); with welds 29, 198 (A), 25, 150 (B).
double local_buckling_factor(double beta_over_epsilon, AlloyClass alloy_class, bool heated);

struct AluminiumClass {
  int value = 0;     ///< 1 to 4; 0 when it cannot be told, and `reason` says why
  double beta = 0;   ///< of the worst wall: b/t, round tube 3 sqrt(D/t), D to the mid-wall (6.10)
  double rho_c = 0;  ///< share of all walls that counts
  std::string reason;
};

/// 6.1.4 with every wall wholly compressed (safe), epsilon = sqrt(250 MPa/f_o). Solid bars are
/// class 1. No class: class 4 round tubes (shells, EN 1999-1-5), unknown profile, f_o missing.
AluminiumClass aluminium_class(const Section& section, const AluminiumMaterial& material);

/// chi of 6.3.1.2: alpha 0.20, lambda_0 0.10 (A), 0.32, 0 (B); at most 1.
double aluminium_reduction_factor(double lambda_bar, AlloyClass alloy_class);

struct AluminiumColumn {
  double N_cr_y = 0, N_cr_z = 0;   ///< of the whole section, N
  double lambda_bar = 0, chi = 0;  ///< of the weaker axis, sqrt(rho_c A f_o/N_cr); 6.3.1.2
  double N_b_Rd = 0;               ///< chi rho_c A f_o/gamma_M1, f_o = member_strength()
  std::string reason;              ///< why there is none; all numbers are then 0
};
AluminiumColumn aluminium_column(const Section& section, const AluminiumMaterial& material,
                                 const BucklingLengths& lengths);

/// Forces at one place: |N|/(A f_o/gamma_M1), in compression rho_c A, and m_y + m_z as below.
CheckResult aluminium_section_check(const Section& section, const AluminiumMaterial& material,
                                    double N, double My, double Mz);

/// What a weld across a column at `from_end` leaves of chi A f_o, 6.3.3.3 and 6.3.3.5: omega_0/(chi
/// + (1 - chi) sin(pi x_s/l)), at most 1; omega_0 = heated over unheated member_strength(). Beyond
/// the middle as in the middle.
double local_weld_factor(double omega_0, double chi, double from_end, double length);

/// chi_LT of 6.3.2.2: alpha_LT, lambda_0,LT = 0.10, 0.6 (class 1, 2), 0.20, 0.4 (class 3, 4).
double aluminium_lateral_factor(double M_Rk, double M_cr, int section_class);

struct AluminiumSideEffects {
  /// Moment about the strong axis at which it tips over (lateral_torsional.h); absent: it cannot.
  std::optional<double> critical_moment;
  double weld_factor = 1;  ///< local_weld_factor(), on N_b,Rd
};

/// Moments: the greatest along the member. M_Rd = rho_c W_el f_o/gamma_M1, m = M/M_Rd.
/// Tension: N/(A f_o/gamma_M1) + m_y + m_z. Compression, n = N/N_b,Rd: the greater of
/// n + k_y m_y + k_z m_z with k = sec(pi/2 sqrt(N/N_cr)), what equal end moments grow to, the most
/// any moments can (derived: never below second-order elastic theory of the bowed column; 1/(1 -
/// N/N_cr) is up to 21 % less), and n^0.8 + m_y + m_z, never below 6.3.3 (6.62) for tubes. Finite,
/// and above 1 from N_cr on. With a critical moment, whatever N: the strong m over chi_LT, and of
/// the weak one the greater of m and m^0.8 (6.3.3.2, the least exponent allowed). Refused: a flat
/// bar bent the strong way without one, or one that nothing holds.
CheckResult aluminium_member_check(const Section& section, const AluminiumMaterial& material,
                                   const BucklingLengths& lengths, double N, double My, double Mz,
                                   const AluminiumSideEffects& effects = {});

/// `weld`, 8.6.3.3: sqrt(sigma_perp^2 + 3 (tau_perp^2 + tau_par^2)) <= f_w/gamma_Mw. `fusion`,
/// 8.6.3.4: shear sqrt(3) tau on the weld's leg sqrt(2) a along the tube <= f_u,haz/gamma_Mw.
/// `tube`, 6.2.1 and 8.6.3.4: von Mises <= f_o,haz/gamma_M1 and f_u,haz/gamma_Mw.
struct AluminiumWeld {
  CheckResult weld, fusion, tube;
};

/// Fillet all round a tube's end: the line and its stresses are those of cases/checks/weld_check.h.
/// `f_w`: strength of the weld metal, Table 8.8. `corner_radius`: of the tube's outer face, 0 if
/// sharp.
AluminiumWeld aluminium_weld_check(const Section& section, double throat, double corner_radius,
                                   const HeatAffected& heat_affected, double f_w,
                                   const SectionForces& forces);

}  // namespace tubewright
