#include "io/report/report_cases.h"

#include <algorithm>
#include <map>

#include "io/results/analysis_parts.h"
#include "io/results/json_parts.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// Every reason once; checks refer to them by number.
class Reasons {
 public:
  ordered_json number_of(const CheckResult& check) {
    if (check.reason.empty()) return nullptr;
    const auto [place, added] = numbers_.emplace(check.reason, list_.size());
    if (added) list_.push_back(check.reason);
    return place->second;
  }
  const std::vector<std::string>& list() const { return list_; }

 private:
  std::map<std::string, std::size_t> numbers_;
  std::vector<std::string> list_;
};

ordered_json member_checks() {
  ordered_json list = ordered_json::array();
  for (const auto& [name, check] : named_checks({})) {
    list.push_back({{"name", name}, {"counts", true}});
  }
  return list;
}

/// Of every name of a check the first that is met.
using ChecksMet = std::vector<const NamedCheck*>;

template <class Part>
ChecksMet checks_met(const Analysis& analysis, std::vector<Part> CaseResult::*parts) {
  ChecksMet met;
  for (const CaseResult& c : analysis.cases) {
    for (const Part& part : c.*parts) {
      for (const NamedCheck& check : part.checks) {
        const bool known = std::any_of(met.begin(), met.end(), [&](const NamedCheck* earlier) {
          return earlier->name == check.name;
        });
        if (!known) met.push_back(&check);
      }
    }
  }
  return met;
}

/// Those of panels, attachments and gussets.
struct ChecksOfParts {
  ChecksMet panels, attachments, gussets;
};

ordered_json listed(const ChecksMet& checks) {
  ordered_json list = ordered_json::array();
  for (const NamedCheck* check : checks) {
    list.push_back({{"name", check->name}, {"counts", check->counts}});
  }
  return list;
}

ordered_json member_entry(const MemberResult& m, Reasons& reasons) {
  const Stress& s = m.worst.stress;
  const auto stress = [&](double value) {
    return m.has_stress ? number(value * MPa_per_Pa) : ordered_json(nullptr);
  };
  ordered_json used = ordered_json::array(), why = ordered_json::array();
  for (const auto& [name, check] : named_checks(m.checks)) {
    used.push_back(optional_number(check->utilisation, 1));
    why.push_back(reasons.number_of(*check));
  }
  const bool classed = m.checks.section_class > 0;
  ordered_json weld_at = nullptr;
  if (m.checks.weld.utilisation) weld_at = m.checks.weld_end == 0 ? "from" : "to";
  return {{"N", number(m.N)},
          {"axial", stress(s.axial)},
          {"bending", stress(s.bending)},
          {"shear", stress(s.shear)},
          {"von_mises", stress(s.von_mises)},
          {"where", m.has_stress ? number(m.worst.where) : ordered_json(nullptr)},
          {"class", classed ? ordered_json(m.checks.section_class) : ordered_json(nullptr)},
          {"weld_at", weld_at},
          {"used", used},
          {"why", why}};
}

/// `entry` with what is used by each of the checks `wanted` and why one was not made, null where
/// the part has none of that name; `lacks`: which of them should have a number and have none.
ordered_json with_use(ordered_json entry, const std::vector<NamedCheck>& checks,
                      const ChecksMet& wanted, Reasons& reasons) {
  ordered_json used = ordered_json::array(), why = ordered_json::array();
  ordered_json lacks = ordered_json::array();
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    const auto check = std::find_if(checks.begin(), checks.end(),
                                    [&](const NamedCheck& c) { return c.name == wanted[k]->name; });
    const bool made = check != checks.end();
    used.push_back(made ? optional_number(check->result.utilisation, 1) : ordered_json(nullptr));
    why.push_back(made ? reasons.number_of(check->result) : ordered_json(nullptr));
    if (made && lacks_number(check->result)) lacks.push_back(k);
  }
  entry["used"] = std::move(used);
  entry["why"] = std::move(why);
  entry["lacks"] = std::move(lacks);
  return entry;
}

ordered_json panel_entry(const PanelResult& p, const ChecksMet& checks, Reasons& reasons) {
  return with_use({{"flow", number(p.flow * N_mm_per_N_m)},
                   {"stress", number(p.shear_stress * MPa_per_Pa)},
                   {"critical", number(p.critical_stress * MPa_per_Pa)},
                   {"kept", number(p.stage.secant_ratio)},
                   {"rivet", optional_number(p.rivet_load, 1)},
                   {"bond", optional_number(p.bond_peak, MPa_per_Pa)}},
                  p.checks, checks, reasons);
}

ordered_json attachment_entry(const AttachmentResult& a, const ChecksMet& checks,
                              Reasons& reasons) {
  ordered_json entry;
  entry["force"] = numbers(a.forces.hole);
  return with_use(std::move(entry), a.checks, checks, reasons);
}

ordered_json gusset_entry(const GussetResult& g, const ChecksMet& checks, Reasons& reasons) {
  ordered_json entry;
  entry["force"] = number(g.force);
  return with_use(std::move(entry), g.checks, checks, reasons);
}

/// Of each node three displacements in mm and three rotations in degrees.
ordered_json movements(const Frame& frame, const CaseResult& result) {
  ordered_json list = ordered_json::array();
  const Eigen::VectorXd& u = result.solution.displacements;
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    const Eigen::Index dof = 6 * static_cast<Eigen::Index>(n);
    ordered_json entry = numbers(u.segment<3>(dof), mm_per_m);
    for (const ordered_json& turn : numbers(u.segment<3>(dof + 3), degrees_per_radian)) {
      entry.push_back(turn);
    }
    list.push_back(std::move(entry));
  }
  return list;
}

