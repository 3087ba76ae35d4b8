// Cross-sections: the properties a beam needs, and the shape that stresses are found on.
//
// Symbols of EN 1993: y and z are the section's axes, x runs along the member. `height` lies along
// z, `width` along y. I_y resists bending about y, that is deflection along z. SI units (m, m2,
// m4).
#pragma once

#include <vector>

namespace tubewright {

/// The outline that stresses are evaluated on. Round shapes use height = width = diameter; a solid
/// shape has wall = 0. `unknown`: only the properties are given, no outline.
enum class ProfileKind { hollow_rectangle, solid_rectangle, round, unknown };

struct Profile {
  ProfileKind kind = ProfileKind::unknown;
  double height = 0;
  double width = 0;
  double wall = 0;
};

struct Section {
  double A = 0;     ///< area
  double Iy = 0;    ///< second moment of area about y
  double Iz = 0;    ///< second moment of area about z
  double It = 0;    ///< St Venant torsion constant
  double Wy = 0;    ///< elastic section modulus about y
  double Wz = 0;    ///< elastic section modulus about z
  double Wt = 0;    ///< torsion modulus: greatest torsional shear stress = T / Wt
  double Wply = 0;  ///< plastic section modulus about y, 0 where unknown
  double Wplz = 0;  ///< plastic section modulus about z, 0 where unknown
  double Ay = 0;    ///< shear area for a force along y; infinite = shear-rigid (Euler-Bernoulli)
  double Az = 0;    ///< shear area for a force along z; infinite = shear-rigid
  Profile profile;
};

}  // namespace tubewright
