// One case of the summary, line by line, from results filled in by hand.
#include "io/summary/case_summary.h"

#include <algorithm>
#include <sstream>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::case_summary_test {

namespace {

/// Case `brake` of the hand-made studies.
struct Braking {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  CaseResult& result = analysis.cases[0];

  std::string text(Paint paint = {}) const { return case_summary(analysis, result, paint); }

  std::string line(const std::string& part) const {
    std::istringstream lines(text());
    for (std::string line; std::getline(lines, line);) {
      if (line.find(part) != std::string::npos) return line;
    }
    return {};
  }
};

}  // namespace

TEST_CASE("members over the limit are those above 1, the limit itself is within") {
  Braking b;
  CHECK(failing_members(b.result).empty());
  b.result.members[1].checks.yield.utilisation = 1.0;
  CHECK(failing_members(b.result).empty());
  b.result.members[1].checks.section.utilisation = 1.0001;  // any check will do
  CHECK(failing_members(b.result) == std::vector<int>{1});
  b.result.members[0].checks.weld = {3, "", ""};
  CHECK(failing_members(b.result) == std::vector<int>{0, 1});
}

TEST_CASE("a case is headed by its verdict, its rarity and its note") {
  Braking b;
  CHECK_THAT(b.text(), ContainsSubstring("case brake: pass\n  on a dry road\n"));
  b.analysis.frame.cases[0].rare = true;
  CHECK_THAT(b.text(),
             ContainsSubstring("pass\n  rare, so held against the yield strength itself\n"));
  b.result.members[0].checks.yield.utilisation = b.result.worst->utilisation = 1.5;
  CHECK_THAT(b.text(), ContainsSubstring("case brake: FAIL, 1 of 4 members over the limit"));
  b.result.worst.reset();
  CHECK_THAT(b.text(), ContainsSubstring("case brake: no check could be made"));
}

TEST_CASE("a member whose weld decides is told at that weld, else where its stress is greatest") {
  Braking b;
  CHECK_THAT(b.line("sill_1"), ContainsSubstring("120 mm from A"));
  CHECK_THAT(b.line("post"), ContainsSubstring("at C"));
  b.result.members[0].checks.weld = {0.9, "", ""};
  b.result.members[0].checks.weld_end = 1;
  CHECK_THAT(b.line("sill_1"), ContainsSubstring("weld"));
  CHECK_THAT(b.line("sill_1"), ContainsSubstring("at B"));
  // A place is told from the nearer end: B C is half a metre long.
  b.result.members[1].worst.where = 0.9;
  CHECK_THAT(b.line("post"), ContainsSubstring("  50 mm from C"));
  CHECK_THAT(b.line("coil"), ContainsSubstring("-"));  // a spring has no stress
  CHECK_THAT(b.line("coil"), ContainsSubstring("15.0 N"));
}

TEST_CASE("unchecked members come last, by stress, and the rest is counted") {
  Braking b;
  for (int i = 0; i < 3; ++i) {
    Member member = b.analysis.frame.members[0];
    member.name = "plain_" + std::to_string(i);
    b.analysis.frame.members.push_back(member);
    MemberResult unchecked = b.result.members[0];
    unchecked.checks.yield.utilisation.reset();
    unchecked.worst.stress.von_mises = 1e6 * (i + 1);
    b.result.members.push_back(unchecked);
    b.analysis.slots.push_back({true, 0});
  }
  const std::string text = b.text();
  CHECK(text.find("sill_1") < text.find("post"));
  CHECK(text.find("post") < text.find("plain_2"));
  CHECK(text.find("plain_2") < text.find("plain_1"));
  CHECK_THAT(text, !ContainsSubstring("coil"));
  CHECK_THAT(text, ContainsSubstring("and 2 more, none of them nearer its limit\n"));
}

TEST_CASE("sway, second order and slack cables are told where there are any") {
  Braking b;
  CHECK(b.line("sway").empty());
  CHECK(b.line("second order").empty());
  b.result.sway_factor = 4.567;
  b.result.second_order = SecondOrderFacts{true, 1.2344};
  CHECK(b.line("  sway") == "  sway          the joints give way at 4.57 times the design loads");
  b.result.sways_in_suspension = true;
  CHECK(b.line("  sway") ==
        "  sway          the suspension gives way at 4.57 times the design loads");
  CHECK(b.line("second order") ==
        "  second order  movements grow to 1.234 times those of first order");
  b.result.second_order->converged = false;
  CHECK(b.line("second order").empty());
  CHECK(b.line("  slack") == "  slack         stay");
  b.result.members[3].slack = false;
  CHECK(b.line("  slack").empty());
}

TEST_CASE("movement is told with its parts, and from what a vehicle's is measured") {
  Braking b;
  // sqrt(1 + 16) mm
  CHECK(b.line("moves most") == "  moves most    C by 4.12 mm (x 1.00, y 0.00, z -4.00)");
  CHECK_FALSE(b.line("supports give").empty());
  b.result.driving = DrivingState{};
  CHECK(b.line("moves most").ends_with("from the mean motion"));
  CHECK(b.line("supports give").empty());
  b.result.large = LargeMotion{};
  CHECK(b.line("moves most").ends_with("from the nodes that hold the vehicle"));
  b.result.solution.displacements.setZero();
  CHECK(b.line("no node moves") == "  no node moves");
}

}  // namespace tubewright::case_summary_test
