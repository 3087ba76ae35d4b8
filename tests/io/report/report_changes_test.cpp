#include "io/report/report_changes.h"

#include "io/changes/loss_output.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/catch.h"

namespace tubewright::report_changes_tests {

using namespace tubewright::testing;

TEST_CASE("the report has what each member is worth, groups by their members, and diagonals") {
  const Frame f = ring_box_in_torsion();
  const RankStudy study = answer_of(rank_study(f));
  const auto data = report_rank(f, study);
  CHECK(data["worth"].size() == f.members.size());
  for (const auto& worth : data["worth"]) CHECK(worth.is_number());
  CHECK(data["groups"].size() == study.groups.size());
  const auto& group = data["groups"][0];
  CHECK(group["name"] == study.groups[0].name);
  CHECK(group["members"] == study.groups[0].members);
  CHECK(group["up"]["size"].get<std::string>().ends_with(" x 1.5"));
  for (const char* key : {"mass", "stiffness", "worst", "mechanism", "passes"}) {
    CHECK(group["without"].contains(key));
    CHECK(data["whole"].contains(key));
  }
  CHECK(data["diagonals"].size() == study.diagonals.size());
  CHECK(data["diagonals"][0]["tubes"].size() == study.diagonals[0].tubes.size());
}

TEST_CASE("the report has every loss, and which welds to inspect by their place among them") {
  Frame f = ring_box_in_torsion();
  for (NodeAction& force : f.cases[0].forces) force.value *= 1.6;
  const LossStudy study = answer_of(loss_study(f));
  const auto data = report_losses(study);
  REQUIRE(data["losses"].size() == study.losses.size());
  CHECK(data["losses"][0]["kind"] == "tube");
  CHECK(data["losses"][0]["member"] == 0);
  CHECK(data["losses"][0]["redundancy"].is_number());
  CHECK(data["losses"].back()["kind"] == "weld");
  CHECK(data["losses"].back()["redundancy"].is_null());
  CHECK_FALSE(data["inspect"].empty());
  for (const int i : data["inspect"]) {
    CHECK(data["losses"][static_cast<size_t>(i)]["must_hold"] == true);
  }
  CHECK(data["sentence"] == loss_sentence(study));
}

}  // namespace tubewright::report_changes_tests
