#include "io/report/report_data.h"

#include <filesystem>

#include "io/report/five_digits.h"
#include "io/report/report_cases.h"
#include "io/report/report_changes.h"
#include "io/report/report_fatigue.h"
#include "io/report/report_frame.h"
#include "io/report/report_rides.h"
#include "io/report/report_rules.h"
#include "io/report/report_verdict.h"
#include "io/results/analysis_parts.h"
#include "io/results/cautions.h"
#include "io/results/floor_output.h"
#include "io/results/json_parts.h"
#include "io/results/stability_output.h"
#include "io/results/torsion_output.h"
#include "io/rides/ride_output.h"
#include "io/text/version.h"
#include "io/workshop/cut_output.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

/// Five significant digits everywhere; what is not finite is null already.
ordered_json rounded(ordered_json value) {
  if (value.is_number_float()) return five_digits(value.get<double>());
  if (value.is_structured()) {
    for (auto& entry : value) entry = rounded(std::move(entry));
  }
  return value;
}

/// The file's name without its folder.
std::string input_name(const FrameText& file) {
  return file.name == "<stdin>" || file.name == "-"
             ? "standard input"
             : std::filesystem::path(file.name).filename().string();
}

void add_head(const ReportSource& s, ordered_json& d) {
  const Analysis& analysis = s.studies.analysis;
  const MassSummary& mass = analysis.mass;
  d["schema"] = "tubewright-report/1";
  d["version"] = version();
  d["date"] = s.date;
  d["title"] = analysis.frame.title;
  d["analysis"] = analysis_name(analysis);
  d["input"] = {{"name", input_name(s.file)}, {"text", s.file.text}};
  d["verdict"] = report_verdict(s.studies);
  d["mass"] = {{"tubes", mass.tubes},
               {"panels", mass.panels},
               {"carried", mass.carried},
               {"total", mass.total},
               {"centre", numbers(mass.centre, mm_per_m)}};
  d["vehicle"] = vehicle_json(analysis);
}

void add_cases(const Analysis& analysis, ordered_json& d) {
  ReportCases r = report_cases(analysis);
  d["checks"] = std::move(r.checks);
  d["panel_checks"] = std::move(r.panel_checks);
  d["attachment_checks"] = std::move(r.attachment_checks);
  d["gusset_checks"] = std::move(r.gusset_checks);
  d["cases"] = std::move(r.cases);
  d["reasons"] = std::move(r.reasons);
}

/// Null where there are none.
void add_studies(const FrameStudies& s, ordered_json& d) {
  const Frame& frame = s.analysis.frame;
  const ordered_json none = nullptr;
  d["what_ifs"] = what_ifs_json(s.what_ifs);
  d["fatigue"] = report_fatigue(s);
  d["torsion"] = s.torsion ? torsion_part(frame, *s.torsion) : none;
  d["floor"] = s.floor ? floor_part(*s.floor) : none;
  d["modes"] = s.modes ? modes_list(*s.modes) : none;
  d["buckling"] = s.buckling ? buckling_list(*s.buckling) : none;
  const bool shown = frame.members.size() <= large_frame && s.cut && s.sheets;
  d["cut"] = shown ? cut_part(frame, *s.cut, *s.sheets) : none;
}

/// What to know before the answers are believed.
void add_limits(const ReportSource& s, ordered_json& d) {
  const Analysis& analysis = s.studies.analysis;
  Diagnostics warnings = s.warnings;
  warnings.insert(warnings.end(), analysis.remarks.begin(), analysis.remarks.end());
  d["warnings"] = diagnostics_json(warnings);
  d["by_comparison"] = comparisons(analysis);
  d["not_checked"] = checks_not_made(s.studies);
  d["clauses"] = report_clauses(analysis);
  d["sources"] = report_sources();
  d["assumptions"] = s.rides == nullptr ? report_assumptions(analysis) : ride_assumptions(*s.rides);
  d["cautions"] = s.rides == nullptr ? cautions() : ride_cautions(*s.rides);
}

}  // namespace

ordered_json report_data(const ReportSource& source) {
  ordered_json d;
  add_head(source, d);
  add_frame(source.studies.analysis.frame, source.studies.analysis.model, d);
  add_cases(source.studies.analysis, d);
  add_studies(source.studies, d);
  const Frame& frame = source.studies.analysis.frame;
  d["rank"] = source.rank == nullptr ? ordered_json(nullptr) : report_rank(frame, *source.rank);
  d["losses"] = source.losses == nullptr ? ordered_json(nullptr) : report_losses(*source.losses);
  d["rides"] = source.rides == nullptr ? ordered_json(nullptr) : report_rides(*source.rides);
  add_limits(source, d);
  return rounded(std::move(d));
}

}  // namespace tubewright
