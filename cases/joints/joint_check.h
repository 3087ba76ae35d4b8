// Tube ends that stand on the face of another tube: which joints they are, and whether the face
// holds by EN 1993-1-8 chapter 7 (cases/joints/tube_joint.h).
//
// A tube runs through a node if two pieces of a path, or else of one section, meet there in one
// line. Tubes that end there are its braces. One on a face makes a T or Y joint, two on one face a
// K or N joint with a gap, two in line on opposite faces an X joint. Everything else, corners above
// all, has no rule there and gets the reason in words.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cases/checks/check_result.h"
#include "cases/checks/member_checks.h"
#include "cases/frame/frame.h"
#include "cases/joints/tube_joint.h"
#include "cases/model/build_model.h"
#include "solver/elements/beam_field.h"

namespace tubewright {

enum class JointShape { none, T, Y, X, gap };

/// One end of a member as a brace.
struct BraceEnd {
  bool welded = false;  ///< false: nothing ends here, or on a pin
  JointShape shape = JointShape::none;
  std::string reason;                   ///< why there is no rule; empty with a shape
  std::array<int, 2> chord = {-1, -1};  ///< members: the two pieces of the tube that runs through
  int partner = -1;                     ///< of a gap joint: the other brace
  double angle = 0;                     ///< to the chord, 0 to pi/2
  double gap = 0;                       ///< m
  bool in_plane_about_y = true;         ///< bending in the plane of the joint is about its local y
};

/// Both ends of each member.
std::vector<std::array<BraceEnd, 2>> brace_ends(const Frame& frame, const NumberedFrame& numbered,
                                                const std::vector<MemberFacts>& facts);

/// Section forces at both ends of each beam of the model.
using BeamEnds = std::vector<std::array<SectionForces, 2>>;

BeamEnds beam_ends(const std::vector<BeamState>& beams);

/// Both ends of a member in one case; not needed where an end stands on nothing. `factor`: the
/// safety factor, on all forces.
std::array<CheckResult, 2> joint_checks(const NumberedFrame& numbered,
                                        const std::vector<MemberFacts>& facts,
                                        const std::vector<std::array<BraceEnd, 2>>& ends,
                                        size_t member, const BeamEnds& forces, double factor);

}  // namespace tubewright
