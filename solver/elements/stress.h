// Stresses on a cross-section from its section forces.
//
// Longitudinal stress by Navier, sigma = N/A + M_y z/I_y - M_z y/I_z. Shear stress from torsion is
// T/W_t along the wall (Bredt for tubes) plus shear flow V Q / (I t) of each transverse force.
#pragma once

#include <vector>

#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

/// A point of the outline with what each section force contributes there. The shear stress is
/// signed along the outline, positive from y towards z (anticlockwise looking at the cut).
struct StressPoint {
  double y = 0;
  double z = 0;
  double shear_per_Vy = 0;  ///< 1/m2
  double shear_per_Vz = 0;  ///< 1/m2
  double shear_per_T = 0;   ///< 1/m3
};

/// The outline as a ring, anticlockwise seen against +x: for rectangles the corners and wall
/// centres starting at the middle of the +y wall (8 points), for rounds 32 points starting at +y.
/// Empty for a profile that is not known.
std::vector<StressPoint> outline(const Section& section);

struct Stress {
  double axial = 0;      ///< N/A, tension positive
  double bending = 0;    ///< greatest longitudinal stress from bending at the worst point, >= 0
  double shear = 0;      ///< shear stress at the worst point, >= 0
  double von_mises = 0;  ///< sqrt(sigma^2 + 3 tau^2) at the worst point
};

struct PointStress {
  double normal = 0;  ///< sigma, tension positive
  double shear = 0;   ///< tau, signed along the outline
  double von_mises = 0;
};

PointStress stress_at(const Section& section, const StressPoint& point, const SectionForces& f);

/// At the worst point of the outline, between the ring's points too. For an unknown profile every
/// part is taken at its greatest at once.
Stress worst_stress(const Section& section, const SectionForces& f);

/// The worst place along a beam.
struct MemberStress {
  Stress stress;
  double where = 0;  ///< fraction of the length from `from`
};

/// Exact for the loads allowed: between point actions sigma is at most quadratic and tau linear in
/// x; without a line load von Mises is convex there and so greatest at an end, with one the
/// interval is searched.
MemberStress worst_along(const BeamState& beam);

/// False if von Mises stress is surely no higher than `least` anywhere along the beam. Quick: all
/// forces at their greatest, all stresses as if at one point.
bool may_exceed(const BeamState& beam, double least);

}  // namespace tubewright
