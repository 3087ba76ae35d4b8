// Pieces of an analysis that results.json and report.html both tell.
#pragma once

#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/verdict/what_if.h"

namespace tubewright {

/// "linear", "second_order", "large_displacement"
const char* analysis_name(const Analysis& analysis);

nlohmann::ordered_json worst_json(const std::optional<Worst>& worst);

/// The nodes that hold the frame in a case, ascending; of a vehicle those of its restraints.
std::vector<int> held_nodes(const Analysis& analysis, const CaseResult& result);

/// "grip of the rear tyres", "nose-over"
const char* braking_limit_words(Deceleration::Limit limit);

/// How the vehicle stands and what it can do; accelerations in g. Null without one.
nlohmann::ordered_json vehicle_json(const Analysis& analysis);

/// The clauses that the checks of members followed, by check.
std::map<std::string, std::set<std::string>> clauses_followed(const Analysis& analysis);

nlohmann::ordered_json what_ifs_json(const std::vector<WhatIf>& what_ifs);

}  // namespace tubewright
