// Pieces of JSON that results and reports share, from results filled in by hand.
#include "io/results/analysis_parts.h"

#include <cmath>
#include <limits>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::analysis_parts_test {

using nlohmann::json;

TEST_CASE("what limits braking has its words") {
  using Limit = Deceleration::Limit;
  CHECK(std::string(braking_limit_words(Limit::front_grip)) == "grip of the front tyres");
  CHECK(std::string(braking_limit_words(Limit::rear_grip)) == "grip of the rear tyres");
  CHECK(std::string(braking_limit_words(Limit::nose_over)).starts_with("nose-over"));
  CHECK(std::string(braking_limit_words(Limit::none)) == "no brakes");
}

TEST_CASE("an analysis has the name of what was asked for") {
  Analysis a;
  CHECK(std::string(analysis_name(a)) == "linear");
  a.options.second_order = true;
  CHECK(std::string(analysis_name(a)) == "second_order");
  a.options = {false, true};
  CHECK(std::string(analysis_name(a)) == "large_displacement");
}

TEST_CASE("the worst item is told in three words, or why there is none") {
  CHECK(json(worst_json(Worst{"weld", "sill", 0.5})) ==
        json({{"check", "weld"}, {"item", "sill"}, {"utilisation", 0.5}}));
  const auto none = worst_json(std::nullopt);
  for (const char* key : {"check", "item", "utilisation"}) CHECK(none.at(key).is_null());
  CHECK_FALSE(none.at("reason").get<std::string>().empty());
}

TEST_CASE("what holds a frame is its supports, each node once, or the restraints of a vehicle") {
  FrameStudies s = hand_made_studies();
  Analysis& a = s.analysis;
  a.model.supports = {{3, {}}, {1, {}}, {3, {}}, {0, {}}};
  CHECK(held_nodes(a, a.cases[0]) == std::vector<int>{0, 1, 3});
  a.cases[0].driving = DrivingState{};
  a.cases[0].driving->restrained = {2, 1};
  CHECK(held_nodes(a, a.cases[0]) == std::vector<int>{2, 1});
  CHECK(held_nodes(a, a.cases[1]) == std::vector<int>{0, 1, 3});
}

TEST_CASE("a vehicle's accelerations are told in its own g, endless ones as null") {
  FrameStudies s = hand_made_studies();
  Analysis& a = s.analysis;
  CHECK(vehicle_json(a).is_null());
  a.frame.gravity = 10;
  a.frame.vehicle = Vehicle{};
  a.frame.vehicle->wheels.resize(2);
  a.frame.vehicle->wheels[0].name = "front";
  a.frame.vehicle->wheels[1].name = "rear";
  VehicleFacts v;
  v.standing = {300, 400.5};
  v.mass.inertia << 1, 2, 3, 2, 5, 6, 3, 6, 9;
  v.tipping = {8, 12, 5, std::numeric_limits<double>::infinity()};
  v.braking = {6.5, Deceleration::Limit::rear_grip};
  v.friction = 0.8;
  v.sprung = true;
  a.vehicle = v;
  const json told = vehicle_json(a);
  CHECK(told.at("standing") == json({{"front", 300.0}, {"rear", 400.5}}));
  CHECK(told.at("inertia") == json({{1.0, 2.0, 3.0}, {2.0, 5.0, 6.0}, {3.0, 6.0, 9.0}}));
  CHECK(told.at("sprung") == true);
  CHECK(told.at("friction") == 0.8);
  CHECK_THAT(told.at("reachable_braking").get<double>(), WithinRel(0.65, 1e-12));
  CHECK(told.at("braking_limited_by") == "grip of the rear tyres");
  CHECK_THAT(told.at("tips_at").at("braking").get<double>(), WithinRel(0.8, 1e-12));
  CHECK_THAT(told.at("tips_at").at("driving").get<double>(), WithinRel(1.2, 1e-12));
  CHECK_THAT(told.at("tips_at").at("left_turn").get<double>(), WithinRel(0.5, 1e-12));
  CHECK(told.at("tips_at").at("right_turn").is_null());
}

TEST_CASE("clauses are those of checks that were made, each once") {
  FrameStudies s = hand_made_studies();
  Analysis& a = s.analysis;
  using Clauses = std::map<std::string, std::set<std::string>>;
  CHECK(clauses_followed(a) == Clauses{{"yield", {"EN 1993-1-1 6.2.1(5)"}}});
  a.cases[0].members[0].checks.weld = {0.2, "", "clause B"};
  a.cases[1].members[0].checks.weld = {0.3, "", "clause A"};
  a.cases[1].members[1].checks.buckling = {std::nullopt, "no", "clause C"};
  CHECK(clauses_followed(a) ==
        Clauses{{"weld", {"clause A", "clause B"}}, {"yield", {"EN 1993-1-1 6.2.1(5)"}}});
}

TEST_CASE("changes tell their worst item with its case, or no number at all") {
  CHECK(what_ifs_json({}).dump() == "[]");
  const json list = what_ifs_json(
      {{"as drawn", WorstOfAll{"bump", "yield", "sill", 0.75}}, {"soft joints", std::nullopt}});
  CHECK(list.at(0) == json({{"change", "as drawn"},
                            {"utilisation", 0.75},
                            {"check", "yield"},
                            {"item", "sill"},
                            {"case", "bump"}}));
  CHECK(list.at(1) == json({{"change", "soft joints"}, {"utilisation", nullptr}}));
}

}  // namespace tubewright::analysis_parts_test
