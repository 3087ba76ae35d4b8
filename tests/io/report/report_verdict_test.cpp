// The verdict in the report's data against io/report/DATA.md, from results filled in by hand.
#include "io/report/report_verdict.h"

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_verdict_test {

using nlohmann::json;

TEST_CASE("the verdict is a sentence of its own, and none where nothing could be checked") {
  FrameStudies studies = reportable_studies();
  const json verdict = report_verdict(studies);
  CHECK(verdict["passes"] == false);
  CHECK(verdict["worst"]["case"] == "bump");
  const std::string sentence = verdict["sentence"];
  CHECK(sentence.starts_with("Sill_1 in case bump is loaded to 1.24"));
  CHECK(sentence.back() == '.');
  studies.analysis.cases.resize(1);
  CHECK(report_verdict(studies)["passes"] == true);
  studies.analysis.cases[0].worst.reset();
  CHECK(report_verdict(studies)["passes"].is_null());
  CHECK(report_verdict(studies)["worst"].is_null());
}

}  // namespace tubewright::report_verdict_test
