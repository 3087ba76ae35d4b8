// A beam bent to a circular arc: its exact stiffness, by its flexibility integrated along the arc.
//
// A force and a moment at one end, the other held, give the section forces anywhere on the arc by
// equilibrium alone; the complementary energy of these (tension, shear, torsion and bending about
// the section's axes, which turn with the arc) is the flexibility, its inverse the stiffness. So
// the element is exact for forces at its ends, in its plane and out of it: S. P. Timoshenko,
// Strength of Materials, part II (from memory), thin curved bars.
#pragma once

#include <Eigen/Core>

#include "solver/elements/beam_element.h"

namespace tubewright {

/// Radius times angle of an arc, m; of a straight beam its length.
double developed_length(const BeamElement& e);

/// Angle between the tangents at the ends, rad. Requires: L times curvature is at most 2.
double arc_angle(double L, double curvature);

/// A place on the arc: `angle` from its middle towards its end, rad.
struct ArcPlace {
  Eigen::Vector3d at;    ///< from the first end, local axes, m
  Eigen::Matrix3d axes;  ///< columns: tangent and the section's y and z, local axes
};

ArcPlace arc_place(const BeamElement& e, double angle);

/// 12 by 12, local axes of the chord, both ends welded. Requires: an arc of 90 degrees at most.
Matrix12 curved_stiffness(const BeamElement& e);

}  // namespace tubewright
