// A thin sheet in shear before and after it buckles: critical stress, and the incomplete diagonal
// tension field that carries on. SI units.
//
// P. Kuhn, J. P. Peterson, L. R. Levin, "A Summary of Diagonal Tension, Part I", NACA TN 2661
// (1952); equations as in T. H. G. Megson, Aircraft Structures for Engineering Students, 3rd ed.,
// ch. 6.
#pragma once

namespace tubewright {

/// How the sheet's edges are held against bending out of its plane.
enum class SheetEdge { simply_supported, clamped };

/// Critical shear stress of a flat rectangular sheet, long side `a`, short side `b` (in any order),
/// Pa:
///   tau_cr = k_s pi^2 E / (12 (1 - nu^2)) (t/b)^2,
///   k_s = 5.34 + 4.00 (b/a)^2 simply supported, 8.98 + 5.60 (b/a)^2 clamped
/// (Timoshenko & Gere, Theory of Elastic Stability, from memory; EN 1993-1-5 A.3 the former).
double critical_shear_stress(double E, double nu, double t, double a, double b, SheetEdge edge);

/// Share k of the shear that diagonal tension carries: tanh(0.5 log10(tau/tau_cr)) beyond tau_cr
/// (Megson eq. 6.111).
double diagonal_tension_share(double tau, double critical);

/// Share of G that is left to a sheet of isotropic material at share k, edges rigid, secant:
///   1 / [(1 - k) + 2 k/(1 + nu)]    (from 1/G_IDT = (1-k)/G + k/G_PDT with G_PDT = E/4).
double shear_stiffness_kept(double k, double nu);

/// Angle of complete diagonal tension to the flanges, rad: tan^4 = (1 + t d/(2 A_F))/(1 + t b/A_S);
/// d: depth, b: bay, A_F, A_S: areas of flange and upright (Megson eq. 6.105 ff.).
double tension_field_angle(double t, double depth, double bay, double flange_area,
                           double upright_area);

/// Principal stresses of the sheet at shear stress tau and share k, at the angle `alpha` of the
/// folds (Megson eq. 6.113): sigma_1 = 2 k tau/sin 2a + tau (1 - k) sin 2a, sigma_2 = -tau (1 - k)
/// sin 2a.
struct SheetStress {
  double tension = 0;
  double compression = 0;  ///< negative
};
SheetStress tension_field_stress(double tau, double k, double alpha);

}  // namespace tubewright