ordered_json moves_most(const Frame& frame, const CaseResult& result) {
  const int n = std::max(0, result.largest_node);
  const Eigen::Vector3d u = result.solution.displacements.segment<3>(6 * n) * mm_per_m;
  return {{"node", frame.nodes[static_cast<std::size_t>(n)].name},
          {"by", number(u.norm())},
          {"vector", numbers(u)}};
}

ordered_json reactions(const Analysis& analysis, const CaseResult& result) {
  ordered_json list = ordered_json::array();
  for (const int n : held_nodes(analysis, result)) {
    const auto r = result.solution.reactions.segment<6>(6 * n);
    list.push_back({{"node", analysis.frame.nodes[static_cast<std::size_t>(n)].name},
                    {"force", numbers(r.head<3>())},
                    {"moment", numbers(r.tail<3>())}});
  }
  return list;
}

ordered_json pick_ups(const Frame& frame, const CaseResult& result) {
  ordered_json list = ordered_json::array();
  for (const PickUp& p : result.pick_ups) {
    list.push_back({{"node", frame.nodes[static_cast<std::size_t>(p.node)].name},
                    {"force", numbers(p.force)}});
  }
  return list;
}

ordered_json slack_cables(const Frame& frame, const CaseResult& result) {
  ordered_json list = ordered_json::array();
  for (std::size_t i = 0; i < result.members.size(); ++i) {
    if (result.members[i].slack) list.push_back(frame.members[i].name);
  }
  return list;
}

/// Of each wheel what the ground does to it; empty unless the frame is driven.
ordered_json wheel_entries(const CaseResult& result) {
  ordered_json list = ordered_json::array();
  if (!result.driving) return list;
  for (const TyreForce& w : result.driving->wheels) {
    list.push_back({{"force", numbers(w.total())},
                    {"lifted", w.lifted},
                    {"friction", number(w.friction_used)}});
  }
  return list;
}

/// How the frame is accelerated, in g and degrees/s2; null unless it is driven.
ordered_json driving_entry(const Frame& frame, const CaseResult& result) {
  if (!result.driving) return nullptr;
  const Balance& b = result.driving->balance;
  return {{"acceleration", numbers(b.acceleration, 1 / frame.gravity)},
          {"angular", numbers(b.angular, degrees_per_radian)},
          {"restraint", number(b.restraint_force)},
          {"tips", result.driving->tips}};
}

ordered_json second_order_entry(const CaseResult& result) {
  if (!result.second_order) return nullptr;
  return {{"converged", result.second_order->converged},
          {"growth", number(result.second_order->growth)}};
}

/// How the file describes the case, and how it ends.
ordered_json head_of_case(const Frame& frame, const CaseResult& result) {
  const auto described = std::find_if(frame.cases.begin(), frame.cases.end(),
                                      [&](const Case& c) { return c.name == result.name; });
  const bool in_file = described != frame.cases.end();
  return {{"name", result.name},
          {"note", in_file ? described->note : ""},
          {"rare", in_file && described->rare},
          {"reserve", number(result.safety_factor)},
          {"passes", result.passes()},
          {"worst", worst_json(result.worst)}};
}

ordered_json case_entry(const Analysis& analysis, const CaseResult& result,
                        const ChecksOfParts& checks, Reasons& reasons) {
  const Frame& frame = analysis.frame;
  ordered_json members = ordered_json::array(), panels = ordered_json::array();
  ordered_json attachments = ordered_json::array(), gussets = ordered_json::array();
  for (const MemberResult& m : result.members) members.push_back(member_entry(m, reasons));
  for (const PanelResult& p : result.panels) {
    panels.push_back(panel_entry(p, checks.panels, reasons));
  }
  for (const AttachmentResult& a : result.attachments) {
    attachments.push_back(attachment_entry(a, checks.attachments, reasons));
  }
  for (const GussetResult& g : result.gussets) {
    gussets.push_back(gusset_entry(g, checks.gussets, reasons));
  }
  ordered_json c = head_of_case(frame, result);
  c["nodes"] = movements(frame, result);
  c["members"] = std::move(members);
  c["panels"] = std::move(panels);
  c["attachments"] = std::move(attachments);
  c["gussets"] = std::move(gussets);
  c["wheels"] = wheel_entries(result);
  c["reactions"] = reactions(analysis, result);
  c["pick_ups"] = pick_ups(frame, result);
  c["slack"] = slack_cables(frame, result);
  c["driving"] = driving_entry(frame, result);
  c["moves_most"] = moves_most(frame, result);
  c["out_of_balance"] = {{"force", number(result.solution.equilibrium.force)},
                         {"moment", number(result.solution.equilibrium.moment)}};
  c["sway_factor"] = optional_number(result.sway_factor, 1);
  c["sways"] = result.sways_in_suspension ? "suspension" : "frame";
  c["load_reached"] = result.large ? number(result.large->reached) : ordered_json(nullptr);
  c["second_order"] = second_order_entry(result);
  return c;
}

}  // namespace

ReportCases report_cases(const Analysis& analysis) {
  ReportCases r;
  r.checks = member_checks();
  const ChecksOfParts checks = {checks_met(analysis, &CaseResult::panels),
                                checks_met(analysis, &CaseResult::attachments),
                                checks_met(analysis, &CaseResult::gussets)};
  r.panel_checks = listed(checks.panels);
  r.attachment_checks = listed(checks.attachments);
  r.gusset_checks = listed(checks.gussets);
  r.cases = ordered_json::array();
  Reasons reasons;
  for (const CaseResult& result : analysis.cases) {
    r.cases.push_back(case_entry(analysis, result, checks, reasons));
  }
  r.reasons = reasons.list();
  return r;
}

}  // namespace tubewright
