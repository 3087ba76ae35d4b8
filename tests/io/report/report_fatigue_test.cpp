// Fatigue in the report's data against io/report/DATA.md, from results filled in by hand.
#include "io/report/report_fatigue.h"

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::report_fatigue_test {

using nlohmann::json;

TEST_CASE("fatigue tells what the frame goes through and the worse end of each tube") {
  FrameStudies studies = reportable_studies();
  CHECK(report_fatigue(studies).is_null());
  FatigueScreening f;
  f.counts = true;
  f.category = 36e6;
  f.gamma_Mf = 1.35;
  f.source = "the file";
  f.blocks = {{"1 g up and down", 2e5}};
  f.members.resize(studies.analysis.frame.members.size());
  f.members[0] = {1, {20e6}, 36e6, 0.25, 8e5, {0.5, "", ""}};
  f.members[1].result.reason = "not welded";
  studies.fatigue = f;
  const json data = report_fatigue(studies);
  CHECK(data["counts"] == true);
  CHECK_THAT(data["category"].get<double>(), WithinRel(36.0, 1e-12));
  CHECK(data["spectrum"] == json({{{"what", "1 g up and down"}, {"cycles", 2e5}}}));
  REQUIRE(data["members"].size() == 4);
  const json& sill = data["members"][0];
  CHECK(sill["name"] == "sill_1");
  CHECK(sill["end"] == "B");  // it runs from A to B
  CHECK(sill["utilisation"] == 0.5);
  CHECK_THAT(sill["ranges"][0].get<double>(), WithinRel(20.0, 1e-12));
  CHECK(sill["reason"].is_null());
  const json& post = data["members"][1];
  for (const char* key : {"end", "utilisation", "ranges", "damage", "cycles"}) {
    CHECK(post[key].is_null());
  }
  CHECK(post["reason"] == "not welded");
}

}  // namespace tubewright::report_fatigue_test
