// A fillet weld all round a tube's end: EN 1993-1-8:2005 4.5.3 (from memory).
//
// The throat is laid down on the outer face of the tube as a line of width a, its plane at 45
// degrees to the tube, the tube square to what it is welded to. SI units; forces as in
// solver/elements/beam_field.h, at the member's end; loads are design loads. gamma_M2 = 1.25
// (recommended).
//
// Scope: 4.1 is written for material of 4 mm and more (thinner: EN 1993-1-3, EN 1993-1-8 7.1.1 from
// 2.5 mm), 4.5.2 for throats of 3 mm and more; below, the check is made and a remark says so. The
// whole line is taken as equally stiff: true on a thick plate; on the face of another tube the
// middle is soft and 7.3.1 asks for a weld as strong as the wall (full_strength_throat(), which
// end_weld.h enforces). A weld round a whole tube needs no local eccentricity (4.12(4)).
#pragma once

#include <optional>
#include <string>

#include "cases/checks/check_result.h"
#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr double gamma_M2 = 1.25;  // EN 1993-1-8 Table 2.1, recommended value

/// beta_w of structural steel by its nominal yield strength, Table 4.1: 0.80 up to S235, 0.85 up to
/// S275, 0.90 up to S355, 1.0 above (and where f_y is not known). Not for aluminium; stainless
/// steel has 1.0 (EN 1993-1-4).
double correlation_factor(double fy);

/// Design strength f_vw,d = f_u/(sqrt(3) beta_w gamma_M2), Pa (4.4); times a it is F_w,Rd per m.
double weld_shear_strength(double fu, double beta_w);

/// Throat of a one-sided fillet as strong as the wall pulled across it, in walls: a/t = sqrt(2)
/// beta_w gamma_M2 f_y/f_u (derived from 4.5.3.2).
double full_strength_throat(double fy, double fu, double beta_w);

/// Properties of the throat line as an area of width `a`.
struct WeldLine {
  double A_w = 0;   ///< m2
  double I_wy = 0;  ///< m4
  double I_wz = 0;
  double W_wt = 0;  ///< 2 A_m a, m3: torsion along the closed line is T/W_wt
  double A_vy = 0;  ///< area that carries a force along y, m2: the two sides parallel to it
  double A_vz = 0;
};

/// Rectangle height x width with corners of radius r, or a circle of diameter `height` (r unused).
/// A circle's A_v is half its area: V/A_v is then the greatest of V Q/(I t). All zero for an
/// unknown profile.
WeldLine weld_line(const Profile& profile, double throat, double corner_radius);

struct FilletWeld {
  std::optional<double> throat;  ///< a; without it the tube's wall
  double corner_radius = 0;      ///< of the tube's outer face; 0 makes the line a little too long
  double fu = 0;                 ///< of the weaker part joined; NaN: not known
  double beta_w = 1;
  double least_throat = 0;  ///< what 7.3.1(4) asks for, m; 0: not on a tube
};

struct WeldCheck {
  double sigma_perp = 0;  ///< across the throat at the worst point, no sign
  double tau_perp = 0;
  double tau_par = 0;       ///< along the weld
  double equivalent = 0;    ///< sqrt(sigma_perp^2 + 3 (tau_perp^2 + tau_par^2))
  CheckResult directional;  ///< 4.5.3.2
  CheckResult simplified;   ///< 4.5.3.3, lower or equal in strength
  std::string remark;       ///< where the weld is outside the scope of the clauses; else empty
};

/// N and moments press on the line as on a section, sigma_w = N/A_w + M_y z/I_wy - M_z y/I_wz, half
/// each (sigma_w/sqrt(2)) across the throat and in it; V runs along the two sides parallel to it, T
/// round the line. Taken at the worst corner and the worse of the two sides that meet there, V and
/// T adding up (a circle: every force at its worst at once). Forces of zero use nothing. No check:
/// f_u or the throat missing, unknown profile, forces that are not finite.
WeldCheck weld_check(const Profile& profile, const FilletWeld& weld, const SectionForces& forces);

}  // namespace tubewright
