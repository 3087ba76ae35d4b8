// Clauses and assumptions in the report's data, from results filled in by hand: no source but
// io/report/DATA.md.
#include "io/report/report_rules.h"

#include "io/results/sources.h"
#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_rules_test {

using nlohmann::json;

namespace {

std::string joined(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += sentence + "\n";
  return text;
}

}  // namespace

TEST_CASE("clauses of panels stand beside those of members, each once") {
  Analysis analysis = reportable_studies().analysis;
  PanelResult panel;
  panel.checks = {{"rivet", {0.5, "", "EN 1999-1-1 8.5"}}, {"kept", {0.1, "", ""}}};
  for (CaseResult& c : analysis.cases) c.panels = {panel, panel};
  const json clauses = report_clauses(analysis);
  CHECK(clauses["panel rivet"] == json({"EN 1999-1-1 8.5"}));
  CHECK(clauses["yield"] == json({"EN 1993-1-1 6.2.1(5)"}));
  CHECK_FALSE(clauses.contains("panel kept"));  // it follows no clause
}

TEST_CASE("every rule has its row of sources") {
  const json sources = report_sources();
  REQUIRE(sources.size() == rule_sources().size());
  for (const json& row : sources) {
    for (const char* key : {"subject", "rule", "source"}) {
      CHECK_FALSE(row[key].get<std::string>().empty());
    }
  }
}

TEST_CASE("assumptions say how joints are taken") {
  Analysis analysis = reportable_studies().analysis;
  analysis.joints.rigid = true;
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("joints are rigid"));
  analysis.joints.rigid = false;
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("by their geometry"));
}

TEST_CASE("assumptions say which equilibrium was looked for") {
  Analysis analysis = reportable_studies().analysis;
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("(linear)"));
  analysis.options.second_order = true;
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("(second order)"));
  analysis.options = {false, true};
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("the deformed frame"));
}

TEST_CASE("assumptions of a vehicle tell the friction of its tyres and who said so") {
  Analysis analysis = reportable_studies().analysis;
  CHECK_THAT(joined(report_assumptions(analysis)), !ContainsSubstring("vehicle"));
  analysis.frame.vehicle.emplace();
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("Nothing holds the vehicle"));
  analysis.vehicle.emplace().friction = 0.8;
  CHECK_THAT(joined(report_assumptions(analysis)),
             ContainsSubstring("tyres 0.8, as usual on dry roads."));
  analysis.vehicle->friction = 1.0 / 3;
  analysis.frame.vehicle->friction = analysis.vehicle->friction;
  CHECK_THAT(joined(report_assumptions(analysis)), ContainsSubstring("tyres 0.33333, as given."));
}

}  // namespace tubewright::report_rules_test
