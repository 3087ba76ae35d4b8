// Bolts: sizes, and what they and the sheet they bear on hold, one formula a function.
//
// EN 1993-1-8:2005 Tables 3.1 and 3.4 (bearing SEEN in worked examples of infosteel.be, MSB05; the
// rest MEMORY), 3.6.1; pins Table 3.10 (MEMORY). gamma_M2 = 1.25, gamma_M0 = 1.0. SI units, design
// values.
#pragma once

#include <optional>
#include <string>

namespace tubewright {

struct Bolt {
  double d = 0;       ///< nominal diameter
  double A_s = 0;     ///< stress area (ISO 898-1, MEMORY)
  double d0 = 0;      ///< hole: d + 1 mm up to M14, + 2 mm up to M24 (EN 1090-2, MEMORY)
  double d_m = 0;     ///< mean of the nut's across points and across flats (ISO 4032, MEMORY)
  double washer = 0;  ///< outside diameter (ISO 7089, MEMORY)
  double fub = 0;
  double fyb = 0;
  double alpha_v = 0;  ///< 0.6 for 4.6, 5.6 and 8.8, else 0.5: threads in the shear plane
};

/// None: no such bolt, M5 to M20, 4.6 to 10.9.
std::optional<Bolt> bolt_of(double diameter, const std::string& grade);

double bolt_shear_resistance(const Bolt& bolt);    ///< F_v,Rd, one plane
double bolt_tension_resistance(const Bolt& bolt);  ///< F_t,Rd

/// M_Rd = 1.5 W f_yb of a bolt that is bent, by the rule for pins; W of the stress area.
double bolt_bending_resistance(const Bolt& bolt);

/// 0.7 f_ub A_s: what a bolt that is tightened as usual pulls with (EN 1090-2, MEMORY).
double usual_preload(const Bolt& bolt);

/// F_b,Rd = k_1 alpha_b f_u d t/gamma_M2, alpha_b = min(e1/(3 d0), f_ub/f_u, 1), k_1 = min(2.8
/// e2/d0 - 1.7, 2.5): e1 along the force to the edge, e2 across it.
double bearing_resistance(const Bolt& bolt, double fu, double t, double e1, double e2);

/// B_p,Rd = 0.6 pi d_m t f_u/gamma_M2.
double pull_through_resistance(const Bolt& bolt, double fu, double t);

/// The tube's face as it folds under a washer, taken as a square of its diameter: f_y t0^2 (2 eta +
/// 4 sqrt(1 - beta))/(1 - beta), beta = eta = washer/b0 (the yield pattern of Table 7.11, DERIVED
/// use). A washer of 0.85 b0 and more counts as 0.85.
double face_under_washer(double fy, double t0, double b0, double washer);

/// Tension of a section with holes: min(A f_y, 0.9 A_net f_u/gamma_M2), EN 1993-1-1 (6.6), (6.7).
double net_tension_resistance(double A, double A_net, double fy, double fu);

/// F_v/F_v,Rd + F_t/(1.4 F_t,Rd), and F_t/F_t,Rd, the greater.
double bolt_utilisation(const Bolt& bolt, double shear, double tension);

}  // namespace tubewright
