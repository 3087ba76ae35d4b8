// The whole tree held against the table of keys: defaults, soundness, every fault once.
#include "io/frame_file/checked_value.h"

#include <map>

#include "tests/catch.h"

namespace tubewright::checked_value_test {

namespace {

struct Checked {
  CheckedValue top;
  Diagnostics diagnostics;
};

Checked checked(const std::string& text) {
  Checked result;
  const auto root = parse_strict_yaml(text, result.diagnostics);
  INFO(text);
  REQUIRE(root.has_value());
  result.top = check_frame_keys(*root, result.diagnostics);
  return result;
}

/// A sound frame with `more` below.
std::string with(const std::string& more, const std::string& wall = "2") {
  return R"(frame: Stool
sections: {rail: {shape: square_tube, side: 25, wall: )" +
         wall + R"(, material: S235}}
nodes: {A: [0, 0, 0], B: [500, -20, 1 in]}
members: {AB: {from: A, to: B, section: rail}}
)" + more;
}

std::vector<std::string> messages(const Diagnostics& diagnostics) {
  std::vector<std::string> texts;
  for (const Diagnostic& p : diagnostics) texts.push_back(p.message);
  return texts;
}

using Messages = std::vector<std::string>;

}  // namespace

TEST_CASE("a sound file gives sound values in SI units, in the order of the file") {
  const Checked c = checked(with("supports: {B: [z, rx], A: {x: -2}}\n"));
  CHECK(messages(c.diagnostics) == Messages{});
  CHECK(c.top.sound);
  CHECK(c.top["frame"].text == "Stool");
  const auto& nodes = c.top["nodes"].entries;
  REQUIRE(nodes.size() == 2);
  CHECK(nodes[0].name == "A");
  CHECK(nodes[1].place.line == 3);
  CHECK(nodes[1].value.vector[0] == 0.5);
  CHECK(nodes[1].value.vector[1] == -0.02);
  CHECK(nodes[1].value.vector[2] == 0.0254);
  const auto& supports = c.top["supports"].entries;
  CHECK(supports[0].name == "B");
  CHECK(supports[0].value.items.at(1).index == 3);
  CHECK(supports[1].value["x"].number == -0.002);
  CHECK_FALSE(supports[1].value["y"].given);
}

TEST_CASE("an absent key has its default and says that it was not given") {
  const Checked c = checked(with(""));
  CHECK(c.top["gravity"].number == 9.80665);
  CHECK_FALSE(c.top["gravity"].given);
  CHECK(c.top["gravity"].sound);
  CHECK(c.top["axes"].index == 0);
  const CheckedValue& rail = c.top["sections"].entries[0].value;
  CHECK(rail["corners"].text == "cold_formed");
  CHECK(rail["shear"].index == 1);
  CHECK(rail["side"].given);
  CHECK(c.top["members"].entries[0].value["kind"].text == "beam");
  CHECK_FALSE(c.top["limits"].given);
  CHECK_FALSE(c.top["limits"].sound);
}

TEST_CASE("a fault makes unsound what holds it and nothing beside it") {
  const Checked c = checked(with("limits: {mass: 20}\n", "thick"));
  CHECK(messages(c.diagnostics) == Messages{"`thick` is not a length"});
  CHECK_FALSE(c.top.sound);
  CHECK_FALSE(c.top["sections"].sound);
  const CheckedValue& rail = c.top["sections"].entries[0].value;
  CHECK_FALSE(rail.sound);
  CHECK_FALSE(rail["wall"].sound);
  CHECK(rail["wall"].given);
  CHECK(rail["side"].sound);
  CHECK(rail["side"].number == 0.025);
  CHECK(c.top["nodes"].sound);
  CHECK(c.top["limits"].sound);
}

TEST_CASE("every fault of a file is reported at once, each where it stands") {
  const Checked c = checked(
      "frame: {}\n"
      "sections: {a: {shape: round_tube, diameter: 20, wall: 2, side: 3, material: [x]}}\n"
      "nodes: {A: [0, 0], B/C: [0, 0, x]}\n"
      "members: {m: {kind: beem}}\n"
      "supports: {A: [x, x, up]}\n"
      "tubes: 3\n");
  std::map<int, int> faults_in_line;
  for (const Diagnostic& p : c.diagnostics) ++faults_in_line[p.place.line];
  const std::map<int, int> expected = {{1, 1}, {2, 2}, {3, 3}, {4, 1}, {5, 2}, {6, 1}};
  CHECK(faults_in_line == expected);
}

TEST_CASE("a key that is missing is reported once, not also where it was only misspelt") {
  CHECK(messages(checked("frame: Stool\n").diagnostics) ==
        Messages{"the frame file has no `nodes`", "the frame file has no `members`"});
  const Checked misspelt =
      checked("frame: Stool\nnodse: {A: [0, 0, 0]}\nmembers: {m: {from: A, to: A, section: s}}\n");
  CHECK(messages(misspelt.diagnostics) == Messages{"unknown key `nodse`"});
  CHECK(misspelt.diagnostics[0].advice == "did you mean `nodes`?");
}

TEST_CASE("a key of another shape, a number without a key, a missing colon are each told apart") {
  const auto fault_in = [](const std::string& section) {
    const Checked c = checked("frame: S\nsections: {r: {shape: round_bar, diameter: 8, " + section +
                              "material: S235}}\nnodes: {A: [0, 0, 0]}\n"
                              "members: {m: {from: A, to: A, section: r}}\n");
    REQUIRE(c.diagnostics.size() == 1);
    return c.diagnostics[0].message;
  };
  CHECK(fault_in("wall: 2, ") == "the key `wall` does not belong to a round bar");
  CHECK(fault_in("colour: red, ") == "unknown key `colour`");
  CHECK(fault_in("5, ") == "the number `5` belongs to no key");
  CHECK(fault_in("shear true, ") == "`shear true` has no value");
}

TEST_CASE("of a kind that depends on a word the right one is chosen, by its word or its key") {
  const Checked c = checked(
      "frame: S\nnodes: {A: [0, 0, 0]}\nmembers:\n"
      "  a: {from: A, to: A, section: s}\n"
      "  b: {path: [A, A], section: s}\n"
      "  c: {kind: spring, from: A, to: A, rate: 3}\n");
  CHECK(messages(c.diagnostics) == Messages{});
  const auto& members = c.top["members"].entries;
  CHECK(members[0].value.group->title == "a beam");
  CHECK(members[1].value.group->marked_by == "path");
  CHECK(members[2].value.group->word == "spring");
  CHECK(members[2].value["rate"].number == 3000);
}

TEST_CASE("a file that is no map of keys has no values, and one that is empty says so") {
  const Checked list = checked("[1, 2]\n");
  CHECK(list.top.group == nullptr);
  CHECK_FALSE(list.top.sound);
  CHECK(messages(list.diagnostics) ==
        Messages{"the file holds a list instead of keys with values"});
  CHECK(messages(checked("just words\n").diagnostics) ==
        Messages{"the file holds a text instead of keys with values"});
}

TEST_CASE("too few or too many entries are counted against what the table allows") {
  const auto fault_in = [](const std::string& more) {
    const Checked c = checked(with(more));
    INFO(more);
    REQUIRE(c.diagnostics.size() == 1);
    return c.diagnostics[0].message;
  };
  CHECK(fault_in("torsion: {front: [A], rear: [A, B]}\n") == "`front` has 1 entry");
  CHECK(fault_in("torsion: {front: [A, B, C], rear: [A, B]}\n") == "`front` has 3 entries");
  CHECK(fault_in("torsion: {front: [A, A], rear: [A, B]}\n") == "`A` is listed twice");
  CHECK(fault_in("bench_test: {weights: {}, gauges: {A: z}}\n") == "`weights` has 0 entries");
  CHECK(fault_in("supports: {A: []}\n") == "`A` has 0 entries");
}

}  // namespace tubewright::checked_value_test
