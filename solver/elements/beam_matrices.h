// Mass and stress stiffness of the beam, consistent with its stiffness: by the same shapes.
#pragma once

#include "solver/elements/beam_element.h"

namespace tubewright {

/// Consistent mass, local axes, on the member's ends: translation of the deflected axis and
/// rotation of its sections, rho A u'^2 + rho I theta'^2, in torsion rho (Iy + Iz) (J. S.
/// Przemieniecki, Theory of Matrix Structural Analysis (1968), ch. 11). With shear flexibility the
/// rotation is the section's own, not the slope of the axis, which would be wrong.
Matrix12 local_mass(const BeamElement& e);

/// Stress stiffness of an axial force (tension positive) that goes evenly from N - growth/2 to N +
/// growth/2 along the member, local axes, on the member's ends: int N (v'^2 + w'^2) dx with the
/// slope of the deflected axis, and (Iy + Iz)/A int N rx'^2 dx in torsion (S. P. Timoshenko, J. M.
/// Gere, Theory of Elastic Stability (1961); from memory). Terms of bending moments, which matter
/// for flat bars tipping over, are left out. Both of an arc's chord, the mass of its whole length.
Matrix12 local_stress_stiffness(const BeamElement& e, double N, double growth = 0);

/// A matrix on the member's ends, in global axes, seen from its joints: releases and joint springs
/// as in condense(). Requires: the connections do not leave the member loose.
Matrix12 seen_from_joints(const BeamElement& e, const Matrix12& on_ends);

}  // namespace tubewright
