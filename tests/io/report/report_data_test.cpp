// The data of report.html against io/report/DATA.md, from results filled in by hand.
#include "io/report/report_data.h"

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>

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
       {"schema",   "version",     "date",      "title",    "analysis",     "input",    "verdict",
        "mass",     "vehicle",     "materials", "sections", "nodes",        "members",  "panels",
        "supports", "masses",      "wheels",    "checks",   "panel_checks", "reasons",  "cases",
        "what_ifs", "fatigue",     "torsion",   "floor",    "modes",        "buckling", "cut",
        "warnings", "not_checked", "clauses",   "sources",  "assumptions",  "cautions"}) {
    INFO(key);
    CHECK(data.contains(key));
  }
  for (const char* key :
       {"name", "note", "rare", "reserve", "passes", "worst", "nodes", "members", "panels",
        "wheels", "reactions", "pick_ups", "slack", "driving", "moves_most", "out_of_balance",
        "sway_factor", "load_reached", "second_order"}) {
    INFO(key);
    CHECK(data["cases"][0].contains(key));
  }
  for (const char* key : {"vehicle", "fatigue", "torsion", "floor", "modes", "buckling", "cut"}) {
    CHECK(data[key].is_null());
  }
}

TEST_CASE("parts are told in mm and degrees and refer to nodes and sections by number") {
  FrameStudies studies = reportable_studies();
  Frame& f = studies.analysis.frame;
  f.members[0].roll = std::acos(-1.0) / 4;
  f.members[0].release_to[5] = 0;
  f.supports.push_back({"B", {true, false, true, false, false, true}, {}, {}});
  const json data = data_of(studies);
  CHECK(data["nodes"][2] == json({{"name", "C"}, {"at", {1000.0, 0.0, 500.0}}}));
  CHECK(data["members"][0] == json({{"name", "sill_1"},
                                    {"kind", "beam"},
                                    {"from", 0},
                                    {"to", 1},
                                    {"section", 0},
                                    {"roll", 45.0},
                                    {"pinned", {false, true}},
                                    {"tube", nullptr}}));
  CHECK(data["members"][2]["section"].is_null());  // a spring
  CHECK(data["members"][2]["pinned"] == json({true, true}));
  CHECK(data["supports"] == json({{{"node", 1}, {"holds", {"x", "z", "rz"}}}}));
  CHECK(data["sections"][0] == json({{"name", "tube"},
                                     {"shape", "square_tube"},
                                     {"height", 25.0},
                                     {"width", 25.0},
                                     {"wall", 2.0},
                                     {"material", "S235"}}));
  // EN 1993-1-1 3.2.6: E 210 GPa, and the yield strength that the grade is named after.
  CHECK(data["materials"][0]["E"] == 210000.0);
  CHECK(data["materials"][0]["yield"] == 235.0);
}

TEST_CASE("a case tells movements in mm and degrees, reactions by name and slack cables") {
  const json c = data_of(reportable_studies())["cases"][0];
  const double degrees = 180 / std::acos(-1.0);
  for (const auto& [i, value] : {std::pair{size_t{0}, 1.0}, {size_t{2}, -4.0}}) {
    CHECK_THAT(c["nodes"][2][i].get<double>(), WithinAbs(value, 1e-9));
  }
  CHECK_THAT(c["nodes"][2][5].get<double>(), WithinRel(0.03 * degrees, 1e-4));
  CHECK(c["reactions"][0] ==
        json({{"node", "A"}, {"force", {10.0, 20.0, 500.0}}, {"moment", {1.0, 2.0, 3.0}}}));
  CHECK(c["reactions"].size() == 2);
  CHECK(c["slack"] == json({"stay"}));
  CHECK(c["moves_most"]["node"] == "C");
  CHECK_THAT(c["moves_most"]["by"].get<double>(), WithinAbs(std::sqrt(17.0), 5e-5));
  CHECK(c["members"][2]["von_mises"].is_null());
  CHECK(c["members"][0]["where"] == 0.12);
}

TEST_CASE("every reason is listed once, and a check refers to its own") {
  const json data = data_of(reportable_studies());
  std::set<std::string> seen;
  for (const json& reason : data["reasons"]) CHECK(seen.insert(reason.get<std::string>()).second);
  CHECK(seen == std::set<std::string>{"not made by this version", "a spring has no section"});
  const json sill = data["cases"][1]["members"][0], coil = data["cases"][1]["members"][2];
  for (size_t k = 0; k < data["checks"].size(); ++k) {
    const std::string name = data["checks"][k]["name"];
    if (name == "yield") {
      CHECK(sill["used"][k] == 1.24);
      CHECK(sill["why"][k].is_null());
      CHECK(data["reasons"][coil["why"][k].get<size_t>()] == "a spring has no section");
    }
    if (name == "weld") {
      CHECK(data["reasons"][sill["why"][k].get<size_t>()] == "not made by this version");
    }
  }
}

TEST_CASE("the verdict is a sentence of its own, and none where nothing could be checked") {
  FrameStudies studies = reportable_studies();
  const json verdict = data_of(studies)["verdict"];
  CHECK(verdict["passes"] == false);
  CHECK(verdict["worst"]["case"] == "bump");
  const std::string sentence = verdict["sentence"];
  CHECK(sentence.starts_with("Sill_1 in case bump is loaded to 1.24"));
  CHECK(sentence.back() == '.');
  studies.analysis.cases.resize(1);
  CHECK(data_of(studies)["verdict"]["passes"] == true);
  studies.analysis.cases[0].worst.reset();
  CHECK(data_of(studies)["verdict"]["passes"].is_null());
  CHECK(data_of(studies)["verdict"]["worst"].is_null());
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
