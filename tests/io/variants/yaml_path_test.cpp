#include "io/variants/yaml_path.h"

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::yaml_path_test {

using namespace tubewright::testing;

namespace {

YamlNode tree(const std::string& text) {
  Diagnostics faults;
  const auto root = parse_strict_yaml(text, faults);
  INFO(text_of(faults));
  REQUIRE(root);
  return *root;
}

constexpr const char* file = R"(frame: Rack
sections:
  rail: {shape: square_tube, side: 25, wall: 2}
  rail.top: {wall: 3}
  rail.top.wall: {wall: 4}
nodes:
  A: [1, "2 in", -3]
panels:
  floor: {corners: [A, B, C]}
stock: {sizes: [{side: 20, price: 12}, {side: 25, price: 15}]}
)";

std::string text_at(const YamlNode& root, const YamlTarget& target) {
  const YamlNode* node = &root;
  for (const std::size_t step : target.steps) {
    node = node->form == YamlForm::list ? &node->items[step] : &node->entries[step].value;
  }
  return node->text;
}

std::string found(const std::string& path) {
  const YamlNode root = tree(file);
  const YamlTarget target = answer_of(find_target(root, path));
  CHECK(target.new_key.empty());
  CHECK(names_beside(root, target).empty());
  return text_at(root, target);
}

std::string fault(const std::string& path) {
  const auto outcome = find_target(tree(file), path);
  REQUIRE(outcome.error() != nullptr);
  return text_of(*outcome.error());
}

}  // namespace

TEST_CASE("a path leads down maps by keys and down lists by places or axes") {
  CHECK(found("frame") == "Rack");
  CHECK(found("sections.rail.wall") == "2");
  CHECK(found("nodes.A.2") == "-3");
  CHECK(found("nodes.A.z") == "-3");
  CHECK(found("nodes.A.y") == "2 in");
  CHECK(found("panels.floor.corners.1") == "B");
  CHECK(found("stock.sizes.1.price") == "15");
}

TEST_CASE("names with dots are found, the longest first, and what is right in the end wins") {
  CHECK(found("sections.rail.top.wall.wall") == "4");
  CHECK(found("sections.rail.top.wall") == "");  // the map of that name, not the wall of rail.top
  CHECK(found("sections.rail.side") == "25");
}

TEST_CASE("only the last key may be absent") {
  const YamlNode root = tree(file);
  const YamlTarget corners = answer_of(find_target(root, "sections.rail.corners"));
  CHECK(corners.new_key == "corners");
  CHECK(names_beside(root, corners) == std::vector<std::string>{"shape", "side", "wall"});
  CHECK(answer_of(find_target(root, "gravity")).new_key == "gravity");
  CHECK_THAT(fault("limits.mass"), ContainsSubstring("there is no `limits` in the frame file"));
}

TEST_CASE("a path that leads nowhere is told where it ends and what is near") {
  CHECK_THAT(fault("sektions.rail.wall"),
             ContainsSubstring("`sektions`") && ContainsSubstring("did you mean `sections`?"));
  CHECK_THAT(fault("sections.ral.wall"), ContainsSubstring("there is no `ral` in `sections`") &&
                                             ContainsSubstring("did you mean `rail`?"));
  CHECK_THAT(fault("sections.rail.wall.x"),
             ContainsSubstring("`sections.rail.wall` is a value with nothing below it"));
  CHECK_THAT(fault("nodes.A.3"), ContainsSubstring("its entries are 0 to 2, or x, y and z"));
  CHECK_THAT(fault("panels.floor.corners.x"), ContainsSubstring("its entries are 0 to 2 |") ||
                                                  ContainsSubstring("its entries are 0 to 2\n"));
  CHECK_THAT(fault("nodes.A.-1"), ContainsSubstring("has no `-1`"));
  CHECK_THAT(fault("sections..wall"), ContainsSubstring("there is no ``"));
}

TEST_CASE("a value is put in place of what stands there, or as a new key") {
  YamlNode root = tree(file);
  put(root, answer_of(find_target(root, "nodes.A.z")), {"7", false});
  put(root, answer_of(find_target(root, "sections.rail.corners")), {"sharp", true});
  put(root, answer_of(find_target(root, "panels.floor.corners")), {"none", false});
  CHECK(text_at(root, answer_of(find_target(root, "nodes.A.2"))) == "7");
  CHECK(text_at(root, answer_of(find_target(root, "panels.floor.corners"))) == "none");
  const YamlTarget corners = answer_of(find_target(root, "sections.rail.corners"));
  CHECK(corners.new_key.empty());
  CHECK(text_at(root, corners) == "sharp");
  const YamlEntry& made = root.entries[1].value.entries[0].value.entries.back();
  CHECK(made.value.in_quotes);
}

TEST_CASE("two paths overlap if one leads to or into what the other leads to") {
  const YamlNode root = tree(file);
  const auto both = [&](const char* a, const char* b) {
    return overlap(answer_of(find_target(root, a)), answer_of(find_target(root, b)));
  };
  CHECK(both("nodes.A.z", "nodes.A.2"));
  CHECK(both("nodes.A", "nodes.A.z"));
  CHECK(both("nodes.A.z", "nodes"));
  CHECK(both("sections.rail.corners", "sections.rail.corners"));
  CHECK(both("sections.rail.corners", "sections.rail"));
  CHECK_FALSE(both("nodes.A.z", "nodes.A.y"));
  CHECK_FALSE(both("sections.rail.corners", "sections.rail.shear"));
  CHECK_FALSE(both("sections.rail.corners", "sections.rail.wall"));
}

TEST_CASE("the example is a wall of the frame's own, where it has one") {
  CHECK(example_path(tree(file)) == "sections.rail.wall");
  CHECK(example_path(tree("frame: none\n")).empty());
}

}  // namespace tubewright::yaml_path_test
