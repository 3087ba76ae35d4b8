#include "cases/joint_stiffness/joint_springs.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "cases/attachments/attachment_arm.h"
#include "cases/attachments/gusset_plate.h"
#include "cases/joint_stiffness/tube_on_tube.h"
#include "cases/joints/joint_recognition.h"
#include "cases/model/weldments.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr const char* turned = "turned about its own axis";
constexpr const char* no_tube = "the tables are of square and rectangular tubes";
constexpr const char* on_a_corner = "not square to one face";
constexpr const char* unlike = "a corner of unlike tubes";
constexpr const char* crowded = "a corner of more than two tubes";
constexpr const char* on_a_bend = "on a kink or bend of the other";
constexpr const char* not_square = "a corner that is not square";
constexpr const char* flat_corner = "a corner of tubes flatter than 1 : 2";

const char* table_words(OutsideTable why) {
  switch (why) {
    case OutsideTable::chord_slenderness:
      return "walls thinner than 1/30 or thicker than 1/10 of the face";
    case OutsideTable::width_ratio:
      return "narrower than 0.3 of the face, or wider than it";
    case OutsideTable::wall_ratio:
      return "walls that differ by more than half";
    case OutsideTable::chord_aspect:
    case OutsideTable::brace_aspect:
      return "a tube flatter than 1 : 2";
    case OutsideTable::brace_wall:
      return "a brace thicker than a fifth of its side";
    case OutsideTable::angle:
      return "an angle below 45 degrees";
    case OutsideTable::unequal_tubes:
      break;
  }
  return "unequal tubes";
}

struct Nearest {
  TubeOnTube joint;
  std::string because;  ///< empty: it was in the table
};

/// The same proportions as far as the tables go, on the chord's own wall.
Nearest nearest_in_table(TubeOnTube t) {
  Nearest n;
  const auto found = springs_of_tube_on_tube(t, 1);
  if (found) return {t, ""};
  n.because = table_words(*found.error());
  const auto aspect = [](double depth, double width) {
    return std::clamp(depth / width, least_aspect, most_aspect);
  };
  const double chord_aspect = aspect(t.chord_depth, t.chord_width);
  const double brace_aspect = aspect(t.brace_depth, t.brace_width);
  const double beta =
      std::clamp(t.brace_width / t.chord_width, least_width_ratio, most_width_ratio);
  t.chord_width =
      t.chord_wall * std::clamp(t.chord_width / t.chord_wall, least_slenderness, most_slenderness);
  t.chord_depth = chord_aspect * t.chord_width;
  t.brace_width = beta * t.chord_width;
  t.brace_depth = brace_aspect * t.brace_width;
  t.brace_wall = std::min(
      t.chord_wall * std::clamp(t.brace_wall / t.chord_wall, least_wall_ratio, most_wall_ratio),
      std::min(t.brace_width, t.brace_depth) / least_brace_sides);
  t.angle = std::max(t.angle, least_joint_angle);
  // A narrow brace of thick wall fits on no wall of the table: a wider one then.
  for (int tries = 0; !springs_of_tube_on_tube(t, 1) && tries < 20; ++tries) {
    t.brace_width = std::min(1.1 * t.brace_width, t.chord_width);
    t.brace_depth = brace_aspect * t.brace_width;
    t.brace_wall = std::min(std::max(t.brace_wall, least_wall_ratio * t.chord_wall),
                            std::min(t.brace_width, t.brace_depth) / least_brace_sides);
  }
  n.joint = t;
  return n;
}

