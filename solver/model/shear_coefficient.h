// Timoshenko shear coefficients kappa: shear area A_s = kappa A.
//
// G. R. Cowper, "The shear coefficient in Timoshenko's beam theory", J. Appl. Mech. 33 (1966)
// 335-340. `nu` is Poisson's ratio. Lengths in any one unit.
#pragma once

namespace tubewright {

double shear_coefficient_rectangle(double nu);
double shear_coefficient_circle(double nu);

/// Hollow circle, any wall; `ratio` = inner / outer diameter.
double shear_coefficient_hollow_circle(double nu, double ratio);

/// Thin-walled box of one wall thickness, force along `web`. Both are mid-line dimensions.
double shear_coefficient_thin_box(double nu, double web, double flange);

}  // namespace tubewright
