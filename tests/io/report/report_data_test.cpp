// The data of report.html against io/report/DATA.md, from results filled in by hand.
#include "io/report/report_data.h"

#include <limits>
#include <nlohmann/json.hpp>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_data_test {

using nlohmann::json;

namespace {

json data_of(const FrameStudies& studies, const std::string& text = "",
             const std::string& name = "somewhere/quad.yaml", const Diagnostics& warnings = {}) {
  const FrameText file{name, text};
  return report_data({studies, warnings, file, "2026-01-31"});
}

}  // namespace

TEST_CASE("the report's data hold every case, and the file's name without its folder") {
  const FrameStudies studies = reportable_studies();
  const Analysis& analysis = studies.analysis;
  const auto data = data_of(studies, "frame: x\n");
  CHECK(data["schema"] == "tubewright-report/1");
  CHECK(data["input"]["name"] == "quad.yaml");
  CHECK(data["cases"].size() == analysis.cases.size());
  for (const auto& c : data["cases"]) {
    CHECK(c["members"].size() == analysis.frame.members.size());
    CHECK(c["nodes"].size() == analysis.frame.nodes.size());
    for (const auto& m : c["members"]) {
      REQUIRE(m["used"].size() == data["checks"].size());
      for (size_t k = 0; k < m["used"].size(); ++k) {
        if (!m["why"][k].is_null()) CHECK(m["why"][k].get<size_t>() < data["reasons"].size());
      }
    }
  }
}

TEST_CASE("numbers have five significant digits") {
  FrameStudies studies = reportable_studies();
  Analysis& analysis = studies.analysis;
  analysis.mass.total = 123.456789;
  CHECK(data_of(studies)["mass"]["total"] == 123.46);
  analysis.cases[0].members[0].N = -0.00123456;
  analysis.cases[0].members[1].N = std::numeric_limits<double>::infinity();
  const json members = data_of(studies)["cases"][0]["members"];
  CHECK(members[0]["N"] == -0.0012346);
  CHECK(members[1]["N"].is_null());
}

TEST_CASE("the data have every key that their description lists, at the top and in a case") {
  const json data = data_of(reportable_studies());
  for (const char* key :
       {"schema",        "version",     "date",    "title",        "analysis",
        "input",         "verdict",     "mass",    "vehicle",      "materials",
        "sections",      "nodes",       "members", "panels",       "supports",
        "masses",        "wheels",      "checks",  "panel_checks", "attachment_checks",
        "gusset_checks", "attachments", "gussets", "reasons",      "cases",
        "what_ifs",      "fatigue",     "torsion", "floor",        "modes",
        "buckling",      "cut",         "rank",    "losses",       "rides",
        "warnings",      "not_checked", "clauses", "sources",      "assumptions",
        "cautions"}) {
    INFO(key);
    CHECK(data.contains(key));
  }
  for (const char* key :
       {"name",        "note",     "rare",         "reserve",     "passes",     "worst",
        "nodes",       "members",  "panels",       "attachments", "gussets",    "wheels",
        "reactions",   "pick_ups", "slack",        "driving",     "moves_most", "out_of_balance",
        "sway_factor", "sways",    "load_reached", "second_order"}) {
    INFO(key);
    CHECK(data["cases"][0].contains(key));
  }
  for (const char* key : {"vehicle", "fatigue", "torsion", "floor", "modes", "buckling", "cut",
                          "rank", "losses", "rides"}) {
    CHECK(data[key].is_null());
  }
}

TEST_CASE("warnings of the file come before remarks, and text typed in has no file name") {
  FrameStudies studies = reportable_studies();
  studies.analysis.remarks = {{Severity::warning, {}, "a remark", ""}};
  const Diagnostics warnings = {{Severity::warning, {3, 1}, "a warning", ""}};
  for (const char* name : {"-", "<stdin>"}) {
    const json data = data_of(studies, "x", name, warnings);
    CHECK(data["input"] == json({{"name", "standard input"}, {"text", "x"}}));
    REQUIRE(data["warnings"].size() == 2);
    CHECK(data["warnings"][0]["message"] == "a warning");
    CHECK(data["warnings"][0]["line"] == 3);
    CHECK(data["warnings"][1]["message"] == "a remark");
  }
  CHECK(data_of(studies)["date"] == "2026-01-31");
}

}  // namespace tubewright::report_data_test
