// Corners of frames: tubes that end on each other, mitred or butted, without a plate between them.
// CIDECT Design Guide 3, 2nd ed. (2009), chapter on frame corners: N/N_pl + M/M_pl <= alpha, V at
// most half, N at most 0.2 of its resistance (rule SEEN in words, alpha MEMORY).
//
// Written for two alike rectangular tubes at 90 to 180 degrees, bent in their plane; every tube of
// a corner is checked by itself. Beyond it, as comparisons:
// - bending out of the plane and torsion count as much as in it: |M_y|/M_pl,y + |M_z|/M_pl,z +
//   |T|/T_Rd, since what twists one tube bends the other there (judgement);
// - below 90 degrees alpha of 90;
// - N beyond 0.2 N_pl in corners nearly straight: the limit of 0.2 up to 150 degrees grows to 1 at
//   180. Derived: what deviates at the kink, 2 N cos(angle/2), stays below that at 90 degrees.
// SI units, angles in rad, between the tubes: 180 degrees is straight.
#pragma once

#include "cases/checks/check_result.h"
#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

/// alpha at 90 degrees: 3 sqrt(b_0/h_0)/(b_0/t_0)^0.8 + 1/(1 + 2 b_0/h_0) <= 1; beyond: 1 - sqrt(2)
/// cos(angle/2) (1 - alpha_90). b_0 across the plane of the corner, h_0 in it.
double corner_efficiency(double b0, double h0, double t0, double angle);

/// Share of N_pl that a corner may carry.
double corner_axial_limit(double angle);

/// A tube in its corner.
struct CornerTube {
  Section section;
  double fy = 0;
  double angle = 0;           ///< to the other tube
  bool bends_about_y = true;  ///< in the plane of the corner
};

/// `forces` at the corner. A solid bar has no walls that give way: not needed.
CheckResult corner_check(const CornerTube& tube, const SectionForces& forces);

}  // namespace tubewright
