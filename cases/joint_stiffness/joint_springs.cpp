#include "cases/joint_stiffness/joint_springs.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "cases/attachments/attachment_arm.h"
#include "cases/frame/find_parts.h"
#include "cases/joint_stiffness/tube_corner.h"
#include "cases/joint_stiffness/tube_on_tube.h"
#include "cases/joints/joint_recognition.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr const char* turned = "turned about its own axis";
constexpr const char* no_tube = "the tables are of square and rectangular tubes";
constexpr const char* on_a_corner = "not square to one face";
constexpr const char* unlike = "a corner of unlike tubes";

bool is_box(const Profile& p) { return p.kind == ProfileKind::hollow_rectangle; }

const EndConnection& connection_of(const Member& m, int end) {
  return end == 0 ? m.release_from : m.release_to;
}

double total(const JointFlexibility& f) { return f.bending[0] + f.bending[1]; }

class Springs {
 public:
  Springs(const Frame& frame, const NumberedFrame& numbered)
      : frame_(frame), n_(numbered), ends_(joint_ends(frame, numbered)) {}

  WeldedJoint at(TubeEndAt end) const {
    WeldedJoint joint;
    const JointEnd& e = ends_[static_cast<size_t>(end.member)][static_cast<size_t>(end.end)];
    joint.needed = e.needed && (!e.on.empty() || !e.partners.empty());
    if (!joint.needed) return joint;
    if (connection_of(member(end.member), end.end) != welded) {
      joint.needed = false;
      return joint;
    }
    if (!is_box(profile(end.member))) {
      joint.rigid_because = no_tube;
      return joint;
    }
    // It may be welded to several: the softest counts.
    for (const JointEnd::OnChord& on : e.on) keep_softer(joint, on_chord(on));
    for (const CornerPartner& partner : e.partners) keep_softer(joint, in_corner(end, e, partner));
    return joint;
  }

 private:
  struct Found {
    JointFlexibility flexibility;
    std::string nearest_because;
    std::string rigid_because;
  };

  static void keep_softer(WeldedJoint& joint, Found found) {
    if (total(found.flexibility) < total(joint.flexibility)) return;
    if (found.flexibility.none() && !joint.flexibility.none()) return;
    joint.flexibility = found.flexibility;
    joint.nearest_because = std::move(found.nearest_because);
    joint.rigid_because = std::move(found.rigid_because);
  }

  const Member& member(int m) const { return frame_.members[static_cast<size_t>(m)]; }
  const Profile& profile(int m) const { return profile_of_member(n_, m); }
  double modulus(int m) const {
    const Beam& beam = n_.model.beams[n_.slots[static_cast<size_t>(m)].index];
    return n_.model.materials[beam.material].E;
  }

  ChordEnd end_of(const ChordJoint& joint) const {
    if (!joint.ends) return ChordEnd::through;
    const auto capped = [&](const TubeEndAt& at) {
      return at.member >= 0 && member(at.member).capped[static_cast<size_t>(at.end)];
    };
    // The end that is near: of a tube that ends here, this one; of a stub, its other one.
    bool closed = !joint.open || capped(joint.chord[0]);
    for (const TubeEndAt& at : joint.chord) {
      if (joint.chord[1].member >= 0 && at.member >= 0)
        closed = closed || capped({at.member, 1 - at.end});
    }
    return closed ? ChordEnd::capped : ChordEnd::open;
  }

  Found on_chord(const JointEnd::OnChord& on) const {
    const ChordJoint& joint = *on.joint;
    const StandingEnd& s = joint.tubes[on.which];
    const int chord = joint.chord[0].member;
    const Profile &p = profile(chord), &own = profile(s.tube.member);
    if (!is_box(p) || !is_box(own)) return {{}, "", no_tube};
    const bool on_side = stands_on_side(s);
    TubeOnTube t;
    t.chord_width = on_side ? p.height : p.width;
    t.chord_depth = on_side ? p.width : p.height;
    t.chord_wall = p.wall;
    t.brace_depth = s.about_y ? own.height : own.width;
    t.brace_width = s.about_y ? own.width : own.height;
    t.brace_wall = own.wall;
    t.angle = s.angle;
    t.end = end_of(joint);
    t.beside = stands_beside(joint, on.which);
    const TableStiffness found = tube_on_tube(t, modulus(chord));
    if (!found.stiffness) return {{}, "", found.why};
    const bool squarely = *std::max_element(s.onto.begin(), s.onto.end()) == 1;
    return {flexibility_of(*found.stiffness, s),
            s.turned   ? turned
            : squarely ? ""
                       : on_a_corner,
            ""};
  }

  /// On a face square to the chord's local y, or nearer to one than to one square to z.
  static bool stands_on_side(const StandingEnd& s) {
    return std::max(s.onto[0], s.onto[1]) > std::max(s.onto[2], s.onto[3]);
  }

