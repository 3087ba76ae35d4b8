#include "cases/joints/joint_forces.h"

#include <algorithm>
#include <cmath>

#include "cases/checks/aluminium_member.h"
#include "cases/checks/governing_cuts.h"

namespace tubewright {

namespace {

const MemberFacts& facts_at(const JointLoads& loads, const TubeEndAt& tube) {
  return loads.facts[static_cast<size_t>(tube.member)];
}

BraceShape brace_shape(const Profile& p) {
  switch (p.kind) {
    case ProfileKind::round:
      return p.wall > 0 ? BraceShape::round : BraceShape::bar;
    case ProfileKind::solid_rectangle:
      return BraceShape::plate;
    case ProfileKind::hollow_rectangle:
    case ProfileKind::unknown:
      break;
  }
  return BraceShape::rectangle;
}

/// A load on the tube between its joints changes its shear by more than this share (judgement: its
/// own weight does not count).
bool loaded_between(const JointLoads& loads, int member) {
  constexpr double hardly_loaded_tube = 0.1;
  const SectionForces from = loads.at({member, 0}), to = loads.at({member, 1});
  const double change = std::hypot(from.Vy - to.Vy, from.Vz - to.Vz);
  const double most = std::max(std::hypot(from.Vy, from.Vz), std::hypot(to.Vy, to.Vz));
  return change > hardly_loaded_tube * most;
}

}  // namespace

BeamEnds beam_ends(const std::vector<BeamState>& beams) {
  BeamEnds ends;
  for (const BeamState& beam : beams) {
    ends.push_back({section_forces(beam, 0), section_forces(beam, 1, true)});
  }
  return ends;
}

SectionForces JointLoads::at(const TubeEndAt& tube) const {
  const int index = numbered.slots[static_cast<size_t>(tube.member)].index;
  return scaled(forces[static_cast<size_t>(index)][static_cast<size_t>(tube.end)], factor);
}

double joint_strength(const MemberFacts& f) {
  if (f.metal != Metal::aluminium) return f.material.yield;
  return f.heat_affected.yield / aluminium_gamma_M1;
}

StandingTube standing_tube(const JointLoads& loads, const StandingEnd& e) {
  const MemberFacts& f = facts_at(loads, e.tube);
  const Section& s = f.section;
  const SectionForces here = loads.at(e.tube);
  const Eigen::Vector3d bending(0, here.My, here.Mz);
  StandingTube t;
  t.onto = e.onto;
  t.along = e.along;
  t.turned = e.turned;
  t.secondary = e.in_triangle && !loaded_between(loads, e.tube.member);
  t.brace.shape = brace_shape(s.profile);
  t.brace.h1 = side_in_plane(e, s.profile);
  t.brace.b1 = side_across(e, s.profile);
  t.brace.t1 = s.profile.wall;
  t.brace.fy = joint_strength(f);
  t.brace.angle = e.angle;
  t.brace.Wpl_ip = e.about_y ? s.Wply : s.Wplz;
  t.brace.Wpl_op = e.about_y ? s.Wplz : s.Wply;
  // Section forces act on the cut that faces local +x: turned about at the other end.
  const double sense = e.tube.end == 0 ? 1 : -1;
  t.brace.N = here.N;
  t.brace.M_ip = sense * bending.dot(e.in_plane);
  t.brace.M_op = sense * bending.dot(e.out_of_plane);
  t.chord_moment = sense * Eigen::Vector3d(here.T, here.My, here.Mz).dot(e.chord_axis);
  return t;
}

ChordTube chord_tube(const JointLoads& loads, const ChordJoint& joint) {
  ChordTube c;
  c.wall = facts_at(loads, joint.chord[0]).section.profile.wall;
  c.fy = joint_strength(facts_at(loads, joint.chord[0]));
  c.E = facts_at(loads, joint.chord[0]).material.E;
  c.curve = facts_at(loads, joint.chord[0]).curve;
  for (const TubeEndAt& piece : joint.chord) {
    if (piece.member < 0) continue;
    const MemberFacts& f = facts_at(loads, piece);
    const Section& s = f.section;
    const SectionForces here = loads.at(piece);
    // Two pieces of one outside may differ in wall and strength: the weaker counts.
    c.wall = std::min(c.wall, s.profile.wall);
    c.fy = std::min(c.fy, joint_strength(f));
    const double stress = -here.N / s.A + std::abs(here.My) / s.Wy + std::abs(here.Mz) / s.Wz;
    c.stress = std::isnan(stress) ? stress : std::max(c.stress, stress);
    c.axial_share = std::max(c.axial_share, std::abs(here.N) / (s.A * joint_strength(f)));
  }
  const Profile& p = facts_at(loads, joint.chord[0]).section.profile;
  if (p.kind != ProfileKind::unknown) {
    c.height = p.height;
    c.width = p.width;
  }
  c.ends = joint.ends;
  c.open = joint.open;
  c.bent = joint.bent;
  return c;
}

}  // namespace tubewright
