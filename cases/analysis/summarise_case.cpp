#include "cases/analysis/summarise_case.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "cases/analysis/buckling_lengths.h"
#include "cases/checks/governing_cuts.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/find_parts.h"
#include "cases/model/weldments.h"
#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/rigid_fit.h"

namespace tubewright {

namespace {

double greatest_axial_force(const BeamState& beam) {
  double greatest = 0;
  for (const double s : smooth_intervals(beam)) {
    for (const bool before : {false, true}) {
      const double N = section_forces(beam, s, before && s > 0).N;
      if (std::abs(N) > std::abs(greatest)) greatest = N;
    }
  }
  return greatest;
}

MemberResult beam_result(const BeamState& beam, bool with_stress = true) {
  MemberResult r;
  r.from = beam.end_forces.head<6>();
  r.to = beam.end_forces.tail<6>();
  r.N = greatest_axial_force(beam);
  if (with_stress) r.worst = worst_along(beam);
  return r;
}

MemberResult beam_result(const std::vector<BeamState>& pieces) {
  MemberResult r;
  r.from = pieces.front().end_forces.head<6>();
  r.to = pieces.back().end_forces.tail<6>();
  for (const BeamState& piece : pieces) {
    const double N = greatest_axial_force(piece);
    if (std::abs(N) > std::abs(r.N)) r.N = N;
  }
  r.worst = worst_along(pieces);
  return r;
}

/// `axial_line`: what panels along the bar put on it, N/m; its force varies by that from end to
/// end.
MemberResult bar_result(double mean, double axial_line, double length, const Section* section) {
  MemberResult r;
  const double rise = axial_line * length / 2;
  r.from[0] = -(mean + rise);
  r.to[0] = mean - rise;
  const double N = mean + std::copysign(std::abs(rise), mean);
  r.N = N;
  r.worst.where = N == mean + rise ? 0 : 1;
  r.has_stress = section != nullptr;
  if (section != nullptr) {
    r.worst.stress.axial = N / section->A;
    r.worst.stress.von_mises = std::abs(N) / section->A;
  }
  return r;
}

void note_worst(CaseResult& result, const std::string& check, const std::string& item,
                const CheckResult& found) {
  if (!found.utilisation) return;
  if (result.worst && *found.utilisation <= result.worst->utilisation) return;
  result.worst = Worst{check, item, *found.utilisation};
}

void add_member(CaseResult& result, const std::string& name, MemberResult r) {
  if (const NamedMemberCheck nearest = nearest_limit(r.checks); nearest.result != nullptr) {
    note_worst(result, nearest.name, name, *nearest.result);
  }
  result.members.push_back(std::move(r));
}

/// Of a second-order solution too: the lean is in its forces, but that of an imperfect frame is
/// not, so a member that sways stays as long as in first order (EN 1993-1-1 5.2.2(7) b asks for
/// those imperfections before lengths may be the members' own).
FrameSway sway_in(const Frame& frame, const NumberedFrame& numbered, const CheckFacts& facts,
                  bool driven, const IteratedCase& iterated, double safety_factor) {
  if (iterated.surely_stable) return no_sway(facts.members);
  Model model = numbered.model;
  if (driven) model.supports = determinate_restraint(model);
  for (size_t p = 0; p < iterated.stages.size(); ++p)
    model.panels[p].secant_ratio = iterated.stages[p].secant_ratio;
  return frame_sway(model, numbered.slots, facts.members, axial_forces(iterated.solution),
                    safety_factor, nodes_of_body(frame, numbered));
}

MemberResult bar_member(const Frame& frame, const NumberedFrame& numbered, const MemberFacts& facts,
                        size_t i, const StaticSolution& s) {
  const int index = numbered.slots[i].index;
  const Bar& bar = numbered.model.bars[index];
  const double line = s.bar_lines[index].dot(bar_direction(numbered.model, bar));
  MemberResult r = bar_result(s.bar_forces[index], line, member_length(numbered, frame.members[i]),
                              facts.has_section ? &facts.section : nullptr);
  r.slack = s.slack[index];
  return r;
}

MemberChecks checks_of_bar(const Frame& frame, const MemberFacts& facts, size_t i,
                           const MemberResult& r, double factor) {
  const bool cable = frame.members[i].kind == MemberKind::cable;
  return bar_checks(facts, r.N, r.worst.stress, cable, factor);
}

int node_that_moves_most(const Eigen::VectorXd& u) {
  int node = -1;
  double greatest = -1;
  for (Eigen::Index n = 0; n < u.size() / dofs_per_node; ++n) {
    const double moved = u.segment<3>(dofs_per_node * n).norm();
    if (moved > greatest) {
      greatest = moved;
      node = static_cast<int>(n);
    }
  }
  return node;
}

/// How far the node moves that moves most beside the motion of the frame as a whole: of a vehicle
/// on springs that of its suspension.
struct Deflection {
  int node = -1;
  double moved = 0;  ///< m
};

Deflection deflection_within_frame(const NumberedFrame& numbered,
                                   const std::vector<int>& frame_nodes, const Eigen::VectorXd& u) {
  std::vector<Eigen::Vector3d> points, moved;
  for (const int n : frame_nodes) {
    points.push_back(numbered.model.nodes[static_cast<size_t>(n)]);
    moved.emplace_back(u.segment<3>(dofs_per_node * static_cast<Eigen::Index>(n)));
  }
  const RigidMotion whole =
      fit_rigid_motion(points, moved, std::vector<double>(points.size(), 1.0));
  Deflection greatest;
  for (size_t i = 0; i < points.size(); ++i) {
    const double beside = (moved[i] - whole.at(points[i])).norm();
    if (greatest.node < 0 || beside > greatest.moved) greatest = {frame_nodes[i], beside};
  }
  return greatest;
}

/// The node that moves most against `limits.deflection`; of a vehicle on springs, that moves most
/// within its largest weldment.
void find_deflection(const Frame& frame, const NumberedFrame& numbered, bool driven,
                     CaseResult& result) {
  if (result.largest_node < 0) return;
  const Eigen::VectorXd& u = result.solution.displacements;
  const Deflection found =
      driven && has_springs(frame)
          ? deflection_within_frame(numbered, largest_weldment(frame, numbered), u)
          : Deflection{result.largest_node,
                       u.segment<3>(dofs_per_node * result.largest_node).norm()};
  result.deflection = found.moved;
  if (!frame.limits.deflection) return;
  note_worst(result, "deflection", frame.nodes[static_cast<size_t>(found.node)].name,
             {found.moved / *frame.limits.deflection, "", "limits", true});
}

void note_displacements(const Frame& frame, CaseResult& result) {
  for (const LimitedDisplacement& d : limited_displacements(frame, result)) {
    note_worst(result, "displacement", d.item, {d.utilisation, "", "limits", true});
  }
}

void note_sway(CaseResult& result, const FrameSway& sway) {
  result.sway_factor = sway.factor;
  result.sways_in_suspension = sway.in_suspension;
  const std::string sways = sway.in_suspension ? "suspension" : "frame";
  if (sway.factor) note_worst(result, "sway", sways, {1 / *sway.factor, "", "", true});
}

/// Where no equilibrium was found the limit is passed, whatever else is known of it.
double beyond_equilibrium(const std::optional<double>& sway_factor) {
  constexpr double just_beyond = 1.001;
  return std::max(just_beyond, sway_factor ? 1 / *sway_factor : 0);
}

/// The larger part of its loads that a case stands under, and what then happens.
StopsShort stops_short(const LargeMotion& service, const LargeMotion& design) {
  if (service.reached < 1) return {service.reached, service.stop, false};
  return {design.reached, design.stop, true};
}

/// Of a member's checks under two sets of forces those that come nearer to their limit.
const MemberChecks& worse_of(const MemberChecks& a, const MemberChecks& b) {
  const NamedMemberCheck first = nearest_limit(a), second = nearest_limit(b);
  if (second.result == nullptr) return a;
  if (first.result == nullptr) return b;
  return *second.result->utilisation > *first.result->utilisation ? b : a;
}

/// Of a panel, an attachment or a gusset: into the list of its kind.
template <class Result>
void add_checked(CaseResult& result, std::vector<Result>& list, const std::string& name, Result r) {
  if (const NamedCheck* nearest = nearest_limit(r.checks)) {
    note_worst(result, nearest->name, name, nearest->result);
  }
  list.push_back(std::move(r));
}

/// The same of an attachment or a gusset.
template <class Result>
const Result& worse_of(const Result& a, const Result& b) {
  const NamedCheck *first = nearest_limit(a.checks), *second = nearest_limit(b.checks);
  if (second == nullptr) return a;
  if (first == nullptr) return b;
  return *second->result.utilisation > *first->result.utilisation ? b : a;
}

/// In the bar that a gusset is; none after the loss of a tube.
double gusset_force(const NumberedFrame& numbered, size_t which, const StaticSolution& solution) {
  const int bar = numbered.gussets[which];
  return bar < 0 ? 0 : solution.bar_forces[static_cast<size_t>(bar)];
}

/// Bars of the model that are members.
size_t member_bars(const NumberedFrame& numbered) {
  const auto& of = numbered.member_of_bar;
  return static_cast<size_t>(std::count_if(of.begin(), of.end(), [](int m) { return m >= 0; }));
}

BeamEnds beam_ends_of(const LargeAnswer& answer) {
  BeamEnds ends;
  for (const std::vector<BeamState>& pieces : answer.motion.pieces) {
    ends.push_back({section_forces(pieces.front(), 0), section_forces(pieces.back(), 1, true)});
  }
  return ends;
}

/// Stresses of members that may be nearer their limit by yield than anything found so far.
void add_yields_that_count(const Frame& frame, const NumberedFrame& numbered,
                           const CheckFacts& facts, const StaticSolution& solution,
                           CaseResult& result) {
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const MemberFacts& f = facts.members[i];
    if (!numbered.slots[i].is_beam || f.bent) continue;  // bends: see beam_checks()
    const BeamState& beam = solution.beams[static_cast<size_t>(numbered.slots[i].index)];
    const double so_far = result.worst ? result.worst->utilisation : 0;
    if (!may_exceed(beam, so_far * f.material.yield / result.safety_factor)) continue;
    MemberResult& r = result.members[i];
    r.worst = worst_along(beam);
    r.checks.yield = yield_check(r.worst.stress, f.material, result.safety_factor);
    note_worst(result, "yield", frame.members[i].name, r.checks.yield);
  }
}

}  // namespace

