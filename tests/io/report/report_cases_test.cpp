// The load cases in the report's data against io/report/DATA.md, from results filled in by hand.
#include "io/report/report_cases.h"

#include <cmath>
#include <set>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_cases_test {

using nlohmann::json;

TEST_CASE("a case tells movements in mm and degrees, reactions by name and slack cables") {
  const json c = report_cases(reportable_studies().analysis).cases[0];
  const double degrees = 180 / std::acos(-1.0);
  for (const auto& [i, value] : {std::pair{size_t{0}, 1.0}, {size_t{2}, -4.0}}) {
    CHECK_THAT(c["nodes"][2][i].get<double>(), WithinAbs(value, 1e-9));
  }
  CHECK_THAT(c["nodes"][2][5].get<double>(), WithinRel(0.03 * degrees, 1e-12));
  CHECK(c["reactions"][0] ==
        json({{"node", "A"}, {"force", {10.0, 20.0, 500.0}}, {"moment", {1.0, 2.0, 3.0}}}));
  CHECK(c["reactions"].size() == 2);
  CHECK(c["slack"] == json({"stay"}));
  CHECK(c["moves_most"]["node"] == "C");
  CHECK_THAT(c["moves_most"]["by"].get<double>(), WithinRel(std::sqrt(17.0), 1e-12));
  CHECK(c["members"][2]["von_mises"].is_null());
  CHECK(c["members"][0]["where"] == 0.12);
}

TEST_CASE("every reason is listed once, and a check refers to its own") {
  const ReportCases r = report_cases(reportable_studies().analysis);
  std::set<std::string> seen;
  for (const std::string& reason : r.reasons) CHECK(seen.insert(reason).second);
  CHECK(seen == std::set<std::string>{"not made by this version", "a spring has no section"});
  const json sill = r.cases[1]["members"][0], coil = r.cases[1]["members"][2];
  for (size_t k = 0; k < r.checks.size(); ++k) {
    const std::string name = r.checks[k]["name"];
    if (name == "yield") {
      CHECK(sill["used"][k] == 1.24);
      CHECK(sill["why"][k].is_null());
      CHECK(r.reasons[coil["why"][k].get<size_t>()] == "a spring has no section");
    }
    if (name == "weld") {
      CHECK(r.reasons[sill["why"][k].get<size_t>()] == "not made by this version");
    }
  }
}

TEST_CASE("checks of panels stand in the order met, null where a panel has none of a name") {
  Analysis analysis = reportable_studies().analysis;
  PanelResult first, second;
  first.checks = {{"rivet", {0.5, "", ""}, true}};
  second.checks = {{"kept", {0.25, "", ""}, false}, {"rivet", {{}, "no strength", ""}, true}};
  for (CaseResult& c : analysis.cases) c.panels = {first, second};
  const ReportCases r = report_cases(analysis);
  CHECK(json(r.panel_checks) ==
        json({{{"name", "rivet"}, {"counts", true}}, {{"name", "kept"}, {"counts", false}}}));
  const json panels = r.cases[1]["panels"];
  CHECK(panels[0]["used"] == json({0.5, nullptr}));
  CHECK(panels[0]["why"] == json({nullptr, nullptr}));
  CHECK(panels[1]["used"] == json({nullptr, 0.25}));
  CHECK(r.reasons[panels[1]["why"][0].get<size_t>()] == "no strength");
}

TEST_CASE("attachments and gussets tell the force on them and which checks lack their number") {
  Analysis analysis = reportable_studies().analysis;
  AttachmentResult ear;
  ear.forces.hole = {300, -40, 0};
  ear.checks = {{"face", {0.5, "thin walls", "Table 7.13", true, true}},
                {"weak_way", not_needed("both faces hold it")},
                {"bolt", not_made("no `bolt` is given")}};
  const GussetResult corner = {-1234, {{"weld", {1.1, "", "EN 1993-1-8 4.5.3.3"}}}};
  for (CaseResult& c : analysis.cases) {
    c.attachments = {ear};
    c.gussets = {corner};
  }
  const ReportCases r = report_cases(analysis);
  CHECK(json(r.attachment_checks) == json({{{"name", "face"}, {"counts", true}},
                                           {{"name", "weak_way"}, {"counts", true}},
                                           {{"name", "bolt"}, {"counts", true}}}));
  CHECK(r.gusset_checks[0]["name"] == "weld");
  const json told = r.cases[1]["attachments"][0];
  CHECK(told["force"] == json({300.0, -40.0, 0.0}));
  CHECK(told["used"] == json({0.5, nullptr, nullptr}));
  CHECK(told["lacks"] == json::array({2}));
  CHECK(r.reasons[told["why"][0].get<size_t>()] == "thin walls");
  CHECK(r.reasons[told["why"][2].get<size_t>()] == "no `bolt` is given");
  const json gusset = r.cases[1]["gussets"][0];
  CHECK(gusset["force"] == -1234.0);
  CHECK(gusset["used"] == json::array({1.1}));
  CHECK(gusset["lacks"] == json::array());
}

TEST_CASE("a case that is driven tells of its wheels, one that is not has none") {
  Analysis analysis = reportable_studies().analysis;
  DrivingState& state = analysis.cases[0].driving.emplace();
  state.wheels.resize(2);
  state.wheels[1].at_contact.z() = 300;
  state.wheels[0].lifted = true;
  state.balance.acceleration = {-0.5 * analysis.frame.gravity, 0, 0};
  state.tips = true;
  const ReportCases r = report_cases(analysis);
  const json driven = r.cases[0], standing = r.cases[1];
  REQUIRE(driven["wheels"].size() == 2);
  CHECK(driven["wheels"][0]["lifted"] == true);
  CHECK(driven["wheels"][1]["force"] == json({0.0, 0.0, 300.0}));
  CHECK_THAT(driven["driving"]["acceleration"][0].get<double>(), WithinRel(-0.5, 1e-12));
  CHECK(driven["driving"]["tips"] == true);
  CHECK(standing["wheels"].empty());
  CHECK(standing["driving"].is_null());
}

}  // namespace tubewright::report_cases_test
