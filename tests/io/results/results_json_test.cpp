#include "io/results/results_json.h"

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

#include "io/results/json_parts.h"
#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::results_json_test {

using nlohmann::json;

namespace {

json parsed(const FrameStudies& studies) { return json::parse(results_json(studies)); }

std::vector<std::string> keys(const json& object) {
  std::vector<std::string> names;
  for (const auto& [key, value] : object.items()) names.push_back(key);
  return names;
}

}  // namespace

TEST_CASE("results are one JSON object that names its schema, version and axes") {
  const json results = parsed(hand_made_studies());
  CHECK(results.at("schema") == "tubewright-results/1");
  CHECK(results.at("frame") == "School pedal quad");
  CHECK(results.at("axes") == "iso8855");
  CHECK_FALSE(results.at("version").get<std::string>().empty());
}

TEST_CASE("sections that were not asked for are absent") {
  const json results = parsed(hand_made_studies());
  for (const char* key : {"torsion", "floor", "modes", "buckling"})
    CHECK_FALSE(results.contains(key));
}

TEST_CASE("mass is in kg and its centre in mm") {
  const json mass = parsed(hand_made_studies()).at("mass");
  CHECK(mass.at("total") == 63.25);
  CHECK(mass.at("centre") == json({500.0, 0.0, 310.0}));
}

TEST_CASE("displacements are in mm and rotations in rad, for every node") {
  const json nodes = parsed(hand_made_studies()).at("cases").at("brake").at("nodes");
  CHECK(keys(nodes) == std::vector<std::string>{"A", "B", "C", "D"});
  CHECK(nodes.at("C").at("displacement") == json({1.0, 0.0, -4.0}));
  CHECK(nodes.at("C").at("rotation") == json({0.01, 0.02, 0.03}));
}

TEST_CASE("zero is never written with a minus sign") {
  CHECK_THAT(results_json(hand_made_studies()), !ContainsSubstring("-0.0,"));
}

TEST_CASE("reactions are given for supported nodes only") {
  const json reactions = parsed(hand_made_studies()).at("cases").at("brake").at("reactions");
  CHECK(keys(reactions) == std::vector<std::string>{"A", "B"});
  CHECK(reactions.at("A") == json({{"force", {10.0, 20.0, 500.0}}, {"moment", {1.0, 2.0, 3.0}}}));
}

TEST_CASE("a member has its end forces, axial force, stress in MPa, worst place and checks") {
  const json member =
      parsed(hand_made_studies()).at("cases").at("brake").at("members").at("sill_1");
  CHECK(member.at("from") == json({-812.0, 1.0, 2.0, 3.0, 4.0, 5.0}));
  CHECK(member.at("to") == json({812.0, -1.0, -2.0, -3.0, -4.0, -5.0}));
  CHECK(member.at("N") == 812.0);
  CHECK_THAT(member.at("stress").at("von_mises").get<double>(), WithinRel(136.242, 1e-12));
  CHECK_THAT(member.at("stress").at("axial").get<double>(), WithinRel(100.0, 1e-12));
  CHECK_THAT(member.at("stress").at("bending").get<double>(), WithinRel(30.0, 1e-12));
  CHECK_THAT(member.at("stress").at("shear").get<double>(), WithinRel(11.0, 1e-12));
  CHECK(member.at("where") == 0.12);
  CHECK(member.at("checks").at("yield") == 0.87);
}

TEST_CASE("a check that was not made is null and its reason is given") {
  const json members = parsed(hand_made_studies()).at("cases").at("brake").at("members");
  const json tube = members.at("sill_1").at("checks");
  CHECK(tube.at("buckling").is_null());
  CHECK(tube.at("weld").is_null());
  CHECK(tube.at("reason").at("weld") == "not made by this version");
  CHECK_FALSE(tube.at("reason").contains("yield"));
  const json& spring = members.at("coil");
  CHECK(spring.at("stress").is_null());
  CHECK(spring.at("checks").at("yield").is_null());
  CHECK(spring.at("checks").at("reason").at("yield") == "a spring has no section");
}

TEST_CASE("the worst check of each case, the verdict and slack cables are in the results") {
  const json results = parsed(hand_made_studies());
  const json bump = results.at("cases").at("bump");
  CHECK(bump.at("worst") == json({{"check", "yield"}, {"item", "sill_1"}, {"utilisation", 1.24}}));
  CHECK(bump.at("slack") == json({"stay"}));
  CHECK(bump.at("rare") == true);
  CHECK(results.at("cases").at("brake").at("note") == "on a dry road");
  CHECK(results.at("passes") == false);
}