  /// Another tube stands on the face next to this one's, at the same place.
  bool stands_beside(const ChordJoint& joint, size_t which) const {
    const bool on_side = stands_on_side(joint.tubes[which]);
    for (size_t i = 0; i < joint.tubes.size(); ++i) {
      const auto& onto = joint.tubes[i].onto;
      const bool other_side = onto[0] == 1 || onto[1] == 1;
      const bool other_top = onto[2] == 1 || onto[3] == 1;
      if (i != which && (on_side ? other_top : other_side)) return true;
    }
    return false;
  }

  static JointFlexibility flexibility_of(const JointStiffness& k, const StandingEnd& s) {
    JointFlexibility f;
    f.axial = 1 / k.axial;
    f.bending = {1 / k.out_of_plane, 1 / k.in_plane};
    f.turn = std::atan2(s.out_of_plane.z(), s.out_of_plane.y());
    return f;
  }

  Found in_corner(TubeEndAt end, const JointEnd& e, const CornerPartner& partner) const {
    const Profile& p = profile(end.member);
    TubeCorner c;
    c.depth = partner.about_y ? p.height : p.width;
    c.width = partner.about_y ? p.width : p.height;
    c.wall = p.wall;
    c.angle = partner.angle;
    c.crowded = e.crowded;
    const TableStiffness found = tube_corner(c, modulus(end.member));
    if (!found.stiffness) return {{}, "", found.why};
    JointFlexibility f;
    f.bending = {1 / found.stiffness->out_of_plane, 1 / found.stiffness->in_plane};
    f.turn = std::atan2(partner.in_plane.z(), partner.in_plane.y()) - 90 * degree;
    return {f, partner.turned ? turned : e.unlike ? unlike : "", ""};
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  std::vector<std::array<JointEnd, 2>> ends_;
};

}  // namespace

std::vector<std::array<WeldedJoint, 2>> joint_springs(const Frame& frame,
                                                      const NumberedFrame& numbered) {
  const Springs springs(frame, numbered);
  std::vector<std::array<WeldedJoint, 2>> joints(frame.members.size());
  for (size_t m = 0; m < joints.size(); ++m) {
    if (!numbered.slots[m].is_beam) continue;
    for (const int end : {0, 1}) {
      joints[m][static_cast<size_t>(end)] = springs.at({static_cast<int>(m), end});
    }
  }
  return joints;
}

namespace {

JointFlexibility scaled(JointFlexibility f, double factor) {
  f.axial *= factor;
  for (double& bending : f.bending) bending *= factor;
  return f;
}

}  // namespace

NumberedFrame jointed_model(const Frame& frame) {
  NumberedFrame numbered = build_model(frame);
  if (frame.joint_flexibility == rigid_joints) return numbered;
  const auto joints = joint_springs(frame, numbered);
  for (size_t m = 0; m < joints.size(); ++m) {
    if (!numbered.slots[m].is_beam) continue;
    Beam& beam = numbered.model.beams[static_cast<size_t>(numbered.slots[m].index)];
    beam.joint_from = scaled(joints[m][0].flexibility, frame.joint_flexibility);
    beam.joint_to = scaled(joints[m][1].flexibility, frame.joint_flexibility);
  }
  for (size_t i = 0; i < numbered.arms.size(); ++i) {
    Beam& plate = numbered.model.beams[static_cast<size_t>(numbered.arms[i].plate)];
    const JointFlexibility face =
        attachment_arm(frame, frame.attachments[i],
                       numbered.model.nodes[static_cast<size_t>(plate.from)],
                       numbered.model.nodes[static_cast<size_t>(plate.to)])
            .face;
    plate.joint_from = scaled(face, frame.joint_flexibility);
  }
  return numbered;
}

JointSummary joint_summary(const Frame& frame, const NumberedFrame& numbered) {
  JointSummary s;
  s.rigid = frame.joint_flexibility == rigid_joints;
  if (s.rigid) return s;
  const auto joints = joint_springs(frame, numbered);
  for (size_t m = 0; m < joints.size(); ++m) {
    const Member& member = frame.members[m];
    for (const int end : {0, 1}) {
      const WeldedJoint& j = joints[m][static_cast<size_t>(end)];
      const std::string& node = end == 0 ? member.from : member.to;
      if (!j.needed) continue;
      const std::string name = member.name + " at " + node;
      if (j.rigid_because.empty()) ++s.sprung;
      if (!j.rigid_because.empty()) s.taken_as_rigid[j.rigid_because].push_back(name);
      if (!j.nearest_because.empty()) s.taken_as_nearest[j.nearest_because].push_back(name);
    }
  }
  return s;
}

}  // namespace tubewright
