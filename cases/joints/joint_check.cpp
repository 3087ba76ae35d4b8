#include "cases/joints/joint_check.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "cases/joints/round_chord.h"

namespace tubewright {

namespace {

void add_reason(CheckResult& r, const std::string& what) {
  r.comparison = true;
  if (r.reason.find(what) != std::string::npos) return;
  r.reason += (r.reason.empty() ? "" : "; ") + what;
}

/// What a corner is that the rule was not written for; how it is bent goes without saying then.
void put_first(CheckResult& r, const std::string& what) {
  constexpr const char* bent = "a corner bent out of its plane";
  if (r.reason.rfind(bent, 0) == 0) {
    r.reason = r.reason.substr(std::min(r.reason.size(), std::string(bent).size() + 2));
  }
  r.reason = r.reason.empty() ? what : what + "; " + r.reason;
  r.comparison = true;
}

/// A metal that the rules were not written for; empty for structural steel.
std::string other_metal(Metal metal) {
  switch (metal) {
    case Metal::stainless:
      return "stainless steel by the rules of structural steel";
    case Metal::aluminium:
      return "aluminium by the rules of steel, with its heated strength";
    case Metal::steel:
    case Metal::other:
      break;
  }
  return "";
}

std::string no_metal(const MemberFacts& f) {
  if (f.metal == Metal::other) return "no rules for this metal: neither steel nor aluminium";
  if (f.metal == Metal::aluminium && !(f.heat_affected.yield > 0)) {
    return "the strength beside welds is not known: give `heat_affected_yield`";
  }
  return "";
}

CheckResult no_number(const std::string& why) {
  CheckResult r;
  r.reason = why;
  return r;
}

/// Keeps the worse; one without a number stays. A comparison anywhere makes all one.
void keep_worse(CheckResult& worst, CheckResult next) {
  if (!next.needed && !worst.needed && worst.reason.empty()) worst.reason = next.reason;
  if (lacks_number(worst) || !next.needed) return;
  if (worst.needed && next.utilisation && *next.utilisation <= *worst.utilisation) {
    if (next.comparison && !worst.comparison) add_reason(worst, next.reason);
    return;
  }
  if (worst.comparison && next.utilisation && !next.comparison) add_reason(next, worst.reason);
  worst = std::move(next);
}

class EndCheck {
 public:
  EndCheck(const JointLoads& loads, const JointEnd& end, const TubeEndAt& at)
      : loads_(loads), end_(end), at_(at), facts_(loads.facts[static_cast<size_t>(at.member)]) {}

  CheckResult check() const {
    if (std::string why = no_metal(facts_); !why.empty()) return no_number(why);
    if (!end_.reason.empty()) return no_number(end_.reason);
    CheckResult worst;
    worst.needed = false;
    for (const CornerPartner& partner : end_.partners) keep_worse(worst, in_corner(partner));
    for (const JointEnd::OnChord& on : end_.on) keep_worse(worst, on_chord(on));
    return worst;
  }

 private:
  CheckResult in_corner(const CornerPartner& partner) const {
    const SectionForces forces = loads_.at(at_);
    CornerTube tube{facts_.section, joint_strength(facts_), partner.angle, partner.about_y};
    CheckResult r = corner_check(tube, forces);
    if (partner.turned && r.utilisation) {  // the worse of its two planes
      tube.bends_about_y = !partner.about_y;
      CheckResult other = corner_check(tube, forces);
      if (other.utilisation && *other.utilisation > *r.utilisation) r = std::move(other);
    }
    if (!r.utilisation) return r;
    if (end_.crowded) {
      put_first(r, "a corner of more than two tubes");
    } else if (end_.unlike) {
      put_first(r, "a corner of unlike tubes");
    } else if (partner.turned) {
      put_first(r, "a tube turned in its corner");
    }
    if (std::string metal = other_metal(facts_.metal); !metal.empty()) add_reason(r, metal);
    return r;
  }

  CheckResult on_chord(const JointEnd::OnChord& on) const {
    const MemberFacts& chord = loads_.facts[static_cast<size_t>(on.joint->chord[0].member)];
    if (std::string why = no_metal(chord); !why.empty()) return no_number(why);
    if (facts_.section.profile.kind == ProfileKind::unknown) {
      return no_number("the tube's shape is not known");
    }
    ChordTube tube = chord_tube(loads_, *on.joint);
    tube.other_metal = other_metal(chord.metal);
    std::vector<StandingTube> standing;
    for (const StandingEnd& end : on.joint->tubes) standing.push_back(standing_tube(loads_, end));
    return chord.section.profile.kind == ProfileKind::round
               ? round_chord_check(tube, standing, on.which)
               : face_joint_check(tube, standing, on.which);
  }

  const JointLoads& loads_;
  const JointEnd& end_;
  TubeEndAt at_;
  const MemberFacts& facts_;
};

}  // namespace

std::array<CheckResult, 2> joint_checks(const NumberedFrame& numbered,
                                        const std::vector<MemberFacts>& facts,
                                        const std::vector<std::array<JointEnd, 2>>& ends,
                                        size_t member, const BeamEnds& forces, double factor) {
  const JointLoads loads{numbered, facts, forces, factor};
  std::array<CheckResult, 2> results;
  for (const int end : {0, 1}) {
    const JointEnd& e = ends[member][static_cast<size_t>(end)];
    CheckResult& here = results[static_cast<size_t>(end)];
    if (e.needed) {
      here = EndCheck(loads, e, {static_cast<int>(member), end}).check();
    } else {
      here.reason = e.reason;
      here.needed = false;
    }
  }
  return results;
}

}  // namespace tubewright
