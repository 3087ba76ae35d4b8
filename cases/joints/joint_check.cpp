#include "cases/joints/joint_check.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>

#include "solver/model/angle.h"

namespace tubewright {

namespace {

/// Directions within this count as one (judgement: what a builder measures).
constexpr double same_direction = 2 * degree;

bool parallel(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
  return a.cross(b).norm() < std::sin(same_direction);
}

/// A beam that reaches a node.
struct Arm {
  int member = 0;
  int end = 0;           ///< 0: `from` is at the node
  Eigen::Vector3d away;  ///< unit vector from the node
  Eigen::Matrix3d axes;  ///< rows: local x, y, z
};

std::vector<std::vector<Arm>> arms_at_nodes(const NumberedFrame& n) {
  std::vector<std::vector<Arm>> arms(n.model.nodes.size());
  for (size_t m = 0; m < n.slots.size(); ++m) {
    if (!n.slots[m].is_beam) continue;
    const Beam& b = n.model.beams[static_cast<size_t>(n.slots[m].index)];
    const auto& at = n.model.nodes;
    const Eigen::Vector3d along =
        (at[static_cast<size_t>(b.to)] - at[static_cast<size_t>(b.from)]).normalized();
    const Eigen::Matrix3d axes =
        member_axes(at[static_cast<size_t>(b.from)], at[static_cast<size_t>(b.to)], b.roll);
    arms[static_cast<size_t>(b.from)].push_back({static_cast<int>(m), 0, along, axes});
    arms[static_cast<size_t>(b.to)].push_back({static_cast<int>(m), 1, -along, axes});
  }
  return arms;
}

class Recogniser {
 public:
  Recogniser(const Frame& frame, const NumberedFrame& n, const std::vector<MemberFacts>& facts)
      : frame_(frame), n_(n), facts_(facts), ends_(frame.members.size()) {}

  std::vector<std::array<BraceEnd, 2>> all() {
    for (const std::vector<Arm>& arms : arms_at_nodes(n_)) recognise(arms);
    return std::move(ends_);
  }

 private:
  BraceEnd& end_of(const Arm& arm) {
    return ends_[static_cast<size_t>(arm.member)][static_cast<size_t>(arm.end)];
  }
  const MemberFacts& facts_of(const Arm& arm) const {
    return facts_[static_cast<size_t>(arm.member)];
  }
  bool welded(const Arm& arm) const { return facts_of(arm).welded[static_cast<size_t>(arm.end)]; }

  using Pairs = std::vector<std::array<const Arm*, 2>>;

  /// Pairs of pieces in one line: those of one tube, or, where there are none, of one section.
  Pairs running_through(const std::vector<Arm>& arms) const {
    Pairs of_tube, of_section;
    for (size_t i = 0; i < arms.size(); ++i) {
      for (size_t j = i + 1; j < arms.size(); ++j) {
        const Arm &a = arms[i], &b = arms[j];
        if (!parallel(a.away, b.away) || a.away.dot(b.away) > 0) continue;
        const Member& first = frame_.members[static_cast<size_t>(a.member)];
        const Member& second = frame_.members[static_cast<size_t>(b.member)];
        if (!first.tube.empty() && first.tube == second.tube) of_tube.push_back({&a, &b});
        if (first.section == second.section) of_section.push_back({&a, &b});
      }
    }
    return of_tube.empty() ? of_section : of_tube;
  }

  void recognise(const std::vector<Arm>& arms) {
    const Pairs through = running_through(arms);
    const auto is_chord = [&](const Arm& arm) {
      return through.size() == 1 && (through[0][0] == &arm || through[0][1] == &arm);
    };
    std::vector<const Arm*> braces;
    for (const Arm& arm : arms) {
      if (welded(arm) && !is_chord(arm)) braces.push_back(&arm);
    }
    for (const Arm* brace : braces) {
      end_of(*brace).welded = true;
      if (arms.size() == 1) end_of(*brace).welded = false;  // a free end, or one on a support
      if (through.empty())
        end_of(*brace).reason = "no tube runs through there: no rule for a corner";
      if (through.size() > 1) end_of(*brace).reason = "more than one tube runs through there";
    }
    if (through.size() != 1 || braces.empty()) return;
    describe(*through[0][0], *through[0][1], braces);
  }

  /// The face of the chord a brace stands on: 0 +y, 1 -y, 2 +z, 3 -z; -1 none.
  static int face_of(const Arm& chord, const Arm& brace) {
    const Eigen::Vector3d across =
        (brace.away - brace.away.dot(chord.away) * chord.away).normalized();
    for (int axis = 1; axis <= 2; ++axis) {
      const Eigen::Vector3d normal = chord.axes.row(axis);
      if (parallel(across, normal)) return 2 * (axis - 1) + (across.dot(normal) > 0 ? 0 : 1);
    }
    return -1;
  }

