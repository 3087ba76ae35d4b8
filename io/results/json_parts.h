// What every JSON answer is made of.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/model/mass_summary.h"
#include "io/text/json_lines.h"
#include "io/text/workshop_units.h"

namespace tubewright {

/// Null where it is not finite; never -0.
nlohmann::ordered_json number(double value);

/// Null where there is none.
nlohmann::ordered_json optional_number(const std::optional<double>& value, double factor);

template <typename Vector>
nlohmann::ordered_json numbers(const Vector& values, double factor = 1) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (Eigen::Index i = 0; i < values.size(); ++i) list.push_back(number(values[i] * factor));
  return list;
}

nlohmann::ordered_json diagnostics_json(const Diagnostics& diagnostics,
                                        const std::string& file = {});

/// Schema, version, axes, title, verdict, warnings, what was not checked, cautions.
void start_results(JsonLines& out, const Frame& frame, bool passes, const Diagnostics& warnings,
                   const std::vector<std::string>& not_checked);

void write_mass(JsonLines& out, const MassSummary& mass);

/// The object given instead when there is no answer: its `error` lists the problems with their
/// places in `file` (empty if they concern no file).
std::string error_json(const Diagnostics& diagnostics, const std::string& file = {});

/// The same of several files.
struct FaultsOfFile {
  Diagnostics diagnostics;
  std::string file;
};
std::string error_json(const std::vector<FaultsOfFile>& files);

}  // namespace tubewright