bool is_box(const Profile& p) { return p.kind == ProfileKind::hollow_rectangle; }

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
    if (connection_at(member(end.member), static_cast<size_t>(end.end)) != welded) {
      joint.needed = false;
      return joint;
    }
    if (!is_box(profile(end.member))) {
      joint.rigid_because = no_tube;
      return joint;
    }
    // It may be welded to several: the softest counts.
    for (const JointEnd::OnChord& on : e.on) keep_softer(joint, on_chord(on));
    if (e.crowded) {
      joint.needed = !e.on_longest.empty();  // the tubes that stand on the longest give way
      for (const JointEnd::OnChord& on : e.on_longest) {
        Found found = on_chord(on);
        if (found.rigid_because.empty()) found.nearest_because = crowded;
        keep_softer(joint, std::move(found));
      }
      return joint;
    }
    for (const CornerPartner& partner : e.partners) keep_softer(joint, in_corner(end, e, partner));
    return joint;
  }

 private:
  struct Found {
    JointFlexibility flexibility;
    std::string nearest_because;
    std::string rigid_because;
  };
  struct InTable {
    Nearest nearest;
    std::optional<JointSprings> springs;
    double shearing_share = 0;
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
    bool closed = !joint.open || capped(joint.chord[0]);
    for (const TubeEndAt& at : joint.chord) {  // or it runs on by a stub, which may be capped
      if (joint.chord[1].member < 0 || at.member < 0) continue;
      const Profile& p = profile(at.member);
      const bool stub =
          member_length(n_, member(at.member)) < felt_end * std::max(p.height, p.width);
      closed = closed || (stub && capped({at.member, 1 - at.end}));
    }
    return closed ? ChordEnd::capped : ChordEnd::open;
  }

  Found on_chord(const JointEnd::OnChord& on) const {
    const ChordJoint& joint = *on.joint;
    const StandingEnd& s = joint.tubes[on.which];
    const int chord = joint.chord[0].member;
    const Profile &p = profile(chord), &own = profile(s.tube.member);
    if (!is_box(p) || !is_box(own)) return {{}, "", no_tube};
    const FaceStoodOn face = face_stood_on(s, p);
    TubeOnTube t;
    t.chord_width = face.width;
    t.chord_depth = face.depth;
    t.chord_wall = p.wall;
    t.brace_depth = side_in_plane(s, own);
    t.brace_width = side_across(s, own);
    t.brace_wall = own.wall;
    t.angle = s.angle;
    t.end = end_of(joint);
    const double E = modulus(chord);
    const InTable& table = in_table(t, E);
    if (!table.springs) return {{}, "", table.nearest.because};
    JointSprings k = *table.springs;
    double shearing = table.shearing_share;
    if (stands_beside(joint, on.which)) {
      k.out_of_plane = beside_another(table.nearest.joint, k, E);
      shearing = shearing_share(table.nearest.joint, k, E);
    }
    const double depth = t.chord_depth / std::sin(std::max(s.angle, least_joint_angle));
    const std::array<double, 2> distance = {depth / 2 * (1 + shearing), depth / 2};
    const std::string why = s.turned                         ? turned
                            : !is_on_a_face(s)               ? on_a_corner
                            : !table.nearest.because.empty() ? table.nearest.because
                            : joint.bent                     ? on_a_bend
                                                             : "";
    return {flexibility_of(k, s, distance), why, ""};
  }

  /// What the tables say; a frame has the same joint many times.
  const InTable& in_table(const TubeOnTube& t, double E) const {
    const std::array<double, 9> key = {t.chord_width,
                                       t.chord_depth,
                                       t.chord_wall,
                                       t.brace_depth,
                                       t.brace_width,
                                       t.brace_wall,
                                       t.angle,
                                       E,
                                       static_cast<double>(t.end)};
    const auto [place, is_new] = known_.try_emplace(key);
    InTable& found = place->second;
    if (!is_new) return found;
    found.nearest = nearest_in_table(t);
    if (const auto springs = springs_of_tube_on_tube(found.nearest.joint, E)) {
      found.springs = *springs;
      found.shearing_share = shearing_share(found.nearest.joint, *springs, E);
    }
    return found;
  }

  /// Share of what gives way out of plane that is the chord's section sheared out of square, not
  /// the face bent: all of it where the brace is as wide as the face.
  //
  // The face bends by the brace's moment at the face, h0/2 from the axis. The section is sheared by
  // half of a couple of forces along the face stood on and its opposite, and back by half of one
  // along the faces beside: those of the brace's force. Together by its moment at h0 from the axis.
  static double shearing_share(TubeOnTube t, const JointSprings& own, double E) {
    t.brace_width = t.chord_width;
    const auto widest = springs_of_tube_on_tube(nearest_in_table(t).joint, E);
    if (!widest) return 0;
    return std::clamp(own.out_of_plane / widest->out_of_plane, 0.0, 1.0);
  }

  /// Two braces hand each other their moments about the chord's axis: both as soft as that is.
  static double beside_another(TubeOnTube brace, const JointSprings& alone, double E) {
    brace.chord_depth = brace.chord_width;
    brace.angle = 90 * degree;
    const auto pair = springs_of_pair(nearest_in_table(brace).joint, E);
    return pair ? std::min(pair->against, alone.out_of_plane) : alone.out_of_plane;
  }

  /// Another tube stands on the face next to this one's, at the same place.
  bool stands_beside(const ChordJoint& joint, size_t which) const {
    const bool on_side = is_on_side_face(joint.tubes[which]);
    for (size_t i = 0; i < joint.tubes.size(); ++i) {
      const auto& onto = joint.tubes[i].onto;
      const bool other_side = onto[0] == 1 || onto[1] == 1;
      const bool other_top = onto[2] == 1 || onto[3] == 1;
      if (i != which && (on_side ? other_top : other_side)) return true;
    }
    return false;
  }

  static JointFlexibility flexibility_of(const JointSprings& k, const StandingEnd& s,
                                         const std::array<double, 2>& distance) {
    JointFlexibility f;
    f.axial = 1 / k.axial;
    f.bending = {1 / k.out_of_plane, 1 / k.in_plane};
    f.turn = std::atan2(s.out_of_plane.z(), s.out_of_plane.y());
    f.distance = distance;
    return f;
  }

  bool capped(TubeEndAt at) const { return member(at.member).capped[static_cast<size_t>(at.end)]; }

  /// As the cut list has it: the turn of a path is mitred, of other tubes one stands on the end of
  /// the other.
  CornerKind kind_of(TubeEndAt end, TubeEndAt other) const {
    const Member &own = member(end.member), &theirs = member(other.member);
    if (!own.tube.empty() && own.tube == theirs.tube) return CornerKind::mitred;
    return capped(end) || capped(other) ? CornerKind::butted_capped : CornerKind::butted_open;
  }

  /// Half of what the corner gives way by; the partner has the other half.
  Found in_corner(TubeEndAt end, const JointEnd& e, const CornerPartner& partner) const {
    const Profile& p = profile(end.member);
    CornerOfTubes c;
    c.depth = partner.about_y ? p.height : p.width;
    c.width = partner.about_y ? p.width : p.height;
    c.wall = std::clamp(p.wall, c.width / most_slenderness, c.width / least_slenderness);
    c.kind = kind_of(end, partner.other);
    const auto k = springs_of_corner(c, modulus(end.member));
    if (!k) return {{}, "", flat_corner};
    const double half = 0.5 * bend_share(partner.angle) * std::pow(c.wall / p.wall, 3);
    JointFlexibility f;
    f.bending = {half / k->out_of_plane, half / k->in_plane};
    f.turn = std::atan2(partner.in_plane.z(), partner.in_plane.y()) - 90 * degree;
    const bool square = std::abs(partner.angle - 90 * degree) < 2 * degree;
    return {f,
            partner.turned               ? turned
            : e.unlike                   ? unlike
            : square && c.wall == p.wall ? ""
            : square                     ? table_words(OutsideTable::chord_slenderness)
                                         : not_square,
            ""};
  }

  /// Of what a corner at 90 degrees gives way by: the forces in the walls of a tube that turns by
  /// delta push inward with 2 sin(delta/2) of their size, and what gives way goes as the square.
  static double bend_share(double angle) { return 2 * std::pow(std::cos(angle / 2), 2); }

  const Frame& frame_;
  const NumberedFrame& n_;
  std::vector<std::array<JointEnd, 2>> ends_;
  mutable std::map<std::array<double, 9>, InTable> known_;
};

}  // namespace

