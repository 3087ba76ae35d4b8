#include "cases/checks/member_checks.h"

#include <algorithm>
#include <cmath>

#include "cases/checks/aluminium_member.h"
#include "cases/checks/section_resistance.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"
#include "solver/model/section_shapes.h"

namespace tubewright {

namespace {

constexpr const char* no_rules = "no rules for this metal: neither steel nor aluminium";
constexpr const char* no_section = "a spring has no section";

CheckResult not_made(std::string reason) {
  CheckResult r;
  r.reason = std::move(reason);
  return r;
}

CheckResult not_needed(std::string reason) {
  CheckResult r = not_made(std::move(reason));
  r.needed = false;
  return r;
}

double outer_radius(const SectionEntry& s) {
  const bool rectangle = s.shape == Shape::square_tube || s.shape == Shape::rectangular_tube;
  if (!rectangle || s.corners == Corners::sharp) return 0;
  return s.corners == Corners::cold_formed ? cold_formed_corners(s.wall).outer
                                           : hot_finished_corners(s.wall).outer;
}

/// A tube is welded where it ends, unless nothing there is joined stiffly.
bool welded_end(const Member& m, const EndConnection& connection, bool inside_tube) {
  if (m.kind != MemberKind::beam || inside_tube) return false;
  return std::any_of(connection.begin(), connection.end(), [](double k) { return k > 0; });
}

bool has_welds(const MemberFacts& f) { return f.welded[0] || f.welded[1]; }

/// Why an aluminium member cannot be checked, empty if it can.
std::string unknown_strength(const MemberFacts& f) {
  if (std::isnan(f.material.yield)) return "the material has no yield strength";
  if (has_welds(f) && (std::isnan(f.heat_affected.yield) || std::isnan(f.heat_affected.ultimate))) {
    return "the strength beside welds is not known: give `heat_affected_yield` and "
           "`heat_affected_ultimate`";
  }
  return "";
}

/// The greatest share of the resistance over all cuts.
void check_section(MemberChecks& r, const MemberFacts& f, const std::vector<SectionForces>& cuts) {
  r.section.utilisation = 0;
  for (const SectionForces& forces : cuts) {
    const SectionCheck check =
        section_check(f.section, f.material.yield, forces, *r.section.utilisation);
    r.section_class = std::max(r.section_class, check.section_class.value);
    r.section = check.load_share;
    if (!r.section.utilisation) return;
  }
}

/// A load between the ends that bends the member by less than a twentieth of its end moments is
/// taken as none (judgement: the weight of the tube itself).
constexpr double hardly_loaded = 0.05;

MemberMoments moments_along(const std::vector<SectionCut>& cuts, double SectionForces::*M,
                            double factor) {
  MemberMoments m;
  m.start = factor * cuts.front().forces.*M;
  m.end = factor * cuts.back().forces.*M;
  double off_line = 0;
  for (const SectionCut& cut : cuts) {
    const double here = factor * cut.forces.*M;
    m.greatest = std::max(m.greatest, std::abs(here));
    off_line = std::max(off_line, std::abs(here - (m.start + cut.s * (m.end - m.start))));
  }
  const double ends = std::max(std::abs(m.start), std::abs(m.end));
  m.loaded_between = off_line > hardly_loaded * ends;
  if (!m.loaded_between) m.greatest = ends;
  return m;
}

CheckResult check_buckling(const MemberFacts& f, const CompressedMember& member,
                           const BucklingLengths& lengths) {
  if (member.N >= 0) return not_needed("never compressed");
  return member_buckling(f.section, f.material.yield, f.material.E, f.curve, lengths, member)
      .result;
}

void check_steel_beam(MemberChecks& r, const MemberFacts& f, const std::vector<SectionCut>& cuts,
                      const CaseLengths& lengths, double factor) {
  std::vector<SectionForces> design;
  CompressedMember member;
  for (const SectionCut& cut : cuts) {
    design.push_back(scaled(cut.forces, factor));
    member.N = std::min(member.N, design.back().N);
  }
  check_section(r, f, design);
  member.y = moments_along(cuts, &SectionForces::My, factor);
  member.z = moments_along(cuts, &SectionForces::Mz, factor);
  member.y.sway = lengths.sway[0];
  member.z.sway = lengths.sway[1];
  r.buckling = check_buckling(f, member, lengths.lengths);
}

/// The check of both ends.
template <class Check>
void check_ends(MemberChecks& r, const MemberFacts& f, const std::vector<SectionCut>& cuts,
                double factor, const Check& check) {
  r.weld_at.fill(not_needed("a pin, or a tube that runs through: no weld carries it"));
  for (const int end : {0, 1}) {
    if (!f.welded[static_cast<size_t>(end)]) continue;
    const SectionCut& cut = end == 0 ? cuts.front() : cuts.back();
    r.weld_at[static_cast<size_t>(end)] = check(scaled(cut.forces, factor));
  }
  r.weld = worse_end(r.weld_at);
  r.weld_end = r.weld_at[1].utilisation.value_or(-1) > r.weld_at[0].utilisation.value_or(-1);
}

/// The weaker class: which alloy and temper has the better one is not asked.
AluminiumMaterial aluminium(const MemberFacts& f) {
  AluminiumMaterial m;
  m.fo = f.material.yield;
  m.E = f.material.E;
  m.alloy_class = AlloyClass::B;
  if (has_welds(f)) m.heat_affected = f.heat_affected;
  return m;
}

/// Tension and bending in `section`, with compression in `buckling`.
void check_aluminium_member(MemberChecks& r, const MemberFacts& f, double least_N,
                            double greatest_N, double My, double Mz) {
  const AluminiumMaterial m = aluminium(f);
  r.section = aluminium_member_check(f.section, m, f.lengths, std::max(0.0, greatest_N), My, Mz);
  r.buckling = least_N < 0 ? aluminium_member_check(f.section, m, f.lengths, least_N, My, Mz)
                           : not_needed("never compressed");
}

/// Strength of the weld metal: EN 1999-1-1 Table 8.8 has 190 MPa for 4043A on 6082 (MEMORY); no
/// more is counted on than the heated tube itself has.
double weld_metal(const MemberFacts& f) {
  constexpr double weakest_filler = 190e6;
  return std::min(weakest_filler, f.heat_affected.ultimate);
}

CheckResult worst_of(const AluminiumWeld& w) {
  CheckResult worst = w.weld;
  for (const CheckResult* c : {&w.fusion, &w.tube}) {
    if (!worst.utilisation || !c->utilisation) {
      if (worst.utilisation) worst = *c;
    } else if (*c->utilisation > *worst.utilisation) {
      worst = *c;
    }
  }
  return worst;
}

void check_aluminium_beam(MemberChecks& r, const MemberFacts& f,
                          const std::vector<SectionCut>& cuts, const BucklingLengths& lengths,
                          double factor) {
  if (const std::string why = unknown_strength(f); !why.empty()) {
    r.section = r.buckling = not_made(why);
    check_ends(r, f, cuts, factor, [&](const SectionForces&) { return not_made(why); });
    return;
  }
  double least = 0, greatest = 0, My = 0, Mz = 0;
  for (const SectionCut& cut : cuts) {
    least = std::min(least, factor * cut.forces.N);
    greatest = std::max(greatest, factor * cut.forces.N);
    My = std::max(My, std::abs(factor * cut.forces.My));
    Mz = std::max(Mz, std::abs(factor * cut.forces.Mz));
  }
  MemberFacts in_case = f;
  in_case.lengths = lengths;
  check_aluminium_member(r, in_case, least, greatest, My, Mz);
  check_ends(r, f, cuts, factor, [&](const SectionForces& forces) {
    return worst_of(aluminium_weld_check(f.section, f.weld.throat.value_or(f.section.profile.wall),
                                         f.weld.corner_radius, f.heat_affected, weld_metal(f),
                                         forces));
  });
}

void check_aluminium_bar(MemberChecks& r, const MemberFacts& f, double N) {
  if (const std::string why = unknown_strength(f); !why.empty()) {
    r.section = r.buckling = not_made(why);
    return;
  }
  check_aluminium_member(r, f, N, N, 0, 0);
}

}  // namespace

std::array<NamedMemberCheck, 5> named_checks(const MemberChecks& c) {
  return {{{"yield", &c.yield},
           {"section", &c.section},
           {"buckling", &c.buckling},
           {"weld", &c.weld},
           {"joint", &c.joint}}};
}

CheckResult worse_end(const std::array<CheckResult, 2>& ends) {
  const auto& [from, to] = ends;
  const bool second =
      !from.needed || (to.needed && to.utilisation.value_or(-1) > from.utilisation.value_or(-1));
  CheckResult worse = second ? to : from;
  const CheckResult& other = second ? from : to;
  if (lacks_number(other)) worse.reason = other.reason;
  return worse;
}

NamedMemberCheck nearest_limit(const MemberChecks& checks) {
  NamedMemberCheck nearest{"-", nullptr};
  for (const NamedMemberCheck& check : named_checks(checks)) {
    if (!check.result->utilisation) continue;
    if (nearest.result == nullptr || *check.result->utilisation > *nearest.result->utilisation) {
      nearest = check;
    }
  }
  return nearest;
}

std::vector<MemberFacts> member_facts(const Frame& frame, const NumberedFrame& n) {
  std::vector<MemberFacts> list;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    MemberFacts f;
    f.has_section = m.kind != MemberKind::spring;
    if (!f.has_section) {
      list.push_back(f);
      continue;
    }
    const SectionEntry& entry = find_section(frame, m.section);
    const MaterialEntry& material = *find_material(frame, entry.material);
    f.metal = material.metal;
    f.material = material.properties;
    f.heat_affected = material.heat_affected;
    f.section = section_of(entry, f.material);
    f.curve = buckling_curve(f.section.profile, entry.corners, f.material.yield);
    const double L = member_length(n, m);
    f.lengths = {L * m.buckling_length[0].value_or(1), L * m.buckling_length[1].value_or(1)};
    f.length_given = {m.buckling_length[0].has_value(), m.buckling_length[1].has_value()};
    const auto same_tube = [&](size_t other) {
      return !m.tube.empty() && frame.members[other].tube == m.tube;
    };
    f.welded = {welded_end(m, m.release_from, i > 0 && same_tube(i - 1)),
                welded_end(m, m.release_to, i + 1 < frame.members.size() && same_tube(i + 1))};
    f.weld.throat = m.weld_throat;
    f.weld.corner_radius = outer_radius(entry);
    f.weld.fu = f.material.ultimate;
    f.weld.beta_w = f.metal == Metal::stainless ? 1 : correlation_factor(f.material.yield);
    list.push_back(f);
  }
  return list;
}

