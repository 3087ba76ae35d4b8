// The verdict in the report's data against io/report/DATA.md, from results filled in by hand.
#include "io/report/report_verdict.h"

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_verdict_test {

using nlohmann::json;

TEST_CASE("the verdict is an answer, a word and a sentence of its own") {
  const json verdict = report_verdict(reportable_studies());
  CHECK(verdict["answer"] == "fail");
  CHECK(verdict["word"] == "FAIL");
  CHECK(verdict["worst"]["case"] == "bump");
  const std::string sentence = verdict["sentence"];
  CHECK(sentence.starts_with("Sill_1 in case bump is at 1.24"));
  CHECK(sentence.back() == '.');
}

TEST_CASE("a frame that passes has its answer, and nothing nearest where there is none") {
  FrameStudies studies = passing_studies();
  CHECK(report_verdict(studies)["answer"] == "pass");
  studies.analysis.cases[0].worst.reset();
  CHECK(report_verdict(studies)["worst"].is_null());
}

}  // namespace tubewright::report_verdict_test
