#include "io/report/report_rules.h"

#include <map>
#include <set>

#include "io/report/five_digits.h"
#include "io/results/analysis_parts.h"
#include "io/results/sources.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

std::string equilibrium_assumed(const AnalysisOptions& options) {
  if (options.second_order) {
    return "Axial forces, times the reserve, act on the displaced frame (second order).";
  }
  if (options.large_displacement) {
    return "Equilibrium is that of the deformed frame, however far it bends; sheets have no part.";
  }
  return "Equilibrium is that of the undeformed frame (linear).";
}

}  // namespace

ordered_json report_clauses(const Analysis& analysis) {
  std::map<std::string, std::set<std::string>> rules = clauses_followed(analysis);
  for (const CaseResult& c : analysis.cases) {
    for (const PanelResult& p : c.panels) {
      for (const NamedCheck& check : p.checks) {
        if (check.result.clause.empty()) continue;
        rules["panel " + check.name].insert(check.result.clause);
      }
    }
  }
  ordered_json list = ordered_json::object();
  for (const auto& [name, set] : rules) list[name] = set;
  return list;
}

ordered_json report_sources() {
  ordered_json list = ordered_json::array();
  for (const RuleSource& r : rule_sources()) {
    list.push_back({{"subject", r.subject}, {"rule", r.rule}, {"source", r.source}});
  }
  return list;
}

std::vector<std::string> report_assumptions(const Analysis& analysis) {
  std::vector<std::string> list = {
      analysis.joints.rigid ? "Tubes are beams between nodes, their shear included; joints are "
                              "rigid, but for releases."
                            : "Tubes are beams between nodes, their shear included; joints give "
                              "way by their geometry "
                              "and releases.",
      "Loads are multiplied by the reserve of the case before they are held against what is "
      "allowed.",
      equilibrium_assumed(analysis.options)};
  if (!analysis.frame.vehicle) return list;
  list.emplace_back(
      "Nothing holds the vehicle: wheel loads follow from statics and every mass is "
      "accelerated so that forces and moments close. Displacements are measured from the "
      "frame's own mean motion.");
  if (analysis.vehicle) {
    list.push_back("Friction of the tyres " +
                   ordered_json(five_digits(analysis.vehicle->friction)).dump() +
                   (analysis.frame.vehicle->friction ? ", as given." : ", as usual on dry roads."));
  }
  return list;
}

}  // namespace tubewright
