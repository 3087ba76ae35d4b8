// The sheets of a case in the summary, from panels filled in by hand.
#include "io/summary/panel_summary.h"

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"
#include "tests/io/text_lines.h"

namespace tubewright::panel_summary_test {

using testing::line_with;

namespace {

PanelResult panel(double flow, double utilisation, const char* check) {
  PanelResult p;
  p.flow = flow;
  p.critical_stress = 2.14e6;
  p.checks.push_back({"buckling", {3.0, "", ""}, false});  // for information: does not count
  p.checks.push_back({"yield", {0.01, "", ""}, true});
  p.checks.push_back({check, {utilisation, "", ""}, true});
  return p;
}

/// Panels `p0`, `p1` and so on of these utilisations by rivet shear.
Analysis clad(const std::vector<double>& utilisations) {
  Analysis a = hand_made_studies().analysis;
  for (size_t i = 0; i < utilisations.size(); ++i) {
    a.frame.panels.push_back({"p" + std::to_string(i), {}, "sheet", {}});
    a.cases[0].panels.push_back(panel(6000, utilisations[i], "rivet_shear"));
  }
  return a;
}

std::string rows(const Analysis& a) { return panel_rows(a, a.cases[0], {}); }

}  // namespace

TEST_CASE("panels over the limit are those of a check that counts above 1") {
  CHECK(failing_panels(clad({0.5, 1.0, 1.01, 2}).cases[0]) == std::vector<int>{2, 3});
  CHECK(failing_panels(clad({}).cases[0]).empty());
}

TEST_CASE("a panel's line tells its check, its flow in N/mm, its rivets and its state") {
  Analysis a = clad({0.75});
  CHECK_THAT(rows(a), ContainsSubstring("0.75  pass  rivet shear"));
  CHECK_THAT(rows(a), ContainsSubstring("6.00 N/mm"));
  CHECK_THAT(rows(a), ContainsSubstring("flat, buckles at 2.14 MPa\n"));
  PanelResult& p = a.cases[0].panels[0];
  p.stage = {0.18, 0.823, 1000};
  p.rivet_load = 323.4;
  CHECK_THAT(rows(a), ContainsSubstring("323 N  buckled beyond 2.14 MPa, keeps 82 %\n"));
  p.checks[2].result.utilisation = 1.5;
  CHECK_THAT(rows(a), ContainsSubstring("1.50  FAIL"));
  p.checks.clear();
  CHECK_THAT(line_with(rows(a), "p0"), ContainsSubstring("       -        -  "));
}

TEST_CASE("five panels are shown, the nearest to their limit first, and a frame without has none") {
  CHECK(rows(clad({})).empty());
  const std::string text = rows(clad({0.1, 0.6, 0.2, 0.9, 0.3, 0.4, 0.5}));
  size_t before = 0;
  for (const char* name : {"p3", "p1", "p6", "p5", "p4"}) {
    const size_t here = text.find(name);
    REQUIRE(here != std::string::npos);
    CHECK(here > before);
    before = here;
  }
  CHECK_THAT(text, !ContainsSubstring("p2") && !ContainsSubstring("p0"));
  CHECK_THAT(text, ContainsSubstring("and 2 more, none of them nearer its limit\n"));
}

}  // namespace tubewright::panel_summary_test
