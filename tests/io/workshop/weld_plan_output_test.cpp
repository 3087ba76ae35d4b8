#include "io/workshop/weld_plan_output.h"

#include <set>
#include <sstream>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::weld_plan_output_test {

using namespace tubewright::testing;

namespace {

nlohmann::json plan_of(const CutList& list) {
  return {{"weld_order", weld_order_json(list.weld_order)},
          {"shrinkage", draw_in_json(list.shrinkage)}};
}

}  // namespace

TEST_CASE("the plan has every welded node once, with all ends and lengths of the list") {
  const CutList list = cut_list(braced_rectangle());
  const nlohmann::json plan = plan_of(list);
  std::multiset<std::string> nodes;
  int ends = 0;
  double length = 0;
  for (const auto& step : plan["weld_order"]) {
    for (const auto& node : step["nodes"]) nodes.insert(node);
    ends += step["ends"].get<int>();
    length += step["weld_length"].get<double>();
  }
  CHECK(nodes == std::multiset<std::string>{"A", "B", "C", "D"});
  CHECK(ends == list.welds);
  CHECK_THAT(length, WithinRel(list.weld_length * 1e3, 1e-9));
}

TEST_CASE("throats beyond the wall are listed by section, and none where there are none") {
  Frame f = rectangle();
  CHECK(throat_lines(f, cut_list(f), Paint{}).empty());
  CHECK(throats_json(cut_list(f)).empty());
  f.sections[0].material = "S355";
  const CutList list = cut_list(f);
  // sqrt(2) 0.9 1.25 355/510 = 1.107 walls of 2 mm, EN 1993-1-8 7.3.1(4) (MEMORY).
  CHECK_THAT(throat_lines(f, list, Paint{}),
             ContainsSubstring("2.21 mm at the ends of") && ContainsSubstring("S355: AB, BC"));
  CHECK_THAT(throats_json(list)[0]["throat"].get<double>(), WithinRel(2.215, 1e-3));
}

TEST_CASE("both ends of a piece draw in 0.1 throat2 / wall each: 0.4 mm on walls of 2 mm") {
  CHECK(shrink_text({0.0002, 0.0002}) == "0.40");
  CHECK(shrink_text({0.0002, std::nullopt}) == "-");
  const auto json = shrinkage_json({0.0002, std::nullopt});
  CHECK_THAT(json[0].get<double>(), WithinAbs(0.2, 1e-12));
  CHECK(json[1].is_null());
}

TEST_CASE("a rectangle draws in half a weld at both ends of each side: along x and y alike") {
  const CutList list = cut_list(rectangle());
  const nlohmann::json along = plan_of(list)["shrinkage"]["along"];
  // A mitre is shared by two: 2 x 0.1 x 2 x 2 / 2 / 2 mm.
  for (const char* axis : {"x", "y"}) {
    CHECK_THAT(along[axis]["draw_in"].get<double>(), WithinAbs(0.2, 1e-9));
  }
  CHECK_FALSE(along.contains("z"));
}

TEST_CASE("the tables name every node and stay within 100 columns; without welds there are none") {
  const CutList list = cut_list(braced_rectangle());
  const std::string text = weld_order_table(list, Paint{}) + shrinkage_lines(list, Paint{});
  std::istringstream in(text);
  int steps = 0;
  for (std::string line; std::getline(in, line);) {
    CHECK(line.size() <= 100);
    steps += line.find(std::to_string(steps + 1)) == 5;
  }
  CHECK(steps == static_cast<int>(list.weld_order.size()));
  CHECK(weld_order_table({}, Paint{}).empty());
  CHECK(shrinkage_lines({}, Paint{}).empty());
}

}  // namespace tubewright::weld_plan_output_test
