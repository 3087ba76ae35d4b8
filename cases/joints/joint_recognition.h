// Which joint every end of a tube makes, from the geometry of its node.
//
// A tube runs through a node if two pieces of a path, or else of one section, or else of one
// outside, meet there within 30 degrees of one line. Every other tube stands on it. Of several that
// run through the biggest is whole, the others are cut and stand on it from both sides; of equals
// each may be the one that is cut.
//
// Where none runs through, tubes about as big as the biggest make a corner, each with every other,
// and the smaller ones stand on the ends of those; on each whose faces they meet, since a builder
// may weld them to any. A piece of a path that turns off is a tube of its own.
#pragma once

#include <Eigen/Core>
#include <array>
#include <memory>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// Of its width: an end of a tube nearer than this is felt (ISO 14346 for round tubes, MEMORY).
constexpr double felt_end = 2.5;

/// One end of a member: 0 at `from`, 1 at `to`; member -1: none.
struct TubeEndAt {
  int member = -1;
  int end = 0;
};

/// A tube on the faces of another.
struct StandingEnd {
  TubeEndAt tube;
  double angle = 0;  ///< to the chord, 0 to pi/2
  double along = 0;  ///< cosine of its angle to the chord's x axis
  std::array<double, 4> onto =
      {};                        ///< see StandingTube; exactly 0 and 1 on a face within 2 degrees
  bool turned = false;           ///< about its own axis, by more than 2 degrees
  bool about_y = true;           ///< bending in the plane of the joint is about its local y
  bool in_triangle = false;      ///< with other members, and six times as long as deep
  Eigen::Vector3d in_plane;      ///< axis of M_ip in its local axes
  Eigen::Vector3d out_of_plane;  ///< of M_op
  Eigen::Vector3d chord_axis;
};

/// Square on one face, within 2 degrees.
bool is_on_a_face(const StandingEnd& end);

/// On a face square to the chord's local y, or nearer to one of those than to one square to z.
bool is_on_side_face(const StandingEnd& end);

/// Of a chord, m: the face stood on, or the nearest to it, across the chord; and the faces beside
/// it.
struct FaceStoodOn {
  double width = 0;
  double depth = 0;
};
FaceStoodOn face_stood_on(const StandingEnd& end, const Profile& chord);

/// Sides of a tube that stands, m: in the plane of the joint, and across it.
double side_in_plane(const StandingEnd& end, const Profile& brace);
double side_across(const StandingEnd& end, const Profile& brace);

/// A tube that is stood on, and all that stands there.
struct ChordJoint {
  std::array<TubeEndAt, 2> chord;  ///< the second is none where it ends
  bool ends = false;
  bool open = false;  ///< no tube as wide closes its end
  bool bent = false;
  std::vector<StandingEnd> tubes;
};

/// A tube that ends on another of its size.
struct CornerPartner {
  TubeEndAt other;
  double angle = 0;     ///< between the tubes, pi is straight
  bool about_y = true;  ///< bending in the plane of the corner is about its local y
  bool turned = false;  ///< neither of its axes is in that plane
  Eigen::Vector3d in_plane = Eigen::Vector3d::Zero();  ///< axis of that bending in its local axes
};

/// One end of a member.
struct JointEnd {
  bool needed = false;
  std::string reason;  ///< why not needed, or no rule
  struct OnChord {
    std::shared_ptr<const ChordJoint> joint;  ///< of all that stand there
    size_t which = 0;                         ///< of `joint->tubes`
  };
  std::vector<OnChord> on;  ///< it stands on one of these: the worst counts
  std::vector<CornerPartner> partners;
  bool crowded = false;  ///< more than its partner meet in that corner
  /// In a crowded corner: as if it stood on the end of the longest tube there, which has none.
  std::vector<OnChord> on_longest;
  bool unlike = false;  ///< a partner is of another section
};

/// Outline of a member that is a beam.
const Profile& profile_of_member(const NumberedFrame& numbered, int member);

/// Of the whole tube that each member is a piece of, m.
std::vector<double> tube_lengths(const Frame& frame, const NumberedFrame& numbered);

/// Both ends of each member.
std::vector<std::array<JointEnd, 2>> joint_ends(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