  void describe(const Arm& chord, const Arm& beyond, const std::vector<const Arm*>& braces) {
    std::array<std::vector<const Arm*>, 4> on_face;
    for (const Arm* brace : braces) {
      BraceEnd& e = end_of(*brace);
      e.chord = {chord.member, beyond.member};
      e.angle = std::acos(std::clamp(std::abs(brace->away.dot(chord.away)), 0.0, 1.0));
      const Eigen::Vector3d normal = chord.away.cross(brace->away).normalized();
      const double y = std::abs(normal.dot(brace->axes.row(1)));
      const double z = std::abs(normal.dot(brace->axes.row(2)));
      e.in_plane_about_y = y >= z;
      const int face = face_of(chord, *brace);
      const bool square_on = std::max(y, z) > std::cos(same_direction);
      const bool round = facts_of(*brace).section.profile.kind == ProfileKind::round;
      if (face < 0) {
        e.reason = "it stands on an edge of the other tube, not on a face";
      } else if (!square_on && !round) {
        e.reason = "it is turned against the face it stands on";
      } else {
        on_face[static_cast<size_t>(face)].push_back(brace);
      }
    }
    const bool skew = std::any_of(braces.begin(), braces.end(),
                                  [&](const Arm* b) { return !end_of(*b).reason.empty(); });
    const bool two_planes = (!on_face[0].empty() || !on_face[1].empty()) &&
                            (!on_face[2].empty() || !on_face[3].empty());
    for (size_t face = 0; face < 4; ++face) {
      for (const Arm* brace : on_face[face]) {
        if (skew) end_of(*brace).reason = "another tube stands askew at the same joint";
        if (two_planes) end_of(*brace).reason = "tubes in more than one plane meet there";
      }
      if (!skew && !two_planes) name_shape(on_face[face], on_face[face ^ 1U]);
    }
  }

  void name_shape(const std::vector<const Arm*>& here, const std::vector<const Arm*>& opposite) {
    if (here.empty()) return;
    if (here.size() == 1 && opposite.empty()) {
      BraceEnd& e = end_of(*here[0]);
      e.shape = e.angle > 90 * degree - same_direction ? JointShape::T : JointShape::Y;
    } else if (here.size() == 1 && opposite.size() == 1 &&
               parallel(here[0]->away, opposite[0]->away)) {
      end_of(*here[0]).shape = JointShape::X;
    } else if (here.size() == 2 && opposite.empty()) {
      name_gap(*here[0], *here[1]);
    } else {
      for (const Arm* brace : here) {
        end_of(*brace).reason = "more tubes meet there than the rules have joints for";
      }
    }
  }

  void name_gap(const Arm& a, const Arm& b) {
    BraceEnd& first = end_of(a);
    BraceEnd& second = end_of(b);
    const Eigen::Vector3d along = chord_axis(first);
    if (along.dot(a.away) * along.dot(b.away) > 0) {
      first.reason = second.reason = "both tubes lean the same way there";
      return;
    }
    const double h0 = facts_[static_cast<size_t>(first.chord[0])].section.profile.height;
    const double gap = joint_gap(h0, facts_of(a).section.profile.width,
                                 facts_of(b).section.profile.width, first.angle, second.angle, 0);
    for (const auto& [brace, other] : {std::pair{&a, &b}, {&b, &a}}) {
      BraceEnd& e = end_of(*brace);
      e.shape = JointShape::gap;
      e.partner = other->member;
      e.gap = gap;
    }
  }

  Eigen::Vector3d chord_axis(const BraceEnd& e) const {
    const Beam& b =
        n_.model.beams[static_cast<size_t>(n_.slots[static_cast<size_t>(e.chord[0])].index)];
    return (n_.model.nodes[static_cast<size_t>(b.to)] - n_.model.nodes[static_cast<size_t>(b.from)])
        .normalized();
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  const std::vector<MemberFacts>& facts_;
  std::vector<std::array<BraceEnd, 2>> ends_;
};

/// Evaluates one joint with the forces of a case.
struct JointForces {
  const NumberedFrame& n;
  const std::vector<MemberFacts>& facts;
  const BeamEnds& forces;
  double factor;