std::vector<LimitedDisplacement> limited_displacements(const Frame& frame,
                                                       const CaseResult& result) {
  std::vector<LimitedDisplacement> found;
  const Eigen::VectorXd& u = result.solution.displacements;
  for (const DisplacementLimit& limit : frame.limits.displacements) {
    if (limit.load_case != result.name) continue;
    const auto named = [&](const Node& n) { return n.name == limit.node; };
    const auto node =
        std::find_if(frame.nodes.begin(), frame.nodes.end(), named) - frame.nodes.begin();
    assert(node < static_cast<std::ptrdiff_t>(frame.nodes.size()));
    for (size_t d = 0; d < limit.most.size(); ++d) {
      if (!limit.most[d]) continue;
      const double moved = std::abs(u[dofs_per_node * node + static_cast<Eigen::Index>(d)]);
      found.push_back({limit.node + " " + direction_names[d], moved / *limit.most[d]});
    }
  }
  return found;
}

CheckFacts check_facts(const Frame& frame, const NumberedFrame& numbered) {
  CheckFacts facts{all_panel_facts(frame, numbered), member_facts(frame, numbered), {}};
  facts.joint_ends = joint_ends(frame, numbered);
  return facts;
}

CaseResult summarise_case(const Frame& frame, const NumberedFrame& numbered,
                          const CheckFacts& facts, const Case& c, bool driven,
                          IteratedCase iterated, const CheckedItems& checked) {
  CaseResult result;
  result.name = c.name;
  result.second_order = iterated.second_order;
  result.safety_factor = safety_factor(frame, c);
  const StaticSolution& solution = iterated.solution;
  const auto asked = [&](const std::string& item) {
    return checked.only.empty() || item == checked.only;
  };
  const FrameSway sway = sway_in(frame, numbered, facts, driven, iterated, result.safety_factor);
  result.sheets_converged = iterated.sheets_converged;
  note_sway(result, sway);
  if (iterated.second_order && !iterated.second_order->converged) {
    note_worst(result, "sway", "frame", {beyond_equilibrium(result.sway_factor), "", "", true});
  }
  const BeamEnds ends = beam_ends(solution.beams);
  const auto critical = critical_moments(frame, numbered, facts.members, [&](int member, double s) {
    return section_forces(solution.beams[numbered.slots[member].index], s, s == 1);
  });
  for (size_t i = 0; i < frame.members.size(); ++i) {
    MemberResult r;
    if (!asked(frame.members[i].name)) {
      result.members.push_back(std::move(r));
      continue;
    }
    if (numbered.slots[i].is_beam) {
      const BeamState& beam = solution.beams[numbered.slots[i].index];
      r = beam_result(beam, !checked.worst_only);
      CaseLengths lengths = sway.lengths[i];
      lengths.critical_moment = critical[i];
      const double at_least = checked.worst_only && result.worst ? result.worst->utilisation : 0;
      r.checks = beam_checks(facts.members[i], governing_cuts(beam), r.worst.stress, lengths,
                             result.safety_factor, at_least);
      r.checks.joint_at =
          joint_checks(numbered, facts.members, facts.joint_ends, i, ends, result.safety_factor);
      r.checks.joint = worse_end(r.checks.joint_at);
    } else {
      r = bar_member(frame, numbered, facts.members[i], i, solution);
      r.checks = checks_of_bar(frame, facts.members[i], i, r, result.safety_factor);
    }
    add_member(result, frame.members[i].name, std::move(r));
  }
  if (checked.worst_only) add_yields_that_count(frame, numbered, facts, solution, result);
  for (size_t p = 0; p < frame.panels.size(); ++p) {
    PanelResult r = panel_result(frame, numbered, p, facts.panels[p], iterated.stages, solution,
                                 result.safety_factor);
    add_checked(result, result.panels, frame.panels[p].name, std::move(r));
  }
  for (size_t a = 0; a < frame.attachments.size(); ++a) {
    const BeamState& plate = solution.beams[static_cast<size_t>(numbered.arms[a].plate)];
    add_checked(result, result.attachments, frame.attachments[a].name,
                attachment_result(frame, numbered, a, attachment_forces(plate, plate), ends,
                                  result.safety_factor));
  }
  for (size_t g = 0; g < frame.gussets.size(); ++g) {
    add_checked(result, result.gussets, frame.gussets[g].name,
                gusset_result(frame, numbered, g, gusset_force(numbered, g, solution), ends,
                              result.safety_factor));
  }
  result.pick_ups = pick_ups(numbered.model, solution, member_bars(numbered));
  result.largest_node = node_that_moves_most(solution.displacements);
  result.solution = std::move(iterated.solution);
  find_deflection(frame, numbered, driven, result);
  note_displacements(frame, result);
  return result;
}

