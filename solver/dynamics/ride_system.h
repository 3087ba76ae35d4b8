// A structure in its modes, on tyres.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace tubewright {

/// A tyre pushes along the normal of its wheel's path: F up at `vertical`, -F dz_c/dx at
/// `longitudinal`, by the deflection d = z_c - w, w the displacement of `vertical`:
///   F = 0 where d <= 0, else max(0, stiffness d + damping d').
struct RideTyre {
  int vertical = 0;       ///< force coordinate, up
  int longitudinal = -1;  ///< force coordinate, forward; -1: none
  double stiffness = 0;   ///< N/m, above 0
  double damping = 0;     ///< N s/m, not negative
};

/// Force = -damping * rate of the coordinate.
struct RideDamper {
  int coordinate = 0;
  double damping = 0;  ///< N s/m (or N m s), not negative
};

/// Force coordinates are displacements, or differences of such, along which forces act; their
/// displacements are w = modes q + residual_flexibility f + weight_displacement, counted from where
/// the unloaded tyres just touch level ground of height 0. SI units.
struct RideSystem {
  Eigen::VectorXd circular_frequency;    ///< one a mode, rad/s; 0: rigid-body mode
  Eigen::VectorXd damping_ratio;         ///< one a mode, not negative
  Eigen::MatrixXd modes;                 ///< force coordinates x modes, mass-normalised
  Eigen::MatrixXd residual_flexibility;  ///< (force coordinates)^2, m/N: of the modes left out
                                         ///< (symmetric, >= 0)
  Eigen::VectorXd weight_modal;          ///< modal force of gravity, one a mode
  Eigen::VectorXd weight_displacement;   ///< at the force coordinates, m: gravity through the modes
                                         ///< left out
  std::vector<RideTyre> tyres;           ///< at most `most_tyres`
  std::vector<RideDamper> dampers;
};

constexpr int most_tyres = 16;

/// True if sizes and indices agree, numbers are finite and within the bounds said above. The
/// functions of this room require it.
bool is_ride_system(const RideSystem& system);

}  // namespace tubewright
