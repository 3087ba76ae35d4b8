// What local buckling leaves of a class 4 hollow rectangle: EN 1993-1-5:2006 4.4 (from memory).
#pragma once

#include <string>

#include "solver/model/section.h"

namespace tubewright {

/// Share rho of an internal wall's flat width that stays effective in uniform compression (psi = 1,
/// k_sigma = 4): lambda_p = (c/t)/(28.4 epsilon sqrt(k_sigma)); 1 up to lambda_p = 0.673, beyond
/// (lambda_p - 0.22)/lambda_p^2 (Table 4.1, eq. 4.2).
double effective_share(double c_over_t, double epsilon);

/// SI units. The section is symmetric, so its centre does not move (e_N = 0).
struct EffectiveSection {
  double A = 0;
  double Wy = 0;  ///< elastic
  double Wz = 0;
  std::string reason;  ///< when there is none
};

/// All four walls taken as uniformly compressed by f_y and cut out in the middle, for N, M_y and
/// M_z alike. Safe for bending, where only one wall is in uniform compression. A round tube of
/// class 4 needs EN 1993-1-6 and gets a reason.
EffectiveSection effective_section(const Section& section, double fy);

}  // namespace tubewright
