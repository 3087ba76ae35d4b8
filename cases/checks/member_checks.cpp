#include "cases/checks/member_checks.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/bends/member_arc.h"
#include "cases/checks/aluminium_member.h"
#include "cases/checks/end_weld.h"
#include "cases/checks/lateral_torsional.h"
#include "cases/checks/section_resistance.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"

namespace tubewright {

namespace {

constexpr const char* no_rules = "no rules for this metal: neither steel nor aluminium";
constexpr const char* no_section = "a spring has no section";

/// What each may tip over with.
void find_tipping(const Frame& frame, const NumberedFrame& n, std::vector<MemberFacts>& facts) {
  std::vector<int> tall;
  for (size_t i = 0; i < facts.size(); ++i) {
    const Profile& p = facts[i].section.profile;
    const bool rectangle =
        p.kind == ProfileKind::solid_rectangle || p.kind == ProfileKind::hollow_rectangle;
    if (rectangle && p.height != p.width && n.slots[i].is_beam) tall.push_back(static_cast<int>(i));
  }
  const std::vector<SidewaysRun> runs = sideways_runs(frame, n, tall);
  for (size_t k = 0; k < tall.size(); ++k) {
    MemberFacts& f = facts[static_cast<size_t>(tall[k])];
    const double length = runs[k].effective_length();
    if (may_tip_over(f.section, f.material.yield, f.material.E, length)) f.tips = runs[k];
  }
}

bool is_heated(const MemberFacts& f) { return f.ends[0].heated > 0 || f.ends[1].heated > 0; }

/// Why an aluminium member cannot be checked, empty if it can.
std::string unknown_strength(const MemberFacts& f) {
  if (std::isnan(f.material.yield)) return "the material has no yield strength";
  if (is_heated(f) && (std::isnan(f.heat_affected.yield) || std::isnan(f.heat_affected.ultimate))) {
    return "the strength beside welds is not known: give `heat_affected_yield` and "
           "`heat_affected_ultimate`";
  }
  return "";
}

/// The greatest share of the resistance over all cuts.
void check_section(MemberChecks& r, const MemberFacts& f, const std::vector<SectionForces>& cuts,
                   double at_least = 0) {
  r.section.utilisation = at_least;
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

/// An infinite moment is none.
bool tips_over(const std::optional<double>& critical_moment) {
  return critical_moment && std::isfinite(*critical_moment);
}

/// By more than rounding: a force that is not there must not decide which checks are made.
bool is_compressed(const MemberFacts& f, double N) {
  constexpr double rounding = 1e-6;                           // of what yields the section
  return !(N >= -rounding * f.section.A * f.material.yield);  // an unknown yield hides nothing
}

CheckResult check_buckling(const MemberFacts& f, const CompressedMember& member,
                           const BucklingLengths& lengths) {
  if (!is_compressed(f, member.N) && !tips_over(member.critical_moment)) {
    return not_needed("never compressed");
  }
  return member_buckling(f.section, f.material.yield, f.material.E, f.curve, lengths, member)
      .result;
}

void check_steel_beam(MemberChecks& r, const MemberFacts& f, const std::vector<SectionCut>& cuts,
                      const CaseLengths& lengths, double factor, double at_least) {
  std::vector<SectionForces> design;
  CompressedMember member;
  for (const SectionCut& cut : cuts) {
    design.push_back(scaled(cut.forces, factor));
    member.N = std::min(member.N, design.back().N);
  }
  check_section(r, f, design, at_least);
  member.y = moments_along(cuts, &SectionForces::My, factor);
  member.z = moments_along(cuts, &SectionForces::Mz, factor);
  member.y.sway = lengths.sway[0];
  member.z.sway = lengths.sway[1];
  member.critical_moment = lengths.critical_moment;
  r.buckling = check_buckling(f, member, lengths.lengths);
}

/// The check of both ends.
template <class Check>
void check_ends(MemberChecks& r, const MemberFacts& f, const std::vector<SectionCut>& cuts,
                double factor, const Check& check) {
  r.weld_at.fill(not_needed("a pin, a free end or a tube that runs through: no weld carries it"));
  for (const int end : {0, 1}) {
    if (!f.welded[static_cast<size_t>(end)]) continue;
    const SectionCut& cut = end == 0 ? cuts.front() : cuts.back();
    const WeldedEnd& at = f.ends[static_cast<size_t>(end)];
    r.weld_at[static_cast<size_t>(end)] =
        at.obstacle.empty() ? check(at, scaled(cut.forces, factor)) : not_made(at.obstacle);
  }
  r.weld = worse_end(r.weld_at);
  r.weld_end = r.weld_at[1].utilisation.value_or(-1) > r.weld_at[0].utilisation.value_or(-1);
}

AluminiumMaterial aluminium(const MemberFacts& f, bool heated) {
  AluminiumMaterial m;
  m.fo = f.material.yield;
  m.E = f.material.E;
  m.alloy_class = f.alloy_class;
  if (heated) m.heat_affected = f.heat_affected;
  return m;
}

void keep_greater(CheckResult& kept, const CheckResult& other) {
  if (!kept.utilisation) return;
  if (!other.utilisation || *other.utilisation >= *kept.utilisation) kept = other;
}

/// Forces between two cuts, where nothing acts but a line load: M by its ends and slopes.
SectionForces between(const SectionCut& a, const SectionCut& b, double s, double length) {
  const double run = (b.s - a.s) * length, u = (s - a.s) / (b.s - a.s);
  const auto hermite = [&](double at_a, double at_b, double slope_a, double slope_b) {
    return (1 + 2 * u) * (1 - u) * (1 - u) * at_a + u * (1 - u) * (1 - u) * run * slope_a +
           u * u * (3 - 2 * u) * at_b - u * u * (1 - u) * run * slope_b;
  };
  SectionForces f;
  f.N = std::lerp(a.forces.N, b.forces.N, u);
  f.My = hermite(a.forces.My, b.forces.My, a.forces.Vz, b.forces.Vz);
  f.Mz = hermite(a.forces.Mz, b.forces.Mz, -a.forces.Vy, -b.forces.Vy);
  return f;
}

/// The cuts of a member, and where the heat of its welds ends.
struct HeatedCuts {
  std::vector<SectionForces> heated, cold;
  double reach = 0;  ///< how far from an end the heat goes, m
  bool all = false;  ///< from end to end
};

HeatedCuts heated_cuts(const MemberFacts& f, const std::vector<SectionCut>& cuts, double factor) {
  HeatedCuts h;
  h.reach = std::max(f.ends[0].heated, f.ends[1].heated);
  h.all = f.ends[0].heated + f.ends[1].heated >= f.length;
  const double first = f.ends[0].heated / f.length, last = 1 - f.ends[1].heated / f.length;
  for (size_t i = 0; i < cuts.size(); ++i) {
    const bool warm = h.all || (first > 0 && cuts[i].s <= first) || (last < 1 && cuts[i].s >= last);
    (warm ? h.heated : h.cold).push_back(scaled(cuts[i].forces, factor));
    if (h.all || i + 1 == cuts.size()) continue;
    for (const double edge : {first, last}) {
      if (!(edge > 0 && edge < 1 && cuts[i].s < edge && edge < cuts[i + 1].s)) continue;
      h.heated.push_back(scaled(between(cuts[i], cuts[i + 1], edge, f.length), factor));
    }
  }
  return h;
}

struct GreatestForces {
  double N = 0;  ///< the greatest compression, below 0
  double My = 0, Mz = 0;
};

GreatestForces greatest_of(const std::vector<SectionForces>& cuts) {
  GreatestForces g;
  for (const SectionForces& c : cuts) {
    g.N = std::min(g.N, c.N);
    g.My = std::max(g.My, std::abs(c.My));
    g.Mz = std::max(g.Mz, std::abs(c.Mz));
  }
  return g;
}

/// Heat at the ends weakens a column that buckles between them as between pins only there; of one
/// that buckles over another length the weld may be anywhere in the wave (at a fixed end it is
/// where the column bends most), and all of it counts as heated.
CheckResult aluminium_buckling(const MemberFacts& f, const HeatedCuts& h,
                               const CaseLengths& lengths) {
  const GreatestForces warm = greatest_of(h.heated), cold = greatest_of(h.cold);
  const double N = std::min(warm.N, cold.N);
  const double My = std::max(warm.My, cold.My), Mz = std::max(warm.Mz, cold.Mz);
  AluminiumSideEffects effects;
  effects.critical_moment = lengths.critical_moment;
  if (!is_compressed(f, N) && !tips_over(lengths.critical_moment)) {
    return not_needed("never compressed");
  }
  constexpr double rounding = 1e-6;
  const BucklingLengths& l = lengths.lengths;
  const bool within =
      std::max(std::abs(l.y - f.length), std::abs(l.z - f.length)) <= rounding * f.length;
  const AluminiumMaterial heated = aluminium(f, true), unheated = aluminium(f, false);
  if (!is_heated(f) || h.all || !within || effects.critical_moment) {
    return aluminium_member_check(f.section, is_heated(f) ? heated : unheated, l, N, My, Mz,
                                  effects);
  }
  const AluminiumColumn column = aluminium_column(f.section, unheated, l);
  if (column.reason.empty()) {
    effects.weld_factor = local_weld_factor(member_strength(heated) / member_strength(unheated),
                                            column.chi, h.reach, std::min(l.y, l.z));
  }
  CheckResult r = aluminium_member_check(f.section, unheated, l, N, My, Mz, effects);
  const CheckResult bent = aluminium_section_check(f.section, heated, 0, warm.My, warm.Mz);
  if (!r.utilisation || !bent.utilisation) return r.utilisation ? bent : r;
  const double beside_weld = -N / (effects.weld_factor * column.N_b_Rd) + *bent.utilisation;
  r.utilisation = std::max(*r.utilisation, beside_weld);
  return r;
}

/// Strength of the weld metal: EN 1999-1-1 Table 8.8 has 190 MPa for 4043A on 6082 (MEMORY); no
/// more is counted on than the weakest of the heated tubes has.
double weld_metal(const WeldedEnd& at) {
  constexpr double weakest_filler = 190e6;
  return std::min(weakest_filler, at.heat_ultimate);
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
                          const std::vector<SectionCut>& cuts, const CaseLengths& lengths,
                          double factor) {
  if (const std::string why = unknown_strength(f); !why.empty()) {
    r.section = r.buckling = not_made(why);
    check_ends(r, f, cuts, factor,
               [&](const WeldedEnd&, const SectionForces&) { return not_made(why); });
    return;
  }
  const HeatedCuts h = heated_cuts(f, cuts, factor);
  r.section.utilisation = 0;
  for (const bool heated : {true, false}) {
    for (const SectionForces& c : heated ? h.heated : h.cold) {
      keep_greater(r.section,
                   aluminium_section_check(f.section, aluminium(f, heated), c.N, c.My, c.Mz));
    }
  }
  r.buckling = aluminium_buckling(f, h, lengths);
  check_ends(r, f, cuts, factor, [&](const WeldedEnd& at, const SectionForces& forces) {
    return worst_of(aluminium_weld_check(f.section, at.weld.throat.value_or(f.section.profile.wall),
                                         at.weld.corner_radius, f.heat_affected, weld_metal(at),
                                         forces));
  });
}

void check_aluminium_bar(MemberChecks& r, const MemberFacts& f, double N) {
  if (std::isnan(f.material.yield)) {
    r.section = r.buckling = not_made("the material has no yield strength");
    return;
  }
  const AluminiumMaterial m = aluminium(f, false);
  r.section = aluminium_section_check(f.section, m, N, 0, 0);
  r.buckling = N < 0 ? aluminium_member_check(f.section, m, f.lengths, N, 0, 0)
                     : not_needed("never compressed");
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
  const std::vector<std::array<WeldedEnd, 2>> ends = welded_ends(frame, n);
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
    f.alloy_class = material.alloy_class;
    f.section = section_of(entry, f.material);
    f.curve = buckling_curve(f.section.profile, entry.corners, f.material.yield);
    const double L = member_length(n, m);
    f.length = L;
    const double whole = std::max(L, m.parted_from);  // nothing holds it where an attachment is
    f.lengths = {whole * m.buckling_length[0].value_or(1),
                 whole * m.buckling_length[1].value_or(1)};
    f.length_given = {m.buckling_length[0].has_value(), m.buckling_length[1].has_value()};
    if (m.arc) {
      const Beam& beam = n.model.beams[static_cast<size_t>(n.slots[i].index)];
      f.bent = moment_factors(beam.arc, entry).value_or(std::array<double, 2>{1, 1});
    }
    f.ends = ends[i];
    f.welded = {f.ends[0].welded, f.ends[1].welded};
    list.push_back(f);
  }
  find_tipping(frame, n, list);
  return list;
}

std::vector<std::optional<double>> critical_moments(const Frame& frame, const NumberedFrame& n,
                                                    const std::vector<MemberFacts>& facts,
                                                    const ForcesAlong& forces) {
  std::vector<std::optional<double>> critical(facts.size());
  for (size_t i = 0; i < facts.size(); ++i) {
    const MemberFacts& f = facts[i];
    if (f.tips.pieces.empty()) continue;
    const bool about_y = strong_about_y(f.section.profile);
    const std::vector<double> moments = moments_along(f.tips, n, frame, about_y, forces);
    const double greatest = *std::max_element(moments.begin(), moments.end());
    constexpr double rounding = 1e-9;
    if (!(greatest > rounding * f.section.A * f.material.yield * f.length)) {
      critical[i] = std::numeric_limits<double>::infinity();  // not bent the strong way
      continue;
    }
    critical[i] =
        greatest * tipping_factor(f.section, f.material, f.tips.length, f.tips.held, moments);
  }
  return critical;
}

namespace {

/// Of a thin-walled tube in a bend: the moments times what its walls make of them.
std::vector<SectionCut> in_bend(const MemberFacts& f, std::vector<SectionCut> cuts) {
  for (SectionCut& cut : cuts) {
    cut.forces.My *= (*f.bent)[0];
    cut.forces.Mz *= (*f.bent)[1];
  }
  return cuts;
}

Stress greatest_stress(const MemberFacts& f, const std::vector<SectionCut>& cuts) {
  Stress greatest;
  for (const SectionCut& cut : cuts) {
    const Stress here = worst_stress(f.section, cut.forces);
    if (here.von_mises > greatest.von_mises) greatest = here;
  }
  return greatest;
}

MemberChecks straight_beam_checks(const MemberFacts& f, const std::vector<SectionCut>& cuts,
                                  const Stress& worst, const CaseLengths& lengths, double factor,
                                  double at_least) {
  MemberChecks r;
  r.yield = yield_check(worst, f.material, factor);
  if (f.metal == Metal::aluminium) {
    check_aluminium_beam(r, f, cuts, lengths, factor);
    return r;
  }
  if (f.metal == Metal::other) {
    r.section = r.buckling = not_made(no_rules);
    check_ends(r, f, cuts, factor,
               [&](const WeldedEnd&, const SectionForces&) { return not_made(no_rules); });
    return r;
  }
  check_steel_beam(r, f, cuts, lengths, factor, at_least);
  check_ends(r, f, cuts, factor, [&](const WeldedEnd& at, const SectionForces& forces) {
    return end_weld_check(f.section.profile, at.weld, forces);
  });
  return r;
}

}  // namespace

MemberChecks beam_checks(const MemberFacts& f, const std::vector<SectionCut>& cuts,
                         const Stress& worst, const CaseLengths& lengths, double factor,
                         double at_least) {
  if (!f.bent) return straight_beam_checks(f, cuts, worst, lengths, factor, at_least);
  const std::vector<SectionCut> bent = in_bend(f, cuts);
  MemberChecks r =
      straight_beam_checks(f, bent, greatest_stress(f, bent), lengths, factor, at_least);
  for (CheckResult* check : {&r.yield, &r.section, &r.buckling}) {
    if (!check->utilisation) continue;
    check->comparison = true;
    check->reason =
        "in a bend: made by rules for straight tubes, with the stresses of curved walls";
  }
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
