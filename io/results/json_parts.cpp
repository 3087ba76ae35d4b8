#include "io/results/json_parts.h"

#include <cmath>
#include <utility>

#include "io/results/cautions.h"
#include "io/text/version.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

constexpr const char* schema_name = "tubewright-results/1";

ordered_json diagnostic_json(const Diagnostic& problem, const std::string& file) {
  ordered_json entry = {{"severity", problem.severity == Severity::error ? "error" : "warning"},
                        {"message", problem.message}};
  if (!problem.advice.empty()) entry["advice"] = problem.advice;
  if (problem.place.line > 0) {
    if (!file.empty()) entry["file"] = file;
    entry["line"] = problem.place.line;
    entry["column"] = problem.place.column;
  }
  return entry;
}

}  // namespace

ordered_json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  return value + 0.0;  // turns -0 into 0
}

ordered_json optional_number(const std::optional<double>& value, double factor) {
  return value ? number(*value * factor) : ordered_json(nullptr);
}

ordered_json diagnostics_json(const Diagnostics& diagnostics, const std::string& file) {
  ordered_json list = ordered_json::array();
  for (const Diagnostic& problem : diagnostics) list.push_back(diagnostic_json(problem, file));
  return list;
}

void start_results(JsonLines& out, const Frame& frame, bool passes, const Diagnostics& warnings,
                   const std::vector<std::string>& not_checked) {
  out.row("schema", schema_name);
  out.row("version", version());
  out.row("axes", "iso8855");
  out.row("frame", frame.title);
  out.row("passes", passes);
  out.row("warnings", diagnostics_json(warnings));
  out.row("not_checked", not_checked);
  out.row("cautions", cautions());
}

void write_mass(JsonLines& out, const MassSummary& mass) {
  out.open("mass");
  out.row("tubes", number(mass.tubes));
  out.row("panels", number(mass.panels));
  out.row("carried", number(mass.carried));
  out.row("total", number(mass.total));
  out.row("centre", numbers(mass.centre, mm_per_m));
  out.close();
}

std::string error_json(const Diagnostics& diagnostics, const std::string& file) {
  return error_json(std::vector<FaultsOfFile>{{diagnostics, file}});
}

std::string error_json(const std::vector<FaultsOfFile>& files) {
  ordered_json problems = ordered_json::array();
  for (const FaultsOfFile& faults : files) {
    for (ordered_json& problem : diagnostics_json(faults.diagnostics, faults.file)) {
      problems.push_back(std::move(problem));
    }
  }
  JsonLines out;
  out.row("schema", schema_name);
  out.row("version", version());
  out.open("error");
  out.row("problems", problems);
  out.close();
  return out.finish();
}

}  // namespace tubewright