WeldedJoints joint_springs(const Frame& frame, const NumberedFrame& numbered) {
  const Springs springs(frame, numbered);
  WeldedJoints joints(frame.members.size());
  for (size_t m = 0; m < joints.size(); ++m) {
    if (!numbered.slots[m].is_beam) continue;
    constexpr double most = 0.25;  // of a tube's length: a stub's moment does not change sign
    const double length = member_length(numbered, frame.members[m]);
    for (const int end : {0, 1}) {
      WeldedJoint& joint = joints[m][static_cast<size_t>(end)];
      joint = springs.at({static_cast<int>(m), end});
      for (double& d : joint.flexibility.distance) d = std::min(d, most * length);
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

void put_joints(const Frame& frame, const WeldedJoints& joints, NumberedFrame& numbered) {
  if (frame.joint_flexibility == rigid_joints) return;
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
  for (size_t i = 0; i < numbered.gussets.size(); ++i) {
    if (numbered.gussets[i] < 0) continue;
    const GussetPlate plate = gusset_plate(frame, frame.gussets[i]);
    numbered.model.bars[static_cast<size_t>(numbered.gussets[i])].stiffness =
        1 / (1 / plate.stiffness + frame.joint_flexibility * plate.face_give);
  }
}

JointedFrame jointed_frame(const Frame& frame) {
  JointedFrame made{build_model(frame), {}};
  made.joints = joint_springs(frame, made.numbered);
  put_joints(frame, made.joints, made.numbered);
  return made;
}

NumberedFrame jointed_model(const Frame& frame) {
  if (frame.joint_flexibility == rigid_joints) return build_model(frame);
  return jointed_frame(frame).numbered;
}

JointSummary joint_summary(const Frame& frame, const WeldedJoints& joints) {
  JointSummary s;
  s.rigid = frame.joint_flexibility == rigid_joints;
  if (s.rigid) return s;
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
