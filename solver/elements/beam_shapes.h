// How a beam bends between its joints: the exact deflected shapes of an unloaded Timoshenko beam.
#pragma once

#include <Eigen/Core>

namespace tubewright {

/// In one plane at fraction s of the length, caused by a unit value of v_1, theta_1, v_2, theta_2,
/// theta being the rotation of the section in the sense of dv/dx. `slope` is dv/dx; it differs from
/// `rotation` by the shear strain.
struct BendingShapes {
  Eigen::Vector4d deflection;
  Eigen::Vector4d rotation;
  Eigen::Vector4d slope;
};

/// `phi` = shear_ratio() of the plane, 0 for a shear-rigid beam.
BendingShapes bending_shapes(double s, double L, double phi);

}  // namespace tubewright
