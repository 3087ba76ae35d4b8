#include "io/variants/compare_output.h"

#include <nlohmann/json.hpp>

#include "tests/catch.h"
#include "tests/io/text_lines.h"
#include "tests/io/variants/hand_made_comparison.h"

namespace tubewright::compare_output_test {

using namespace tubewright::testing;
using nlohmann::json;

TEST_CASE(
    "the sentence says lighter, stiffer, the worst item against that of before, the verdicts") {
  CHECK(compare_sentence(hand_made_comparison()) ==
        "B is 1.20 kg lighter and 8.0 % stiffer; its worst item is rail (yield, brake), at 0.83 "
        "against 0.71; both pass");
  CHECK(compare_line(hand_made_comparison()) == compare_sentence(hand_made_comparison()) + "\n");
}

TEST_CASE("heavier, softer, many times as stiff and as before have their words") {
  Comparison c = hand_made_comparison();
  std::swap(c.result.sides[0], c.result.sides[1]);
  c.result.sides[1].numbers->worst->item = "sill";
  c.result.sides[1].numbers->verdict = Verdict::Answer::fail;
  CHECK(compare_sentence(c) ==
        "B is 1.20 kg heavier and 7.4 % softer; its worst item is sill (yield, brake), at 0.71 "
        "against 0.83 of rail (yield, brake) in A; B fails, A passes");
  c.result.sides[1] = c.result.sides[0];
  CHECK_THAT(compare_sentence(c), ContainsSubstring("B is as heavy as A and as stiff; "));
  c.result.sides[1].numbers->stiffness = 3 * *c.result.sides[0].numbers->stiffness;
  CHECK_THAT(compare_sentence(c), ContainsSubstring("3.00 times as stiff"));
  c.result.sides[1].numbers->stiffness = 0.25 * *c.result.sides[0].numbers->stiffness;
  CHECK_THAT(compare_sentence(c), ContainsSubstring("0.25 times as stiff"));
  c.result.sides[1].numbers->stiffness.reset();
  CHECK_THAT(compare_sentence(c), !ContainsSubstring("stiff"));
}

TEST_CASE("a frame without answer is told so, with the reason") {
  Comparison c = hand_made_comparison();
  c.result.sides[0].numbers.reset();
  c.result.sides[0].trouble = {{"node `A` can slide", "hold it"}};
  CHECK(compare_sentence(c) ==
        "B is 1.20 kg lighter; its worst item is rail (yield, brake), at 0.83; B passes, A has no "
        "answer");
  CHECK_THAT(compare_text(c), ContainsSubstring("no answer: node `A` can slide"));
  const json answer = json::parse(compare_json(c, {}))["compare"];
  CHECK(answer["stiffness"][0].is_null());
  CHECK(answer["verdict"] == json::array({"no_answer", "pass"}));
  CHECK(answer["reason"][0] == "node `A` can slide");
  CHECK(answer["reason"][1].is_null());
}

TEST_CASE("the table has a row a number, both and the difference with its sign") {
  const std::string text = compare_text(hand_made_comparison());
  const auto has = [&](const std::string& row, std::initializer_list<const char*> cells) {
    const std::string line = line_with(text, row);
    INFO(line);
    REQUIRE_FALSE(line.empty());
    for (const char* cell : cells) CHECK_THAT(line, ContainsSubstring(cell));
  };
  has("mass of tubes, panels, kg", {"12.40", "11.20", "-1.20"});
  has("mass in all", {"112.40", "111.20"});
  has("torsion, N m/deg", {"400.0", "432.0", "+32.0"});
  has("lowest frequency", {"20.5"});
  has("worst utilisation", {"0.71", "0.83", "+0.12"});
  has("what they cost", {"40.00", "37.50", "-2.50"});
  has("pieces to cut", {"9"});
  has("weld, mm", {"1250"});
  has("turn ", {"-", "0.50"});
  has("25.0 x 25.0 x 1.5 S235 ", {"0", "1", "+1"});
  CHECK_THAT(text, ContainsSubstring("A  before.yaml: Rack\nB  after.yaml: Rack <b> & co\n"));
  CHECK_THAT(text, ContainsSubstring("Bear in mind"));
}

TEST_CASE("changes of one kind with the same sizes stand in one line") {
  const std::vector<std::string> lines = change_lines(hand_made_comparison());
  CHECK(lines == std::vector<std::string>{
                     "added, tube: AC",
                     "resized, tube: AB, BC: 25.0 x 25.0 x 2.0 S235 -> 25.0 x 25.0 x 1.5 S235",
                     "moved, node: D: 0.0, 400.0, 0.0 -> 0.0, 500.0, 0.0 mm"});
  Comparison bent = hand_made_comparison();
  bent.result.changes.rebent = {{"hoop", {0.09, 0}}};
  CHECK(change_lines(bent)[2] == "resized, tube: hoop: bent to 90.0 mm -> not bent");
  Comparison same = hand_made_comparison();
  same.result.changes = frame_changes(same.frames[0], same.frames[0]);
  CHECK(change_lines(same).empty());
  CHECK_THAT(
      compare_text(same),
      ContainsSubstring("No tube, node, sheet or mass was added, removed, resized or moved"));
}

TEST_CASE("JSON has pairs under the names that other answers use, and the lists of changes") {
  const json answer = json::parse(compare_json(hand_made_comparison(), {}));
  CHECK(answer["passes"] == true);
  const json& c = answer["compare"];
  CHECK(c["mass"] == json::array({12.4, 11.2}));
  CHECK_THAT(c["stiffness"][1].get<double>(), WithinRel(432, 1e-12));
  CHECK(c["frequency"] == json::array({20.5, 20.5}));
  CHECK(c["frequencies"][0] == json::array({20.5, 31}));
  CHECK(c["utilisation"] == json::array({0.71, 0.83}));
  CHECK(c["item"] == json::array({"rail", "rail"}));
  CHECK(c["verdict"] == json::array({"pass", "pass"}));
  CHECK(c["cost"] == json::array({40, 37.5}));
  CHECK(c["bars"] == json::array({3, 3}));
  CHECK(c["weld_length"] == json::array({1250, 1250}));
  CHECK(c["cases"]["turn"]["utilisation"] == json::array({nullptr, 0.5}));
  CHECK(c["sizes"][1] ==
        json{{"size", "25.0 x 25.0 x 1.5 S235"}, {"bars", {0, 1}}, {"cost", {nullptr, 11}}});
  CHECK(c["added"] == json::array({{{"kind", "tube"}, {"name", "AC"}}}));
  CHECK(c["removed"].empty());
  CHECK(c["resized"].size() == 2);
  CHECK(c["resized"][0]["to"] == "25.0 x 25.0 x 1.5 S235");
  CHECK(c["moved"][0] ==
        json{{"kind", "node"}, {"name", "D"}, {"from", {0, 400, 0}}, {"to", {0, 500, 0}}});
}

}  // namespace tubewright::compare_output_test
