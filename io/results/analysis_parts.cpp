#include "io/results/analysis_parts.h"

#include <algorithm>

#include "io/results/json_parts.h"

namespace tubewright {

const char* braking_limit_words(Deceleration::Limit limit) {
  switch (limit) {
    case Deceleration::Limit::front_grip:
      return "grip of the front tyres";
    case Deceleration::Limit::rear_grip:
      return "grip of the rear tyres";
    case Deceleration::Limit::nose_over:
      return "nose-over: the rear wheels lift";
    case Deceleration::Limit::none:
      break;
  }
  return "no brakes";
}

using nlohmann::ordered_json;

const char* analysis_name(const Analysis& analysis) {
  if (analysis.options.large_displacement) return "large_displacement";
  return analysis.options.second_order ? "second_order" : "linear";
}

ordered_json worst_json(const std::optional<Worst>& worst) {
  if (!worst) {
    return {{"check", nullptr},
            {"item", nullptr},
            {"utilisation", nullptr},
            {"reason", "no check could be made in this case"}};
  }
  return {
      {"check", worst->check}, {"item", worst->item}, {"utilisation", number(worst->utilisation)}};
}

std::vector<int> held_nodes(const Analysis& analysis, const CaseResult& result) {
  if (result.driving) return result.driving->restrained;
  std::vector<int> nodes;
  for (const Support& support : analysis.model.supports) nodes.push_back(support.node);
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

ordered_json vehicle_json(const Analysis& analysis) {
  if (!analysis.vehicle) return nullptr;
  const VehicleFacts& v = *analysis.vehicle;
  const double g = analysis.frame.gravity;
  ordered_json standing;
  for (std::size_t w = 0; w < v.standing.size(); ++w) {
    standing[analysis.frame.vehicle->wheels[w].name] = number(v.standing[w]);
  }
  return {{"standing", standing},
          {"inertia",
           {numbers(v.mass.inertia.row(0)), numbers(v.mass.inertia.row(1)),
            numbers(v.mass.inertia.row(2))}},
          {"sprung", v.sprung},
          {"friction", number(v.friction)},
          {"reachable_braking", number(v.braking.greatest / g)},
          {"braking_limited_by", braking_limit_words(v.braking.limit)},
          {"tips_at",
           {{"braking", number(v.tipping.braking / g)},
            {"driving", number(v.tipping.driving / g)},
            {"left_turn", number(v.tipping.left_turn / g)},
            {"right_turn", number(v.tipping.right_turn / g)}}}};
}

std::map<std::string, std::set<std::string>> clauses_followed(const Analysis& analysis) {
  std::map<std::string, std::set<std::string>> rules;
  for (const CaseResult& result : analysis.cases) {
    for (const MemberResult& member : result.members) {
      for (const auto& [name, check] : named_checks(member.checks)) {
        if (check->utilisation && !check->clause.empty()) rules[name].insert(check->clause);
      }
    }
    for (const AttachmentResult& attachment : result.attachments) {
      for (const NamedCheck& check : attachment.checks) {
        if (!check.result.utilisation || check.result.clause.empty()) continue;
        rules["attachment_" + check.name].insert(check.result.clause);
      }
    }
    for (const GussetResult& gusset : result.gussets) {
      for (const NamedCheck& check : gusset.checks) {
        if (!check.result.utilisation || check.result.clause.empty()) continue;
        rules["gusset_" + check.name].insert(check.result.clause);
      }
    }
  }
  return rules;
}

ordered_json what_ifs_json(const std::vector<WhatIf>& what_ifs) {
  ordered_json list = ordered_json::array();
  for (const WhatIf& w : what_ifs) {
    ordered_json entry = {{"change", w.words}, {"utilisation", nullptr}};
    if (w.worst) {
      entry["utilisation"] = number(w.worst->utilisation);
      entry["check"] = w.worst->check;
      entry["item"] = w.worst->item;
      entry["case"] = w.worst->load_case;
    }
    list.push_back(std::move(entry));
  }
  return list;
}

}  // namespace tubewright
