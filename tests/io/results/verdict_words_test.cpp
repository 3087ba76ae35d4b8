// The verdict in words and in JSON, of results filled in by hand.
#include "io/results/verdict_words.h"

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::verdict_words_test {

TEST_CASE("the verdict of a passing frame names the governing member, case and share") {
  const FrameStudies s = passing_studies();
  CHECK(verdict(s) ==
        "PASS: closest to its limit, sill_1 in case brake is at 0.87 of its yield limit");
  CHECK(exit_code(s) == 0);
}

TEST_CASE("the verdict of a failing frame says what fails and by how much") {
  const FrameStudies s = hand_made_studies();
  CHECK(verdict(s) == "FAIL: sill_1 in case bump is at 1.24 of its yield limit");
  CHECK(exit_code(s) == 1);
}

TEST_CASE("a frame on which no check could be made does not read as passing") {
  FrameStudies s = passing_studies();
  Analysis& analysis = s.analysis;
  analysis.cases[0].worst.reset();
  for (MemberResult& member : analysis.cases[0].members) {
    member.checks.yield = {std::nullopt, "nothing known", "", false};
  }
  s.verdict = verdict_of(analysis, {}, {});
  CHECK(verdict(s).starts_with("NOT PROVEN: "));
  CHECK(exit_code(s) == 1);
}

TEST_CASE("a number just above its limit does not read as at its limit") {
  FrameStudies s = passing_studies();
  s.analysis.cases[0].worst->utilisation = 1.0004;
  s.verdict = verdict_of(s.analysis, {}, {});
  CHECK_THAT(verdict(s), ContainsSubstring("1.0004"));
}

TEST_CASE("JSON has the answer, the counts and each reason") {
  FrameStudies s = hand_made_studies();
  const nlohmann::ordered_json v = verdict_json(s.verdict);
  CHECK(v["answer"] == "fail");
  CHECK(v["checks_made"] == 2);      // yield of two tubes
  CHECK(v["checks_not_made"] == 2);  // their buckling
  CHECK(v["reasons"][0] == "sill_1 in case bump is at 1.24 of its yield limit");
  CHECK(verdict_json(passing_studies().verdict)["answer"] == "pass");
}

TEST_CASE("each answer has a word for people and one for JSON") {
  CHECK(answer_key(Verdict::Answer::pass) == std::string("pass"));
  CHECK(answer_key(Verdict::Answer::not_proven) == std::string("not_proven"));
  CHECK(answer_key(Verdict::Answer::fail) == std::string("fail"));
  CHECK(answer_word(Verdict::Answer::not_proven) == std::string("NOT PROVEN"));
}

TEST_CASE("colour paints the first word and nothing else") {
  const FrameStudies s = passing_studies();
  CHECK(verdict(s, Paint{true}).starts_with("\x1b[32mPASS\x1b[0m: "));
}

}  // namespace tubewright::verdict_words_test
