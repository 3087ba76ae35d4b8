// report.html: one file with its style, script and data inside.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/analysis/analysis.h"

namespace tubewright {

/// `data`: of report_data(); `summary`: what readers without scripts get, without colour. Text of
/// the user is escaped wherever it goes.
std::string report_page(const nlohmann::ordered_json& data, const Frame& frame,
                        const std::string& summary);

}  // namespace tubewright