CaseResult summarise_large_case(const Frame& frame, const NumberedFrame& numbered,
                                const CheckFacts& facts, const Case& c, bool driven,
                                StaticSolution first_order, LargeAnswer service,
                                const LargeAnswer& design) {
  CaseResult result;
  result.name = c.name;
  result.safety_factor = safety_factor(frame, c);
  std::optional<CaseResult> plain;  // where the design loads are not reached
  const IteratedCase first{std::move(first_order), {}, true, {}, false};
  // Nothing is crooked here that is drawn straight, so lengths are those of first order.
  const FrameSway sway = sway_in(frame, numbered, facts, driven, first, result.safety_factor);
  note_sway(result, sway);
  if (design.motion.reached < 1) {
    note_worst(result, "sway", "frame", {beyond_equilibrium(design.motion.reached), "", "", true});
    result.stops_short = stops_short(service.motion, design.motion);
    plain = summarise_case(frame, numbered, facts, c, driven, first);
  }
  const BeamEnds ends = beam_ends_of(design);
  constexpr double loads_hold_it = 1;  // the reserve is in the loads of `design`
  const auto critical = critical_moments(frame, numbered, facts.members, [&](int member, double s) {
    const std::vector<BeamState>& pieces = design.motion.pieces[numbered.slots[member].index];
    const double along = s * static_cast<double>(pieces.size());
    const size_t k = std::min(static_cast<size_t>(along), pieces.size() - 1);
    return section_forces(pieces[k], along - static_cast<double>(k), s == 1);
  });
  for (size_t i = 0; i < frame.members.size(); ++i) {
    MemberResult r;
    if (numbered.slots[i].is_beam) {
      const int b = numbered.slots[i].index;
      r = beam_result(service.motion.pieces[b]);
      const std::vector<BeamState>& pieces = design.motion.pieces[b];
      CaseLengths lengths = sway.lengths[i];
      lengths.critical_moment = critical[i];
      r.checks = beam_checks(facts.members[i], governing_cuts(pieces), worst_along(pieces).stress,
                             lengths, loads_hold_it);
      r.checks.joint_at =
          joint_checks(numbered, facts.members, facts.joint_ends, i, ends, loads_hold_it);
      r.checks.joint = worse_end(r.checks.joint_at);
    } else {
      r = bar_member(frame, numbered, facts.members[i], i, service.solution);
      const MemberResult at_design =
          bar_member(frame, numbered, facts.members[i], i, design.solution);
      r.checks = checks_of_bar(frame, facts.members[i], i, at_design, loads_hold_it);
    }
    if (plain) r.checks = worse_of(r.checks, plain->members[i].checks);
    add_member(result, frame.members[i].name, std::move(r));
  }
  for (size_t a = 0; a < frame.attachments.size(); ++a) {
    const auto b = static_cast<size_t>(numbered.arms[a].plate);
    const std::vector<BeamState>&under = design.motion.pieces[b], &shown = service.motion.pieces[b];
    AttachmentResult r = attachment_result(
        frame, numbered, a, attachment_forces(under.front(), under.back()), ends, loads_hold_it);
    if (plain) r = worse_of(r, plain->attachments[a]);
    r.forces = attachment_forces(shown.front(), shown.back());
    add_checked(result, result.attachments, frame.attachments[a].name, std::move(r));
  }
  for (size_t g = 0; g < frame.gussets.size(); ++g) {
    GussetResult r = gusset_result(frame, numbered, g, gusset_force(numbered, g, design.solution),
                                   ends, loads_hold_it);
    if (plain) r = worse_of(r, plain->gussets[g]);
    r.force = gusset_force(numbered, g, service.solution);
    add_checked(result, result.gussets, frame.gussets[g].name, std::move(r));
  }
  result.pick_ups = pick_ups(numbered.model, service.solution, member_bars(numbered));
  result.largest_node = node_that_moves_most(service.solution.displacements);
  result.solution = std::move(service.solution);
  result.large = std::move(service.motion);
  find_deflection(frame, numbered, driven, result);
  note_displacements(frame, result);
  return result;
}

}  // namespace tubewright
