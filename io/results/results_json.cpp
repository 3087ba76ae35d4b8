#include "io/results/results_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

#include "io/results/analysis_parts.h"
#include "io/results/cautions.h"
#include "io/results/joints_output.h"
#include "io/results/json_parts.h"
#include "io/results/outlook_output.h"
#include "io/results/verdict_words.h"
#include "io/text/json_lines.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

void write_nodes(JsonLines& out, const Frame& frame, const Eigen::VectorXd& displacements) {
  out.open("nodes");
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) {
    const auto u = displacements.segment<6>(static_cast<Eigen::Index>(6 * i));
    out.row(frame.nodes[i].name,
            {{"displacement", numbers(u.head<3>(), mm_per_m)}, {"rotation", numbers(u.tail<3>())}});
  }
  out.close();
}

void write_reactions(JsonLines& out, const Analysis& analysis, const CaseResult& result) {
  out.open("reactions");
  for (const int node : held_nodes(analysis, result)) {
    const auto r = result.solution.reactions.segment<6>(6 * node);
    out.row(analysis.frame.nodes[static_cast<std::size_t>(node)].name,
            {{"force", numbers(r.head<3>())}, {"moment", numbers(r.tail<3>())}});
  }
  out.close();
}

/// A reason stands beside a number too where only a part of the check could be made.
ordered_json checks_json(const MemberChecks& checks) {
  ordered_json entry;
  ordered_json reason;
  for (const auto& [name, check] : named_checks(checks)) {
    entry[name] = optional_number(check->utilisation, 1);
    if (!check->reason.empty()) reason[name] = check->reason;
  }
  if (checks.weld.utilisation) entry["weld_at"] = checks.weld_end == 0 ? "from" : "to";
  if (!reason.is_null()) entry["reason"] = std::move(reason);
  return entry;
}

ordered_json stress_json(const Stress& stress) {
  return {{"axial", number(stress.axial * MPa_per_Pa)},
          {"bending", number(stress.bending * MPa_per_Pa)},
          {"shear", number(stress.shear * MPa_per_Pa)},
          {"von_mises", number(stress.von_mises * MPa_per_Pa)}};
}

ordered_json member_json(const MemberResult& member) {
  ordered_json entry;
  entry["from"] = numbers(member.from);
  entry["to"] = numbers(member.to);
  entry["N"] = number(member.N);
  entry["stress"] = member.has_stress ? stress_json(member.worst.stress) : ordered_json(nullptr);
  entry["where"] = member.has_stress ? number(member.worst.where) : ordered_json(nullptr);
  entry["checks"] = checks_json(member.checks);
  if (member.checks.section_class > 0) entry["section_class"] = member.checks.section_class;
  return entry;
}

void write_members(JsonLines& out, const Frame& frame, const CaseResult& result) {
  out.open("members");
  for (std::size_t i = 0; i < result.members.size(); ++i) {
    out.row(frame.members[i].name, member_json(result.members[i]));
  }
  out.close();
}

/// Utilisations by name, null ones with a `reason`; and their clauses.
std::pair<ordered_json, ordered_json> named_checks_json(const std::vector<NamedCheck>& list) {
  ordered_json checks, reason, rules;
  for (const NamedCheck& check : list) {
    checks[check.name] = optional_number(check.result.utilisation, 1);
    if (!check.result.utilisation) reason[check.name] = check.result.reason;
    rules[check.name] = check.result.clause;
  }
  if (!reason.is_null()) checks["reason"] = std::move(reason);
  return {std::move(checks), std::move(rules)};
}

ordered_json panel_json(const PanelResult& panel) {
  auto [checks, rules] = named_checks_json(panel.checks);
  ordered_json edge_flows = ordered_json::array();
  for (const double flow : panel.edge_flows) edge_flows.push_back(number(flow * N_mm_per_N_m));
  return {{"shear_flow", number(panel.flow * N_mm_per_N_m)},
          {"shear_stress", number(panel.shear_stress * MPa_per_Pa)},
          {"critical_stress", number(panel.critical_stress * MPa_per_Pa)},
          {"stiffness_kept", number(panel.stage.secant_ratio)},
          {"rivet_load", optional_number(panel.rivet_load, 1)},
          {"bond_stress", optional_number(panel.bond_peak, MPa_per_Pa)},
          {"bond_mean_stress", optional_number(panel.bond_mean, MPa_per_Pa)},
          {"diagonal_tension_share", number(panel.stage.tension_share)},
          {"edge_pull", number(panel.stage.traction * N_mm_per_N_m)},
          {"edge_flows", std::move(edge_flows)},
          {"checks", std::move(checks)},
          {"rules", std::move(rules)}};
}

void write_panels(JsonLines& out, const Frame& frame, const CaseResult& result) {
  out.open("panels");
  for (std::size_t i = 0; i < result.panels.size(); ++i) {
    out.row(frame.panels[i].name, panel_json(result.panels[i]));
  }
  out.close();
}

/// `entry` with the checks, their rules, and what those outside their rule's range are beyond.
ordered_json with_checks(ordered_json entry, const std::vector<NamedCheck>& list) {
  auto [checks, rules] = named_checks_json(list);
  entry["checks"] = std::move(checks);
  entry["rules"] = std::move(rules);
  ordered_json outside;
  for (const NamedCheck& check : list) {
    if (check.result.comparison) outside[check.name] = check.result.reason;
  }
  if (!outside.is_null()) entry["comparisons"] = std::move(outside);
  return entry;
}

