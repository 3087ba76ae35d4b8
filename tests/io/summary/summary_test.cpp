#include "io/summary/summary.h"

#include <sstream>

#include "io/results/verdict_words.h"
#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"
#include "tests/io/text_lines.h"

namespace tubewright::summary_test {

using testing::line_with;

TEST_CASE("the summary begins and ends with the verdict, below it title, mass and its centre") {
  for (const FrameStudies& studies : {hand_made_studies(), passing_studies()}) {
    const std::string text = summary(studies), line = verdict(studies) + "\n";
    CHECK(text.starts_with(line));
    CHECK(text.ends_with("\n" + line));
    CHECK(text.find("School pedal quad\n") < text.find("63.25 kg"));
    CHECK_THAT(text, ContainsSubstring("x 500, y 0, z 310 mm"));
  }
}

TEST_CASE("a member's line tells utilisation, verdict, stress, axial force and the worst place") {
  const std::string line = line_with(summary(hand_made_studies()), "yield     sill_1");
  CHECK_THAT(line, ContainsSubstring("0.87"));
  CHECK_THAT(line, ContainsSubstring("pass"));
  CHECK_THAT(line, ContainsSubstring("136.2 MPa"));
  CHECK_THAT(line, ContainsSubstring("812 N"));
  CHECK_THAT(line, ContainsSubstring("120 mm from A"));
}

TEST_CASE("a place is told from the nearer end") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.cases[0].members[0].worst.where = 0.75;
  CHECK_THAT(line_with(summary(studies), "yield     sill_1"), ContainsSubstring("250 mm from B"));
}

TEST_CASE("a failing member says so in a word, not only in colour") {
  const std::string text = summary(hand_made_studies());
  CHECK_THAT(text, ContainsSubstring("1.24  FAIL"));
  CHECK_THAT(text, !ContainsSubstring("\x1b"));
}

TEST_CASE("at most five members are shown, those nearest their limit first") {
  FrameStudies studies = passing_studies();
  Analysis& analysis = studies.analysis;
  for (int i = 0; i < 6; ++i) {
    Member member = analysis.frame.members[0];
    member.name = "extra_" + std::to_string(i);
    analysis.frame.members.push_back(member);
    MemberResult result = analysis.cases[0].members[0];
    result.checks.yield.utilisation = 0.2 + 0.1 * i;
    analysis.cases[0].members.push_back(result);
    analysis.slots.push_back({true, 0});
  }
  const std::string text = summary(studies);
  CHECK(text.find("sill_1") < text.find("extra_5"));
  CHECK(text.find("extra_5") < text.find("extra_2"));
  CHECK_THAT(text, !ContainsSubstring("extra_1"));
  CHECK_THAT(text, ContainsSubstring("and 5 more"));
}

TEST_CASE("the node that moves most, the sum of reactions, balance and slack cables are told") {
  const std::string text = summary(passing_studies());
  CHECK_THAT(text, ContainsSubstring("C by 4.12 mm (x 1.00, y 0.00, z -4.00)"));
  CHECK_THAT(line_with(text, "supports give"), ContainsSubstring("x 0.0, y 20.0, z 750.5 N"));
  CHECK_THAT(line_with(text, "out of balance"), ContainsSubstring("3e-14"));
  CHECK_THAT(line_with(text, "slack"), ContainsSubstring("stay"));
}

TEST_CASE("what is not proven stands above the cases, what passed below") {
  FrameStudies studies = passing_studies();
  studies.analysis.cases[0].members[1].checks.buckling = {std::nullopt, "no length", "", true};
  studies.verdict = verdict_of(studies.analysis, {}, {});
  const std::string text = summary(studies);
  CHECK(text.find("not proven: post: no buckling check, no length") < text.find("case brake"));
  CHECK_THAT(text, ContainsSubstring("exit code 1: answered, nothing fails"));
}

TEST_CASE("the exit code is told in words") {
  CHECK_THAT(summary(passing_studies()), ContainsSubstring("exit code 0"));
  CHECK_THAT(summary(hand_made_studies()),
             ContainsSubstring("exit code 1: answered, something fails"));
}

TEST_CASE("what is not looked at and the cautions are part of every summary") {
  const std::string text = summary(hand_made_studies());
  CHECK_THAT(text, ContainsSubstring("the tube wall under their tabs"));
  CHECK_THAT(text, ContainsSubstring("licensed engineering practice"));
  CHECK_THAT(text, ContainsSubstring("crash"));
  CHECK_THAT(text, ContainsSubstring("take precedence"));
}

TEST_CASE("no line of the summary is wider than 100 columns") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.frame.members[0].name = "rear_bulkhead_brace_to_1";
  analysis.frame.members[0].from = "rear_bulkhead_low_r";
  analysis.cases[0].members[0].N = -1234567.8;
  analysis.cases[0].worst->item = analysis.frame.members[0].name;
  analysis.cases[1].name = "braking_downhill_in_a_left_turn_on_wet_cobbles";
  analysis.frame.cases[1].name = analysis.cases[1].name;
  analysis.cases[1].worst->item = analysis.frame.members[0].name;
  studies.verdict = verdict_of(analysis, {}, {});
  std::istringstream lines(summary(studies));
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(line.size() <= 100);
  }
}

TEST_CASE("colour changes nothing but colour") {
  std::string painted = summary(hand_made_studies(), {true});
  CHECK_THAT(painted, ContainsSubstring("\x1b[1;31mFAIL\x1b[0m"));
  for (std::size_t start; (start = painted.find('\x1b')) != std::string::npos;) {
    painted.erase(start, painted.find('m', start) - start + 1);
  }
  CHECK(painted == summary(hand_made_studies()));
}

TEST_CASE("a title cannot drive the terminal") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.frame.title = "quad\x1b[2J";
  CHECK_THAT(summary(studies), !ContainsSubstring("\x1b"));
}

}  // namespace tubewright::summary_test
