// Whether tubes hold where they are joined: every end of a tube that is welded to others, by the
// rule of the joint it makes. A corner: cases/joints/frame_corner.h; a tube on the faces of
// another: cases/joints/face_joint.h, or on a round one: cases/joints/round_chord.h; which it is:
// cases/joints/joint_recognition.h.
//
// An end has no number, and says why, where the shape or the strength of a tube is not known, where
// a flat bar stands on a round tube, and where a smaller tube carries on a bigger one in one line.
#pragma once

#include <array>
#include <vector>

#include "cases/checks/check_result.h"
#include "cases/checks/member_checks.h"
#include "cases/joints/joint_forces.h"
#include "cases/joints/joint_recognition.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// Both ends of a member in one case; not needed where an end stands on nothing. `factor`: the
/// safety factor, on all forces.
std::array<CheckResult, 2> joint_checks(const NumberedFrame& numbered,
                                        const std::vector<MemberFacts>& facts,
                                        const std::vector<std::array<JointEnd, 2>>& ends,
                                        size_t member, const BeamEnds& forces, double factor);

}  // namespace tubewright
