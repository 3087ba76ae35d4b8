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

TEST_CASE("a comparison is told once with how many members it concerns, whatever the cases") {
  FrameStudies s = hand_made_studies();
  CHECK(comparisons(s.analysis).empty());
  for (CaseResult& c : s.analysis.cases) {
    for (const std::size_t m : {0, 1}) {
      c.members[m].checks.weld_at[0] = {0.3, "walls below 4 mm", "", true, true};
    }
    c.members[0].checks.joint_at[1] = {std::nullopt, "on an edge", "", true, true};  // no number
  }
  CHECK(comparisons(s.analysis) == std::vector<std::string>{"weld: walls below 4 mm (2 members)"});
}

TEST_CASE("a comparison beyond several ranges is counted under each") {
  FrameStudies s = hand_made_studies();
  CaseResult& c = s.analysis.cases[0];
  c.members[0].checks.joint_at[0] = {0.3, "thin walls; a sharp corner", "", true, true};
  c.members[1].checks.joint_at[0] = {0.3, "thin walls", "", true, true};
  CHECK(comparisons(s.analysis) == std::vector<std::string>{"joint: thin walls (2 members)",
                                                            "joint: a sharp corner (1 member)"});
}

TEST_CASE("what is not looked at is told of what the frame has") {
  FrameStudies s = hand_made_studies();
  CHECK(any_begins(not_looked_at(s.analysis), "links, springs and cables (2 members): "));
  CHECK_FALSE(any_begins(not_looked_at(s.analysis), "sheets: "));
  CHECK_FALSE(any_begins(not_looked_at(s.analysis), "supports: "));
  s.analysis.frame.panels.emplace_back();
  s.analysis.frame.supports.emplace_back();
  CHECK(any_begins(not_looked_at(s.analysis), "sheets: "));
  CHECK_FALSE(any_begins(not_looked_at(s.analysis), "aluminium on steel: "));
  s.analysis.frame.sheets.emplace_back().material = "EN AW-5754-H22";
  s.analysis.frame.sections.emplace_back().material = "S235";
  CHECK(any_begins(not_looked_at(s.analysis), "aluminium on steel: "));
  CHECK(any_begins(not_looked_at(s.analysis), "supports: "));
}

TEST_CASE("what is not proven stands before what is not looked at") {
  FrameStudies s = hand_made_studies();
  const std::vector<std::string> list = checks_not_made(s);
  REQUIRE_FALSE(s.verdict.not_proven.empty());
  CHECK(list.front() == s.verdict.not_proven.front());
  CHECK(any_begins(list, "fatigue: "));
  s.fatigue = FatigueScreening{};
  CHECK_FALSE(any_begins(checks_not_made(s), "fatigue: "));
  s.fatigue->members.resize(3);
  s.fatigue->members[0].result = {0.5, "", "EN 1993-1-9"};
  s.fatigue->members[1].result = {std::nullopt, "no rule for it", "", false};
  s.fatigue->members[2].result.reason = "of another metal";
  CHECK(holds(checks_not_made(s), "fatigue: of another metal (1 member)"));
  CHECK_FALSE(any_begins(checks_not_made(s), "fatigue: no rule"));
}

TEST_CASE(
    "pick-ups are named until an attachment stands there; its comparisons are counted apart") {
  FrameStudies s = hand_made_studies();
  const std::vector<std::string> bare = pick_ups_without_attachment(s.analysis.frame);
  REQUIRE_FALSE(bare.empty());
  CHECK(any_begins(not_looked_at(s.analysis), "pick-ups without an attachment (" + bare[0]));
  for (const std::string& node : bare) s.analysis.frame.attachments.emplace_back().name = node;
  CHECK_FALSE(any_begins(not_looked_at(s.analysis), "pick-ups"));
  CHECK(any_begins(not_looked_at(s.analysis), "attachments: "));
  CaseResult& c = s.analysis.cases[0];
  for (int i = 0; i < 2; ++i) {
    c.attachments.emplace_back().checks = {{"plate_net", {0.1, "thin walls", "", true, true}}};
  }
  CHECK(comparisons(s.analysis) ==
        std::vector<std::string>{"plate net: thin walls (2 attachments)"});
}

}  // namespace tubewright::cautions_test
