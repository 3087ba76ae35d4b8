// The forces of a case at a joint, in the joint's own directions.
#pragma once

#include <array>
#include <vector>

#include "cases/checks/member_checks.h"
#include "cases/joints/face_joint.h"
#include "cases/joints/frame_corner.h"
#include "cases/joints/joint_recognition.h"
#include "cases/model/build_model.h"
#include "solver/elements/beam_field.h"

namespace tubewright {

/// Section forces at both ends of each beam of the model.
using BeamEnds = std::vector<std::array<SectionForces, 2>>;

BeamEnds beam_ends(const std::vector<BeamState>& beams);

/// What a joint's checks are made with; `factor`: the safety factor, on all forces.
struct JointLoads {
  const NumberedFrame& numbered;
  const std::vector<MemberFacts>& facts;
  const BeamEnds& forces;
  double factor = 1;

  SectionForces at(const TubeEndAt& tube) const;
};

/// Strength beside the welds: aluminium has what the heat leaves, over gamma_M1 of EN 1999-1-1.
double joint_strength(const MemberFacts& facts);

/// N and moments of a tube on a chord. Shear that differs between its ends is a load between them,
/// and its moments are not secondary then.
StandingTube standing_tube(const JointLoads& loads, const StandingEnd& end);

/// The greatest compression on either side of the joint, and what of N_pl is used.
ChordTube chord_tube(const JointLoads& loads, const ChordJoint& joint);

}  // namespace tubewright
