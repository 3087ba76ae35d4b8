// Resistance of a cross-section: EN 1993-1-1:2005 6.2 (from memory). SI units; forces as in
// solver/elements/beam_field.h, their signs do not matter here but for the class of the section.
//
// Loads are design loads: put the safety factor on the forces. gamma_M0 = 1.0 (6.1, recommended).
#pragma once

#include "cases/checks/check_result.h"
#include "cases/checks/section_class.h"
#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr double gamma_M0 = 1.0;  // EN 1993-1-1 6.1, recommended value

/// Each force alone. Zero where the class or the section is not known.
struct SectionResistance {
  double N_Rd = 0;   ///< A f_y (6.6, 6.10); class 4 A_eff f_y (6.11)
  double Vy_Rd = 0;  ///< A_v f_y/sqrt(3) (6.18), force along y
  double Vz_Rd = 0;
  double T_Rd = 0;   ///< W_t f_y/sqrt(3), elastic (6.2.7)
  double My_Rd = 0;  ///< W_pl f_y (6.13), class 3 W_el f_y (6.14), class 4 W_eff f_y (6.15)
  double Mz_Rd = 0;
};

/// Shear area A_v for a force along z and along y (6.2.6(3)): hollow rectangle A h/(b + h), A b/(b
/// + h), round tube 2 A/pi. Solid bars have no rule there: the elastic limit of V S/(I t), 2/3 A of
/// a rectangle and 3/4 A of a round. 0 for an unknown profile.
double shear_area_z(const Section& section);
double shear_area_y(const Section& section);

/// `section_class`: 1 to 4, else all zero. Class 4 of a round tube: N_Rd, My_Rd, Mz_Rd zero.
SectionResistance section_resistance(const Section& section, double fy, int section_class);

/// Plastic moment left beside an axial force n = N/N_pl, M_N/M_pl. Zero from n = 1 on.
/// Hollow rectangle, (6.39), (6.40): (1 - n)/(1 - 0.5 a) <= 1; a = share of the area in the two
/// walls that are webs in this bending, (A - 2 b t)/A <= 0.5 about y.
double moment_beside_axial_rectangle(double n, double a);

/// Round tube: 1 - n^1.7 (EN 1993-1-1:2022 8.2.9.1, from memory; the 2005 edition has no formula).
double moment_beside_axial_round(double n);

/// Exponent alpha = beta of (6.41) for a hollow rectangle: 1.66/(1 - 1.13 n^2) <= 6. Round: 2.
double biaxial_exponent(double n);

/// rho of 6.2.8(3) and (4): (2 V/V_pl,T,Rd - 1)^2 above half the shear resistance, else 0;
/// V_pl,T,Rd = (1 - T/T_Rd) V_pl,Rd (6.28). `v` = V/V_pl,Rd, `t` = T/T_Rd. At most 1.
double shear_reduction(double v, double t);

struct SectionCheck {
  SectionClass section_class;
  CheckResult axial;    ///< N, 6.2.3, 6.2.4
  CheckResult bending;  ///< M_y and M_z, the greater share of its own resistance, 6.2.5
  CheckResult shear;  ///< V_y, V_z: the greater (round: as vectors), reduced by T, 6.2.6, 6.2.7(9)
  CheckResult torsion;   ///< 6.2.7
  CheckResult combined;  ///< value of the interaction: all at once
  /// All at once as a share of the load: forces divided by this reach the limit of `combined`.
  /// Unlike the value of (6.41) it grows in proportion to the load.
  CheckResult load_share;
};

/// Class 1, 2: N + M by 6.2.9.1(5), (6) with (6.39) to (6.41) for hollow rectangles and the round
/// equivalent; flat bars M_N = M_pl (1 - n^2) (6.32) with exponent 1, round bars n + m <= 1 (6.2).
/// V beyond half its resistance lowers f_y of the whole section by rho (safe; 6.2.10 asks it of the
/// shear area only). Class 3: von Mises <= f_y (6.1). Class 4: (6.44) on the effective section,
/// joined with the elastic shear stress as in (6.1); walls with h_w/t > 72 epsilon (6.2.6(6), eta =
/// 1) are refused, since they may buckle in shear. Forces of zero use nothing. No check without
/// f_y, for a section given by its properties, a class 4 round tube, or forces that are not finite.
/// Every utilisation is finite and beyond 1 where one force alone is beyond its resistance.
/// `least_load_share`: a load share below it need not be found, and comes back as it.
SectionCheck section_check(const Section& section, double fy, const SectionForces& forces,
                           double least_load_share = 0);

}  // namespace tubewright
