// A linear elastic, isotropic material.
#pragma once

namespace tubewright {

/// SI units: Pa, kg/m3. `yield` and `ultimate` are NaN where unknown: a check that needs them is
/// then reported as not made.
struct Material {
  double E = 0;         ///< modulus of elasticity, Pa
  double G = 0;         ///< shear modulus, Pa
  double density = 0;   ///< kg/m3
  double yield = 0;     ///< yield strength or 0.2 % proof strength f_y, Pa
  double ultimate = 0;  ///< ultimate tensile strength f_u, Pa
};

/// Poisson's ratio of an isotropic material, nu = E/(2G) - 1.
inline double poisson_ratio(const Material& m) { return m.E / (2 * m.G) - 1; }

}  // namespace tubewright
