#include "io/changes/rank_output.h"

#include <nlohmann/json.hpp>

#include "tests/cases/changes/ring_box.h"
#include "tests/catch.h"

namespace tubewright::rank_output_tests {

using namespace tubewright::testing;

TEST_CASE("rank as JSON has each tube alone, groups under their first tube, and the diagonals") {
  const Frame f = ring_box_in_torsion();
  const RankStudy study = answer_of(rank_study(f));
  const auto json = nlohmann::json::parse(rank_json(f, study, {}));
  const auto& rank = json.at("rank");
  CHECK(rank.at("tubes").size() == 20);
  const auto& tube = rank.at("tubes").at("lb0-lb1");
  CHECK(tube.at("mass").get<double>() > 0);
  CHECK(tube.at("stiffness_per_wall").get<double>() > 0);
  CHECK(tube.at("removable").is_boolean());
  const auto& up = tube.at("next_up");
  CHECK(up.at("section").at("shape") == "square_tube");
  CHECK(up.at("section").at("side").get<double>() > 0);
  CHECK(up.at("section").at("wall").get<double>() > 0);
  CHECK(up.at("mass").get<double>() > tube.at("mass").get<double>());
  CHECK(up.at("stiffness").get<double>() > 0);
  CHECK(up.at("utilisation").get<double>() > 0);
  CHECK(rank.at("groups").at("lb0-lb1").at("tubes") == nlohmann::json({"lb0-lb1", "rb0-rb1"}));
  const auto& diagonal = rank.at("diagonals").at(0);
  for (const char* key : {"from", "to", "mass", "stiffness_per_kg"}) CHECK(diagonal.contains(key));
  for (const char* how : {"pinned", "welded"}) {
    CHECK(diagonal.at(how).at("stiffness").get<double>() > 0);
  }
  CHECK(rank.at("best").is_string());
}

TEST_CASE("per mm of wall is a thousandth of per metre, in N m/deg") {
  const Frame f = ring_box_in_torsion();
  const RankStudy study = answer_of(rank_study(f));
  const auto json = nlohmann::json::parse(rank_json(f, study, {}));
  const double printed = json.at("rank").at("tubes").at("lb0-lb1").at("stiffness_per_wall");
  const double expected = *study.tubes.front().per_wall->stiffness * 3.14159265358979 / 180 / 1000;
  CHECK_THAT(printed, Catch::Matchers::WithinRel(expected, 1e-9));
}

TEST_CASE("the first line after the title is the change that pays most") {
  const Frame f = ring_box_in_torsion();
  const std::string text = rank_text(f, answer_of(rank_study(f)), Paint{});
  CHECK(text.starts_with("test\npays most: "));
  CHECK(text.find("Diagonals of") != std::string::npos);
}

}  // namespace tubewright::rank_output_tests
