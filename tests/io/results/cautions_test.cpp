// What a result does not mean: sentences that are whole, and what was not checked counted by hand.
#include "io/results/cautions.h"

#include <algorithm>
#include <cctype>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::cautions_test {

namespace {

bool holds(const std::vector<std::string>& lines, const std::string& line) {
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

bool any_begins(const std::vector<std::string>& lines, const std::string& start) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& line) { return line.starts_with(start); });
}

}  // namespace

TEST_CASE("every caution is a sentence from its capital to its full stop") {
  for (const auto& list : {cautions(), torsion_cautions(), floor_cautions(), bench_cautions(),
                           modes_cautions(), buckling_cautions()}) {
    for (const std::string& line : list) {
      INFO(line);
      CHECK(std::isupper(static_cast<unsigned char>(line.front())));
      CHECK(line.back() == '.');
      CHECK(line.find("  ") == std::string::npos);
      CHECK(line.find('\n') == std::string::npos);
    }
  }
}

TEST_CASE("every command says what concerns it first and then what concerns all") {
  const std::vector<std::string> usual = cautions();
  REQUIRE(usual.size() == 3);
  for (const auto& list : {torsion_cautions(), floor_cautions(), bench_cautions(), modes_cautions(),
                           buckling_cautions()}) {
    REQUIRE(list.size() > usual.size());
    CHECK(std::equal(usual.begin(), usual.end(), list.end() - 3));
    CHECK_FALSE(holds(usual, list.front()));
  }
}

TEST_CASE("a check that was not made is counted once a member, however many cases say so") {
  const FrameStudies s = hand_made_studies();  // two cases alike
  const std::vector<std::string> list = checks_not_made(s);
  CHECK(holds(list, "buckling: not made by this version (2 members)"));
  CHECK(holds(list, "weld: a spring has no section (2 members)"));
  CHECK(any_begins(list, "fatigue: "));
  FrameStudies one = s;
  one.analysis.cases[0].members[1].checks.yield = {std::nullopt, "no strength", "", true};
  CHECK(holds(checks_not_made(one), "yield: no strength (1 member)"));
  one.analysis.cases[0].members[1].checks.yield.needed = false;
  CHECK_FALSE(any_begins(checks_not_made(one), "yield: no strength"));
}

TEST_CASE("a check made beyond what its rule is for is told, though it has a number") {
  FrameStudies s = hand_made_studies();
  for (CaseResult& c : s.analysis.cases) {
    c.members[0].checks.weld = {0.3, "thinner than the rule", "EN 1993-1-8 4.5.3", true, true};
    c.members[1].checks.weld = {0.3, "", "EN 1993-1-8 4.5.3"};
  }
  CHECK(holds(checks_not_made(s), "weld: thinner than the rule (1 member)"));
}

TEST_CASE("limits that another command answers are told as not checked here") {
  FrameStudies s = hand_made_studies();
  CHECK_FALSE(any_begins(checks_not_made(s), "torsional stiffness: "));
  s.analysis.frame.limits.torsional_stiffness = 1000;
  s.analysis.frame.limits.frequency = 10;
  s.analysis.frame.limits.deflection = 0.01;
  CHECK(any_begins(checks_not_made(s), "torsional stiffness: "));
  CHECK(any_begins(checks_not_made(s), "frequency: "));
  CHECK_FALSE(any_begins(checks_not_made(s), "deflection: "));
  s.analysis.cases[0].driving = DrivingState{};  // the frame has a spring
  CHECK(any_begins(checks_not_made(s), "deflection: "));
  s.fatigue = FatigueScreening{};
  CHECK_FALSE(any_begins(checks_not_made(s), "fatigue: "));
  s.fatigue->members.resize(3);
  s.fatigue->members[0].result = {0.5, "", "EN 1993-1-9"};
  s.fatigue->members[1].result = {std::nullopt, "no rule for it", "", false};
  s.fatigue->members[2].result.reason = "of another metal";
  CHECK(holds(checks_not_made(s), "fatigue: of another metal (1 member)"));
  CHECK_FALSE(any_begins(checks_not_made(s), "fatigue: no rule"));
}

}  // namespace tubewright::cautions_test
