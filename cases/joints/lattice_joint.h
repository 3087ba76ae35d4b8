// Two braces on one face that pull and push: K and N joints with a gap or an overlap, EN
// 1993-1-8:2005 Tables 7.10 and 7.12 (square chord and overlap SEEN in an extract of the standard,
// rectangular chords MEMORY).
//
// SI units, angles in rad; forces are design loads.
#pragma once

#include <array>
#include <optional>

#include "cases/joints/joint_scope.h"
#include "cases/joints/tube_joint.h"

namespace tubewright {

struct LatticeResistance {
  std::array<double, 2> N = {};  ///< of each brace, pulled or pushed
  double stress_factor = 1;      ///< k_n, 1 where the face does not count
  RangesLeft left;
};

/// Share of the overlapping brace's footprint h/sin theta that the other covers; `gap` below 0.
double overlap_share(double gap, const JointBrace& overlapping);

/// Gap: the face, and for other than square tubes within Table 7.9 also chord shear, the braces'
/// own walls and punching. Overlap of 25 % and more: the walls of the overlapping brace, which is
/// the narrower; the other in the same proportion to its own strength. Between them, from an
/// overlap of 25 % to a gap of t_1 + t_2, the smaller of both (judgement).
///
/// Nothing where the gap is wider than 1.5 (1 - beta) b_0: two T or Y joints (note to Table 7.8).
/// Flat bars have no such joint either.
std::optional<LatticeResistance> lattice_resistance(const JointChord& chord,
                                                    const std::array<JointBrace, 2>& braces,
                                                    double gap);

}  // namespace tubewright
