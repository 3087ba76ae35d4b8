// Hot-spot stress of a square tube on the face of a square tube over its nominal stress.
//
// X.-L. Zhao et al., CIDECT Design Guide 8 (2000), which ISO 14347 follows, T and X joints: the
// parametric formulas and the curve are MEMORY. Made for walls of 4 to 16 mm, 0.35 <= beta <= 1,
// 12.5 <= 2 gamma <= 25, 0.25 <= tau <= 1: outside these a comparison; beta, 2 gamma and tau count
// as no less than the least.
#pragma once

#include <vector>

#include "cases/checks/member_checks.h"
#include "cases/joints/joint_recognition.h"

namespace tubewright {

/// Stress range at the hot spot that lasts 2 million cycles, Pa: that of a wall of 16 mm. Thinner
/// walls have more by the guide (193 MPa at 4 mm), which is not counted: below 4 mm the weld's root
/// governs and there are no tests.
constexpr double hot_spot_category = 114e6;

/// Greatest of all lines of brace and chord, at least 2, on the nominal stress of the brace.
struct HotSpotFactors {
  /// At least 6.9: solids gave 5.8 to 6.9 for beta from 0.67 to 1 (derived for this project), where
  /// the guide comes down to 2.7 at beta = 1.
  double axial = 0;
  double in_plane = 0;
  /// The guide has none for single joints: in_plane times 1.15, the most that solids gave in five
  /// joints (derived for this project).
  double out_of_plane = 0;
};

/// `beta`: brace over chord width; `two_gamma`: chord width over wall; `tau`: brace over chord
/// wall. Fillet welds: 1.4 times the brace's own lines.
HotSpotFactors hot_spot_factors(double beta, double two_gamma, double tau);

struct BraceHotSpot {
  bool known = false;  ///< false: no T, Y or X joint of hollow rectangles
  HotSpotFactors factors;
  bool in_plane_about_y = true;
};

/// Of one end of a member. Y joints count as T joints (safe: a slanting brace has less).
BraceHotSpot brace_hot_spot(const std::vector<MemberFacts>& facts, const JointEnd& end,
                            size_t member);

}  // namespace tubewright
