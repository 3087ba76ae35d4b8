// The load cases of the report: what each member, panel, attachment, gusset, node and
// wheel does in each of them.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"

namespace tubewright {

/// The checks and the cases. What a case tells of its checks stands in the order of these lists;
/// why one was not made is a number in `reasons`, where every reason stands once.
struct ReportCases {
  nlohmann::ordered_json checks;             ///< of members
  nlohmann::ordered_json panel_checks;       ///< those that occur, in the order met
  nlohmann::ordered_json attachment_checks;  ///< the same
  nlohmann::ordered_json gusset_checks;      ///< the same
  nlohmann::ordered_json cases;
  std::vector<std::string> reasons;
};

ReportCases report_cases(const Analysis& analysis);

}  // namespace tubewright
