// What the answers of a report rest on: clauses, sources, assumptions.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"

namespace tubewright {

/// The clauses that the checks of this analysis followed, by check.
nlohmann::ordered_json report_clauses(const Analysis& analysis);

/// Where every rule comes from.
nlohmann::ordered_json report_sources();

/// What was taken for granted, a sentence each.
std::vector<std::string> report_assumptions(const Analysis& analysis);

}  // namespace tubewright