TEST_CASE("the out-of-balance of joints and of the whole frame are both told") {
  const json brake = parsed(hand_made_studies()).at("cases").at("brake");
  CHECK(brake.at("residual") == json({{"force", 3e-14}, {"moment", 1e-13}}));
  CHECK(brake.at("equilibrium") == json({{"force", 2e-14}, {"moment", 5e-14}}));
}

TEST_CASE("numbers that do not exist are null, so the text is JSON whatever the results are") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.cases[0].members[0].N = std::numeric_limits<double>::quiet_NaN();
  analysis.cases[0].solution.displacements[0] = std::numeric_limits<double>::infinity();
  analysis.cases[0].solution.displacements[1] = 1e306;  // overflows when turned into mm
  const json brake = parsed(studies).at("cases").at("brake");
  CHECK(brake.at("members").at("sill_1").at("N").is_null());
  CHECK(brake.at("nodes").at("A").at("displacement") == json({nullptr, nullptr, 0.0}));
}

TEST_CASE("numbers are written in full: reading them back gives the same double") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.cases[0].members[0].N = 1.0 / 3.0;
  const json member = parsed(studies).at("cases").at("brake").at("members").at("sill_1");
  CHECK(member.at("N").get<double>() == 1.0 / 3.0);
}

TEST_CASE("titles with quotes, line ends or bytes that are not UTF-8 stay JSON") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.frame.title = "a \"b\"\n\xff";
  CHECK(parsed(studies).at("frame") == "a \"b\"\n\xEF\xBF\xBD");
}

TEST_CASE("warnings and remarks are listed with their places") {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.remarks = {{Severity::warning, {}, "remark", ""}};
  const Diagnostics warnings = {{Severity::warning, {7, 3}, "node `Q` is not used", "remove it"}};
  const json listed = json::parse(results_json(studies, warnings)).at("warnings");
  REQUIRE(listed.size() == 2);
  CHECK(listed[0] == json({{"severity", "warning"},
                           {"message", "node `Q` is not used"},
                           {"advice", "remove it"},
                           {"line", 7},
                           {"column", 3}}));
  CHECK(listed[1].at("message") == "remark");
}

TEST_CASE("results carry their cautions and what was not checked") {
  const json results = parsed(hand_made_studies());
  CHECK(results.at("cautions").size() == 3);
  CHECK(results.at("not_checked").at(0) ==
        "sill_1 and post: no buckling check, not made by this version");
}

TEST_CASE("an error object tells the problems with file, line and column") {
  const Diagnostics diagnostics = {
      {Severity::error, {3, 5}, "unknown key `widht`", "did you mean `width`?"}};
  const json object = json::parse(error_json(diagnostics, "quad.yaml"));
  CHECK(object.at("schema") == "tubewright-results/1");
  CHECK_FALSE(object.contains("cases"));
  const json problem = object.at("error").at("problems").at(0);
  CHECK(problem.at("file") == "quad.yaml");
  CHECK(problem.at("line") == 3);
  CHECK(problem.at("column") == 5);
  CHECK(problem.at("severity") == "error");
}

TEST_CASE("attachments have their forces, their checks by name and what a comparison leaves") {
  FrameStudies s = hand_made_studies();
  CHECK_FALSE(parsed(s).at("cases").at("brake").contains("attachments"));
  s.analysis.frame.attachments.emplace_back().name = "ear";
  for (CaseResult& c : s.analysis.cases) {
    AttachmentResult& r = c.attachments.emplace_back();
    r.forces.hole = {1, 2, 3};
    r.forces.foot = {-1, -2, -3};
    r.checks = {{"face", {0.25, "walls under 2.5 mm", "Table 7.13", true, true}},
                {"weak_way", {std::nullopt, "use a pair", "", true}}};
  }
  const json ear = parsed(s).at("cases").at("brake").at("attachments").at("ear");
  CHECK(ear.at("force") == json({1.0, 2.0, 3.0}));
  CHECK(ear.at("foot_force") == json({1.0, 2.0, 3.0}));
  CHECK(ear.at("checks").at("face") == 0.25);
  CHECK(ear.at("checks").at("weak_way").is_null());
  CHECK(ear.at("checks").at("reason").at("weak_way") == "use a pair");
  CHECK(ear.at("comparisons").at("face") == "walls under 2.5 mm");
  CHECK(parsed(s).at("rules").at("attachment_face") == json({"Table 7.13"}));
}

}  // namespace tubewright::results_json_test
