#include "cases/verdict/hot_spot.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

namespace {

constexpr double least_factor = 2;  // the guide's minimum
constexpr double least_axial = 6.9;
constexpr double fillet = 1.4;  // of the lines in the brace, not cut by a butt weld
constexpr double sideways_more = 1.15;

}  // namespace

HotSpotFactors hot_spot_factors(double beta, double two_gamma, double tau) {
  const double b = std::clamp(beta, 0.35, 1.0), b2 = b * b;
  const double g = std::max(two_gamma, 12.5), t = std::pow(std::max(tau, 0.25), 0.75);
  const auto power = [&](double a0, double a1, double a2) {
    return std::pow(g, a0 + a1 * b + a2 * b2);
  };
  HotSpotFactors f;
  f.axial =
      std::max({least_axial, (0.143 - 0.204 * b + 0.064 * b2) * power(1.377, 1.715, -1.103) * t,
                (0.077 - 0.129 * b + 0.061 * b2 - 0.0003 * g) * power(1.565, 1.874, -1.028) * t,
                (0.208 - 0.387 * b + 0.209 * b2) * power(0.925, 2.398, -1.881) * t,
                fillet * (0.013 + 0.693 * b - 0.278 * b2) * power(0.790, 1.898, -2.109)});
  f.in_plane =
      std::max({least_factor, (-0.011 + 0.085 * b - 0.073 * b2) * power(1.722, 1.151, -0.697) * t,
                (0.952 - 3.062 * b + 2.382 * b2 + 0.0228 * g) * power(-0.690, 5.817, -4.685) * t,
                (-0.054 + 0.332 * b - 0.258 * b2) * power(2.084, -1.062, 0.527) * t,
                fillet * (0.390 - 1.054 * b + 1.115 * b2) * power(-0.154, 4.555, -3.809)});
  f.out_of_plane = sideways_more * f.in_plane;
  return f;
}

namespace {

/// A T or Y joint, or two tubes in line on opposite faces: an X joint.
bool stands_alone(const ChordJoint& joint) {
  if (!std::all_of(joint.tubes.begin(), joint.tubes.end(), is_on_a_face)) return false;
  if (joint.tubes.size() == 1) return true;
  if (joint.tubes.size() != 2) return false;
  const StandingEnd &a = joint.tubes[0], &b = joint.tubes[1];
  constexpr double in_line = 0.035;  // sine of 2 degrees
  const bool opposite = a.onto[0] * b.onto[1] + a.onto[1] * b.onto[0] + a.onto[2] * b.onto[3] +
                            a.onto[3] * b.onto[2] ==
                        1;
  return opposite && std::abs(a.along + b.along) < in_line;
}

}  // namespace

BraceHotSpot brace_hot_spot(const std::vector<MemberFacts>& facts, const JointEnd& end,
                            size_t member) {
  BraceHotSpot h;
  if (!end.needed || end.on.size() != 1 || !end.partners.empty()) return h;
  const ChordJoint& joint = *end.on.front().joint;
  const StandingEnd& own = joint.tubes[end.on.front().which];
  if (joint.ends || joint.bent || own.turned || !stands_alone(joint)) return h;
  const auto on = static_cast<size_t>(joint.chord[0].member);
  const Profile &brace = facts[member].section.profile, &chord = facts[on].section.profile;
  for (const Profile& p : {brace, chord}) {
    if (p.kind != ProfileKind::hollow_rectangle) return h;
  }
  h.in_plane_about_y = own.about_y;
  const double face = face_stood_on(own, chord).width, across = side_across(own, brace);
  h.factors = hot_spot_factors(across / face, face / chord.wall, brace.wall / chord.wall);
  h.known = true;
  return h;
}

}  // namespace tubewright
