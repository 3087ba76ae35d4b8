// Section properties of the shapes that frames are made of.
//
// Hollow rectangles follow the formulas of EN 10219-2:2006 and EN 10210-2:2006, Annex B (Annex A in
// the 2019 editions), corner radii included. SI units or any other consistent set. Shear areas use
// Cowper's coefficients for Poisson's ratio `nu`.
#pragma once

#include "solver/model/section.h"

namespace tubewright {

/// Corner radii for the calculation of properties (not the tolerances of manufacture).
struct CornerRadii {
  double outer = 0;
  double inner = 0;
};

/// EN 10219-2: r_o = 2.0 T, r_i = 1.0 T up to 6 mm; 2.5 T, 1.5 T up to 10 mm; 3.0 T, 2.0 T above.
/// `wall` in metres, since the steps are in millimetres.
CornerRadii cold_formed_corners(double wall);

/// EN 10210-2: r_o = 1.5 T, r_i = 1.0 T.
CornerRadii hot_finished_corners(double wall);

/// Square and rectangular tube. Requires: 0 < wall < min(height, width)/2, the radii fit.
Section hollow_rectangle(double height, double width, double wall, CornerRadii corners, double nu);

/// Requires: 0 < wall < diameter/2.
Section round_tube(double diameter, double wall, double nu);

Section round_bar(double diameter, double nu);

/// Solid rectangle, height along z.
Section flat_bar(double height, double width, double nu);

}  // namespace tubewright
