// What the walls of welded joints give way by, end by end, from the geometry of the frame.
//
// A beam model joins tubes rigidly where their axes meet. Where one thin tube stands on another,
// the wall it stands on bends, and the other's section shears out of square. How stiff that is
// comes from tube_on_tube.h and tube_corner.h, tables of solid finite elements
// (tests/joint_models); which joint an end makes from cases/joints/joint_recognition.h. Nothing of
// this has been held against a test of real joints.
//
// Taken as rigid: ends that are not welded; ends to which the file gives releases or springs of its
// own; twisting of the end about its own axis; and joints the tables do not know, which say why.
// A joint near to one of the tables is taken as that, and says so. Axes of bending: the first lies
// in the plane of the joint (out-of-plane bending turns about it), the second is normal to it.
#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/model/model.h"

namespace tubewright {

/// One end of a member.
struct WeldedJoint {
  JointFlexibility flexibility;  ///< by geometry alone; none() where it is taken as rigid
  bool needed = false;           ///< it is welded to a tube that could give way
  std::string nearest_because;   ///< why it is not in the tables and taken as the nearest that is
  std::string rigid_because;     ///< why it is taken as rigid nevertheless; empty: it is not
};

/// Both ends of each member, in the order of Frame::members.
using WeldedJoints = std::vector<std::array<WeldedJoint, 2>>;

WeldedJoints joint_springs(const Frame& frame, const NumberedFrame& numbered);

/// Puts them and the faces under attachments and gussets, times Frame::joint_flexibility, into the
/// model.
void put_joints(const Frame& frame, const WeldedJoints& joints, NumberedFrame& numbered);

/// build_model() with the joints of the frame: what is solved.
struct JointedFrame {
  NumberedFrame numbered;
  WeldedJoints joints;
};

JointedFrame jointed_frame(const Frame& frame);
NumberedFrame jointed_model(const Frame& frame);

/// How the joints of a frame are taken.
struct JointSummary {
  bool rigid = false;  ///< all of them, as the file says
  int sprung = 0;      ///< ends of members that give way by their geometry, nearest ones among them
  /// Ends "NAME at NODE" by the reason.
  std::map<std::string, std::vector<std::string>> taken_as_nearest, taken_as_rigid;
};

JointSummary joint_summary(const Frame& frame, const WeldedJoints& joints);

}  // namespace tubewright
