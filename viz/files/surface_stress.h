// Where the outer surface of a member lies round its axis, and the stress on it.
#pragma once

#include <vector>

#include "solver/elements/stress.h"

namespace tubewright {

/// The outline as a ring, anticlockwise seen against +x. Rectangles: the 8 points of outline().
/// Rounds: its 32 points, turned by at most half a step so that one lies on the fibre bent most by
/// `f`; the greatest stress on the ring is then the section's. Profile not known: the 8 points of a
/// thin-walled square tube of the same area and mean second moment, for drawing only.
std::vector<StressPoint> surface_ring(const Section& section, const SectionForces& f);

/// Stress at a point of surface_ring(). Profile not known: the section's worst, at every point.
PointStress surface_stress(const Section& section, const StressPoint& point,
                           const SectionForces& f);

/// The longitudinal stress of greatest size on the section, signed; of two equal ones the tension.
double greatest_normal_stress(const Section& section, const SectionForces& f);

}  // namespace tubewright
