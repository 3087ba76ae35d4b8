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

TEST_CASE("welds on walls below 4 mm are a comparison, on thicker ones they are checked") {
  // EN 1993-1-8 4.1(1), from memory.
  FrameStudies s = hand_made_studies();
  for (const double wall : {0.002, 0.004}) {
    SectionEntry tube;
    tube.name = std::to_string(wall);
    tube.wall = wall;
    s.analysis.frame.sections.push_back(tube);
  }
  s.analysis.frame.members[0].section = s.analysis.frame.sections[0].name;
  s.analysis.frame.members[1].section = s.analysis.frame.sections[1].name;
  CHECK_FALSE(any_begins(checks_not_made(s), "weld: made by rules"));  // no weld check was made
  for (size_t m : {size_t{0}, size_t{1}}) {
    s.analysis.cases[1].members[m].checks.weld = {0.3, "", "EN 1993-1-8 4.5.3"};
  }
  const std::vector<std::string> list = checks_not_made(s);
  CHECK(any_begins(list, "weld: made by rules for walls of 4 mm"));
  CHECK(std::any_of(list.begin(), list.end(), [](const std::string& line) {
    return line.starts_with("weld: made by") && line.ends_with("no proof (1 member)");
  }));
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
}

}  // namespace tubewright::cautions_test
