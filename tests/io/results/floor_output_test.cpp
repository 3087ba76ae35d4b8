// What `floor` prints and writes, from a study filled in by hand; degrees by hand.
#include "io/results/floor_output.h"

#include <algorithm>
#include <numbers>
#include <sstream>

#include "tests/catch.h"

namespace tubewright::floor_output_test {

using nlohmann::json;

namespace {

constexpr double degree = std::numbers::pi / 180;

FloorOption option(const char* words, double mass, double N_m_deg) {
  FloorOption o;
  o.words = words;
  o.mass = mass;
  o.stiffness = N_m_deg / degree;
  return o;
}

FloorStudy study() {
  FloorStudy s;
  s.panels_mass = 2;
  s.without = option("without the sheet", 10, 100);
  s.low = option("rivets as soft as they may be", 12, 300);
  s.usual = option("rivets as usual", 12, 400);
  s.usual.gain_per_kg = 150 / degree;
  s.usual.frequency = 23.46;
  s.usual.worst = WorstOfAll{"bump", "yield", "sill", 0.873};
  s.usual.rivet_utilisation = 0.25;
  s.high = option("rivets as stiff as they may be", 12, 500);
  s.diagonal = option("diagonals", 12, 350);
  s.diagonal.sizes = {"20.00 x 20.00 x 1.00", "18.00 x 18.00 x 1.00"};
  s.thicker = option("heavier tubes", 12, 150);
  s.verdict = {FloorAnswer::depends, "It depends.", {"a reason"}, {"a change"}};
  for (const double thickness : {0.001, 0.002}) {
    for (const double pitch : {0.025, 0.050}) {
      s.sweep.push_back({thickness, pitch, 2000 * thickness, (thickness + pitch) * 1e3 / degree});
    }
  }
  return s;
}

Frame titled() {
  Frame f;
  f.title = "Box";
  return f;
}

std::string line_with(const std::string& text, const std::string& part) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(part) != std::string::npos) return line;
  }
  return {};
}

}  // namespace

TEST_CASE("the floor's table has a row an option, soft and stiff rivets only where guessed") {
  FloorStudy s = study();
  const std::string text = floor_text(titled(), s, {});
  CHECK(text.starts_with("Box\nIt depends.\n"));
  std::istringstream row(line_with(text, "rivets as usual").substr(40));
  std::vector<std::string> cells;
  for (std::string cell; row >> cell;) cells.push_back(cell);
  CHECK(cells == std::vector<std::string>{"12.00", "400.0", "23.5", "0.87", "0.25", "150.0"});
  CHECK_THAT(text, !ContainsSubstring("as soft as") && !ContainsSubstring("as stiff as"));
  s.guessed_rivets = true;
  const std::string guessed = floor_text(titled(), s, {});
  CHECK(guessed.find("as soft as") < guessed.find("as usual"));
  CHECK(guessed.find("as usual") < guessed.find("as stiff as"));
  s.without.stiffness.reset();
  CHECK_THAT(line_with(floor_text(titled(), s, {}), "without the sheet"),
             ContainsSubstring("loose"));
  std::istringstream lines(guessed);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 100);
}

TEST_CASE("sizes, reasons and changes follow the table") {
  const std::string text = floor_text(titled(), study(), {});
  CHECK_THAT(
      text, ContainsSubstring("  tube diagonals: 20.00 x 20.00 x 1.00, 18.00 x 18.00 x 1.00 mm\n"));
  CHECK_THAT(text, !ContainsSubstring("heavier floor tubes:"));
  CHECK_THAT(text, ContainsSubstring("Why\n  - a reason\n"));
  CHECK_THAT(text, ContainsSubstring("What would change it\n  - a change\n"));
}

TEST_CASE("the sweep is a table of thickness against pitch") {
  const std::string text = floor_text(titled(), study(), {});
  CHECK_THAT(text, ContainsSubstring("every 25 mm    every 50 mm\n"));
  CHECK(line_with(text, "1.00 mm   2.00 kg") ==
        "    1.00 mm   2.00 kg           26.0           51.0");
  CHECK(line_with(text, "2.00 mm   4.00 kg") ==
        "    2.00 mm   4.00 kg           27.0           52.0");
}

TEST_CASE("the JSON on a floor is in N m/deg and mm, and passes as the frame with rivets does") {
  Frame f = titled();
  const FloorStudy s = study();
  const json answer = json::parse(floor_json(f, s, {}));
  CHECK(answer.at("passes") == true);
  const json& floor = answer.at("floor");
  CHECK(floor == json(floor_part(s)));
  const json usual = floor.at("with").at("default");
  CHECK_THAT(usual.at("stiffness").get<double>(), WithinRel(400.0, 1e-12));
  CHECK_THAT(usual.at("per_kg").get<double>(), WithinRel(150.0, 1e-12));
  CHECK(usual.at("utilisation") == 0.873);
  CHECK(usual.at("worst").at("item") == "sill");
  CHECK(usual.at("rivet_utilisation") == 0.25);
  CHECK(usual.at("frequency") == 23.46);
  CHECK_FALSE(usual.contains("sizes"));
  CHECK(floor.at("without").at("worst").is_null());
  CHECK(floor.at("diagonal").at("sizes").size() == 2);
  CHECK(floor.at("rivet_stiffness_given") == true);
  CHECK_THAT(floor.at("per_kg").at("default").get<double>(), WithinRel(150.0, 1e-12));
  CHECK(floor.at("per_kg").at("low").is_null());
  CHECK(floor.at("answer") == "depends");
  CHECK(floor.at("verdict") == "It depends.");
  REQUIRE(floor.at("sweep").size() == 4);
  CHECK_THAT(floor.at("sweep").at(1).at("pitch").get<double>(), WithinRel(50.0, 1e-12));
  CHECK_THAT(floor.at("sweep").at(1).at("stiffness").get<double>(), WithinRel(51.0, 1e-12));
  f.limits.torsional_stiffness = 401 / degree;
  CHECK(json::parse(floor_json(f, s, {})).at("passes") == false);
}

TEST_CASE("each verdict on a floor has its word") {
  FloorStudy s = study();
  const auto word = [&](FloorAnswer answer) {
    s.verdict.answer = answer;
    return floor_part(s).at("answer").get<std::string>();
  };
  CHECK(word(FloorAnswer::pays) == "pays");
  CHECK(word(FloorAnswer::depends) == "depends");
  CHECK(word(FloorAnswer::does_not_pay) == "does not pay");
}

}  // namespace tubewright::floor_output_test