void write_attachments(JsonLines& out, const Frame& frame, const CaseResult& result) {
  out.open("attachments");
  for (std::size_t i = 0; i < result.attachments.size(); ++i) {
    const AttachmentResult& a = result.attachments[i];
    out.row(frame.attachments[i].name,
            with_checks({{"force", numbers(a.forces.hole)},
                         {"foot_force", numbers(Eigen::Vector3d(-a.forces.foot))},
                         {"foot_moment", numbers(Eigen::Vector3d(-a.forces.foot_moment))}},
                        a.checks));
  }
  out.close();
}

void write_gussets(JsonLines& out, const Frame& frame, const CaseResult& result) {
  out.open("gussets");
  for (std::size_t i = 0; i < result.gussets.size(); ++i) {
    const GussetResult& g = result.gussets[i];
    out.row(frame.gussets[i].name, with_checks({{"force", number(g.force)}}, g.checks));
  }
  out.close();
}

ordered_json slack_json(const Frame& frame, const CaseResult& result) {
  ordered_json list = ordered_json::array();
  for (std::size_t i = 0; i < result.members.size(); ++i) {
    if (result.members[i].slack) list.push_back(frame.members[i].name);
  }
  return list;
}

ordered_json residual_json(const Residual& residual) {
  return {{"force", number(residual.force)}, {"moment", number(residual.moment)}};
}

void write_wheels(JsonLines& out, const Frame& frame, const CaseResult& result) {
  out.open("wheels");
  for (std::size_t w = 0; result.driving && w < result.driving->wheels.size(); ++w) {
    const TyreForce& f = result.driving->wheels[w];
    out.row(frame.vehicle->wheels[w].name, {{"force", numbers(f.total())},
                                            {"lifted", f.lifted},
                                            {"at_contact", numbers(f.at_contact)},
                                            {"at_centre", numbers(f.at_centre)},
                                            {"brake_couple_on_mount", number(f.mount_couple)},
                                            {"friction_needed", number(f.friction_used)}});
  }
  out.close();
}

ordered_json balance_json(const Balance& b, bool tips) {
  return {{"force", numbers(b.force)},
          {"moment", numbers(b.moment)},
          {"gravity", numbers(b.gravity)},
          {"acceleration", numbers(b.acceleration)},
          {"angular_acceleration", numbers(b.angular)},
          {"restraint_force", number(b.restraint_force)},
          {"tips", tips}};
}

void write_pick_ups(JsonLines& out, const Frame& frame, const CaseResult& result) {
  out.open("pick_ups");
  for (const PickUp& p : result.pick_ups) {
    out.row(frame.nodes[static_cast<std::size_t>(p.node)].name, {{"force", numbers(p.force)}});
  }
  out.close();
}

void write_case(JsonLines& out, const Analysis& analysis, const CaseResult& result) {
  const Frame& frame = analysis.frame;
  const auto described = std::find_if(frame.cases.begin(), frame.cases.end(),
                                      [&](const Case& c) { return c.name == result.name; });
  out.open(result.name);
  if (described != frame.cases.end()) {
    if (!described->note.empty()) out.row("note", described->note);
    out.row("rare", described->rare);
  }
  write_nodes(out, frame, result.solution.displacements);
  write_reactions(out, analysis, result);
  write_members(out, frame, result);
  write_panels(out, frame, result);
  if (!frame.attachments.empty()) write_attachments(out, frame, result);
  if (!frame.gussets.empty()) write_gussets(out, frame, result);
  write_wheels(out, frame, result);
  if (result.driving) {
    const std::vector<TyreForce>& wheels = result.driving->wheels;
    out.row("axle_friction", {{"front", number(axle_friction(*frame.vehicle, Axle::front, wheels))},
                              {"rear", number(axle_friction(*frame.vehicle, Axle::rear, wheels))}});
    out.row("balance", balance_json(result.driving->balance, result.driving->tips));
  }
  write_pick_ups(out, frame, result);
  out.row("slack", slack_json(frame, result));
  out.row("residual", residual_json(result.solution.residual));
  out.row("equilibrium", residual_json(result.solution.equilibrium));
  if (result.second_order) {
    out.row("second_order", {{"converged", result.second_order->converged},
                             {"growth", number(result.second_order->growth)}});
  }
  if (result.large) out.row("load_reached", number(result.large->reached));
  out.row("sway_factor", optional_number(result.sway_factor, 1));
  if (result.sway_factor) out.row("sways", result.sways_in_suspension ? "suspension" : "frame");
  out.row("worst", worst_json(result.worst));
  out.close();
}

}  // namespace

std::string results_json(const FrameStudies& studies, const Diagnostics& warnings) {
  const Analysis& analysis = studies.analysis;
  Diagnostics all = warnings;
  all.insert(all.end(), analysis.remarks.begin(), analysis.remarks.end());
  JsonLines out;
  start_results(out, analysis.frame, studies.verdict.answer == Verdict::Answer::pass, all,
                checks_not_made(studies));
  out.row("verdict", verdict_json(studies.verdict));
  out.row("analysis", analysis_name(analysis));
  write_mass(out, analysis.mass);
  out.row("joints", joints_json(analysis.joints));
  out.row("pick_ups_without_attachment", ordered_json(pick_ups_without_attachment(analysis.frame)));
  if (const ordered_json vehicle = vehicle_json(analysis); !vehicle.is_null()) {
    out.open("vehicle");
    for (const auto& [key, value] : vehicle.items()) out.row(key, value);
    out.close();
  }
  out.open("cases");
  for (const CaseResult& result : analysis.cases) write_case(out, analysis, result);
  out.close();
  out.open("rules");
  for (const auto& [name, clauses] : clauses_followed(analysis)) {
    out.row(name, ordered_json(clauses));
  }
  out.close();
  if (!studies.limits.empty()) out.row("limits", limits_json(studies.limits));
  write_what_ifs(out, studies);
  write_fatigue(out, studies);
  return out.finish();
}

}  // namespace tubewright
