// What is said of several weldments: sums of the one part against another.
#include "io/workshop/weldment_output.h"

#include <sstream>

#include "io/workshop/cut_output.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::weldment_output_test {

using namespace tubewright::testing;

namespace {

/// A rectangle, an arm of two tubes that swings at B, and a rod from A to its end.
Frame with_arm() {
  Frame f = rectangle();
  add_node(f, "P", 0.9, 0.1, 0);
  add_node(f, "Q", 0.9, 0.3, 0.1);
  add_member(f, "arm_1", "B", "P").release_from[4] = 0;
  add_member(f, "arm_2", "P", "Q");
  add_member(f, "rod", "A", "Q").kind = MemberKind::link;
  return f;
}

}  // namespace

TEST_CASE("one weldment is not spoken of, and is one entry of the JSON") {
  const CutList list = cut_list(rectangle());
  CHECK(weldments_table(list, Paint{}).empty());
  CHECK(of_weldment(list, list.weldments.front()).empty());
  REQUIRE(weldments_json(list).size() == 1);
  CHECK(weldments_json(list)[0]["name"] == "frame");
  const std::string text = cut_text(rectangle(), list, {}, Paint{});
  CHECK(text.find("eldment") == std::string::npos);
}

TEST_CASE("the JSON of several weldments adds up to the whole list") {
  const Frame f = with_arm();
  const CutList list = cut_list(f);
  const auto cut = nlohmann::json::parse(cut_json(f, list, {}, {}))["cut"];
  double mass = 0, length = 0;
  std::size_t pieces = 0, steps = 0;
  for (const auto& w : cut["weldments"]) {
    mass += w["mass"].get<double>();
    length += w["weld_length"].get<double>();
    steps += w["weld_order"].size();
    for (const auto& [label, names] : w["pieces"].items()) {
      pieces += names.size();
      const auto& members = cut["pieces"][label]["members"];
      for (const auto& name : names) {
        CHECK(std::find(members.begin(), members.end(), name) != members.end());
      }
    }
  }
  CHECK(pieces == f.members.size());
  CHECK(steps == cut["weld_order"].size());
  CHECK_THAT(mass, WithinRel(cut["mass"].get<double>(), 1e-9));
  CHECK_THAT(length, WithinRel(cut["weld_length"].get<double>(), 1e-9));
}

TEST_CASE("the text gives each weldment its pieces and its order of welds, and names the joint") {
  const Frame f = with_arm();
  const std::string text = cut_text(f, cut_list(f), {}, Paint{});
  for (const char* part :
       {"Pieces of the frame", "Pieces of arm_1", "Pieces that nothing is welded to",
        "Weld in this order of the frame", "Weld in this order of arm_1", "On the jig of the frame",
        "joint, not welded; cut to suit it", "nothing is welded to rod"}) {
    CHECK_THAT(text, ContainsSubstring(part));
  }
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    INFO(line);
    CHECK(line.size() <= 100);
  }
}

TEST_CASE("the spreadsheet says in which weldments a piece is, where there are several") {
  CHECK_THAT(cut_csv(with_arm(), cut_list(with_arm())),
             ContainsSubstring(",members,weldments\r\n"));
  CHECK_THAT(cut_csv(rectangle(), cut_list(rectangle())), ContainsSubstring(",members\r\n"));
}

}  // namespace tubewright::weldment_output_test