MemberChecks beam_checks(const MemberFacts& f, const std::vector<SectionCut>& cuts,
                         const Stress& worst, const CaseLengths& lengths, double factor) {
  MemberChecks r;
  r.yield = yield_check(worst, f.material, factor);
  if (f.metal == Metal::aluminium) {
    check_aluminium_beam(r, f, cuts, lengths.lengths, factor);
    return r;
  }
  if (f.metal == Metal::other) {
    r.section = r.buckling = not_made(no_rules);
    check_ends(r, f, cuts, factor, [&](const SectionForces&) { return not_made(no_rules); });
    return r;
  }
  check_steel_beam(r, f, cuts, lengths, factor);
  check_ends(r, f, cuts, factor, [&](const SectionForces& forces) {
    const bool solid =
        f.section.profile.kind != ProfileKind::unknown && f.section.profile.wall == 0;
    if (solid && !f.weld.throat) return not_made("a solid bar has no wall: give `weld_throat`");
    return weld_check(f.section.profile, f.weld, forces).directional;
  });
  return r;
}

MemberChecks bar_checks(const MemberFacts& f, double N, const Stress& worst, bool cable,
                        double factor) {
  MemberChecks r;
  if (!f.has_section) {
    r.yield = r.section = r.buckling = not_needed(no_section);
  } else {
    r.yield = yield_check(worst, f.material, factor);
  }
  r.weld = r.joint =
      not_needed(f.has_section ? "pinned at both ends: no weld is modelled" : no_section);
  r.weld_at.fill(r.weld);
  r.joint_at.fill(r.joint);
  if (!f.has_section) return r;
  SectionForces forces;
  forces.N = factor * N;
  CompressedMember member;
  member.N = forces.N;
  if (f.metal == Metal::aluminium) {
    check_aluminium_bar(r, f, forces.N);
  } else if (f.metal == Metal::other) {
    r.section = r.buckling = not_made(no_rules);
  } else {
    check_section(r, f, {forces});
    r.buckling = check_buckling(f, member, f.lengths);
  }
  if (cable) r.buckling = not_needed("a cable is never pushed");
  return r;
}

}  // namespace tubewright