  const Beam& beam(int member) const {
    return n.model.beams[static_cast<size_t>(n.slots[static_cast<size_t>(member)].index)];
  }
  double length(int member) const {
    const Beam& b = beam(member);
    return (n.model.nodes[static_cast<size_t>(b.to)] - n.model.nodes[static_cast<size_t>(b.from)])
        .norm();
  }
  int node(int member, int end) const { return end == 0 ? beam(member).from : beam(member).to; }
  SectionForces at(int member, int end) const {
    const auto& of_beam = forces[static_cast<size_t>(n.slots[static_cast<size_t>(member)].index)];
    return scaled(of_beam[static_cast<size_t>(end)], factor);
  }

  JointBrace brace(int member, int end, const BraceEnd& e) const {
    const MemberFacts& f = facts[static_cast<size_t>(member)];
    const SectionForces here = at(member, end);
    return {f.section.profile,
            f.material.yield,
            e.angle,
            here.N,
            e.in_plane_about_y ? here.My : here.Mz,
            e.in_plane_about_y ? here.Mz : here.My};
  }

  /// The greatest compression in the chord on either side of `node`.
  JointChord chord(const BraceEnd& e, int node_number) const {
    const MemberFacts& f = facts[static_cast<size_t>(e.chord[0])];
    double compression = 0;
    for (const int piece : e.chord) {
      const SectionForces c = at(piece, node(piece, 0) == node_number ? 0 : 1);
      const Section& s = facts[static_cast<size_t>(piece)].section;
      compression =
          std::max(compression, -c.N / s.A + std::abs(c.My) / s.Wy + std::abs(c.Mz) / s.Wz);
    }
    return {f.section.profile, f.material.yield, compression};
  }

  CheckResult check(int member, int end, const BraceEnd& e,
                    const std::vector<std::array<BraceEnd, 2>>& ends) const {
    if (e.shape == JointShape::none) {  // and no chord
      CheckResult r;
      r.reason = e.reason;
      return r;
    }
    const int here = node(member, end);
    const JointChord on = chord(e, here);
    const JointBrace own = brace(member, end, e);
    if (e.shape == JointShape::gap) {
      const int other_end = node(e.partner, 0) == here ? 0 : 1;
      const BraceEnd& other = ends[static_cast<size_t>(e.partner)][static_cast<size_t>(other_end)];
      return gap(member, on, own, brace(e.partner, other_end, other), e);
    }
    const JointKind kind = e.shape == JointShape::T   ? JointKind::T
                           : e.shape == JointShape::Y ? JointKind::Y
                                                      : JointKind::X;
    return tube_joint(kind, on, own).result;
  }

  /// 5.1.5(3): moments may be left out of braces six times as long as deep.
  CheckResult gap(int member, const JointChord& on, JointBrace own, JointBrace theirs,
                  const BraceEnd& e) const {
    const auto slender = [&](int m) {
      constexpr double least = 6;
      return length(m) >= least * facts[static_cast<size_t>(m)].section.profile.height;
    };
    CheckResult r;
    if (own.N * theirs.N > 0) {
      r.reason = "both tubes pull, or both push, there: no rule for that";
      return r;
    }
    if (slender(member) && slender(e.partner)) {
      own.M_ip = own.M_op = theirs.M_ip = theirs.M_op = 0;
    }
    return gap_joint(on, own, theirs, e.gap).result;
  }
};

}  // namespace

std::vector<std::array<BraceEnd, 2>> brace_ends(const Frame& frame, const NumberedFrame& numbered,
                                                const std::vector<MemberFacts>& facts) {
  return Recogniser(frame, numbered, facts).all();
}

BeamEnds beam_ends(const std::vector<BeamState>& beams) {
  BeamEnds ends;
  for (const BeamState& beam : beams) {
    ends.push_back({section_forces(beam, 0), section_forces(beam, 1, true)});
  }
  return ends;
}

std::array<CheckResult, 2> joint_checks(const NumberedFrame& numbered,
                                        const std::vector<MemberFacts>& facts,
                                        const std::vector<std::array<BraceEnd, 2>>& ends,
                                        size_t member, const BeamEnds& forces, double factor) {
  const JointForces joint{numbered, facts, forces, factor};
  std::array<CheckResult, 2> results;
  for (const int end : {0, 1}) {
    const BraceEnd& e = ends[member][static_cast<size_t>(end)];
    CheckResult& here = results[static_cast<size_t>(end)];
    if (!e.welded) {
      here.reason = "it stands on no other tube";
      here.needed = false;
    } else if (facts[member].metal == Metal::steel) {
      here = joint.check(static_cast<int>(member), end, e, ends);
    } else {
      here.reason = "EN 1993-1-8 chapter 7 is for structural steel";
    }
  }
  return results;
}

}  // namespace tubewright
