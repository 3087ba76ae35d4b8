// What one blind rivet through a thin sheet can carry. SI units, characteristic values: divide by
// gamma_M3.
#pragma once

namespace tubewright {

/// Partial factor of fasteners in thin sheeting, EN 1999-1-4 (from memory).
constexpr double gamma_M3 = 1.25;

/// Shear strength of an open-end aluminium blind rivet, N: 38 d^2 with d in mm (EN 1999-1-4 8.2,
/// for rivets of ISO 15977 and its like; from memory, to be replaced by the maker's figure).
double blind_rivet_shear_strength(double diameter);

/// Bearing of sheet or support, N (EN 1999-1-4 8.2, form as eq. 8.9 ff. for screws): 2.5 f_u
/// sqrt(t^3 d), at most 1.5 f_u t d, where the support is as thin as the sheet; 1.5 f_u t d where
/// it is 2.5 times as thick; straight lines between. A support thinner than the sheet is the part
/// that tears: t is then its wall. `f_u`: the lesser of the two parts; beyond 260 MPa it does not
/// count.
double bearing_strength(double f_u, double sheet_thickness, double d, double support_thickness);

/// Two planes of the sheet shearing out from the hole to its edge, N: 2 (e - d/2) t f_u/sqrt(3), e
/// from the middle of the hole (derived).
double tear_out_strength(double f_u, double t, double d, double edge_distance);

/// Compressive stress at which the sheet buckles between rivets of pitch s, Pa: c pi^2 E/12 (t/s)^2
/// (J.-C. Flabel, Practical Stress Analysis for Design Engineers: c = 4 bolts, 3 protruding rivets,
/// 1 to 1.5 countersunk). c = 2 is taken for blind rivets (judgement).
double inter_rivet_buckling_stress(double E, double t, double pitch);

}  // namespace tubewright
