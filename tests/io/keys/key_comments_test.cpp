// Comments on an example: a YAML parser that is not ours finds the same document under them.
#include "io/keys/key_comments.h"

#include <yaml-cpp/yaml.h>

#include <map>
#include <sstream>

#include "io/keys/frame_keys.h"
#include "tests/catch.h"

namespace tubewright::key_comments_test {

namespace {

constexpr const char* example = R"(frame: Garden trolley
gravity: 9.81
materials:
  own:
    E: 210000
    nu: 0.3
sections:
  rail:
    shape: square_tube
    side: 25
    wall: 2
    material: S235
  rod:
    shape: round_bar
    diameter: 8
    material: S235
members:
  AB:
    from: A
    to: B
    section: rail
    release_from: [My]
  BC:
    kind: spring
    from: B
    to: C
    rate: 30
vehicle:
  wheels:
    fl:
      contact: [0, 450, 0]
      axle: front

life:
  spectrum:
    - case: bump
      cycles: 10000
    - vertical: 1
      cycles: 20000
)";

struct Line {
  std::string text, comment;
};

/// A line taken apart at its comment, further lines of the comment joined to the first.
std::vector<Line> lines_of(const std::string& text) {
  std::vector<Line> lines;
  std::istringstream stream(text);
  for (std::string whole; std::getline(stream, whole);) {
    const std::size_t mark = whole.find('#');
    std::string left = whole.substr(0, mark);
    left.erase(left.find_last_not_of(' ') + 1);
    const std::string comment =
        mark == std::string::npos ? "" : whole.substr(std::min(mark + 2, whole.size()));
    if (left.empty() && !comment.empty() && !lines.empty()) {
      lines.back().comment += " " + comment;
    } else {
      lines.push_back({left, comment});
    }
  }
  return lines;
}

/// The comment on the first line that begins so.
std::string comment_on(const std::string& start) {
  for (const Line& line : lines_of(with_key_comments(example))) {
    if (line.text.starts_with(start)) return line.comment;
  }
  FAIL("no line " << start);
  return "";
}

}  // namespace

TEST_CASE("comments on an example change nothing of what it says") {
  const std::string commented = with_key_comments(example);
  CHECK(YAML::Dump(YAML::Load(commented)) == YAML::Dump(YAML::Load(example)));
  std::string without;
  for (const Line& line : lines_of(commented)) without += line.text + "\n";
  CHECK(without == example);
}

TEST_CASE("a key of an example is explained by the help of the table at its place") {
  CHECK_THAT(comment_on("gravity:"),
             ContainsSubstring(find_key(frame_keys(), "gravity")->help + "; absent: 9.80665"));
  const auto& sections = find_key(frame_keys(), "sections")->kind->element->groups;
  CHECK_THAT(comment_on("    side:"), ContainsSubstring(find_key(sections[0], "side")->help));
  CHECK_THAT(comment_on("    diameter:"), ContainsSubstring("outer diameter, mm"));
  CHECK_THAT(comment_on("    rate:"), ContainsSubstring("force per length, N/mm"));
  CHECK_THAT(comment_on("    - case:"), ContainsSubstring("the load case at one end"));
  CHECK_THAT(comment_on("      cycles:"), ContainsSubstring("how often"));
  CHECK_THAT(comment_on("vehicle:"), ContainsSubstring("wheels, brakes and what they load"));
  // The user's own names need no help.
  CHECK(comment_on("  rail:").empty());
  CHECK(comment_on("  AB:").empty());
}

TEST_CASE("a choice is told by its words, and what was said is not said again") {
  CHECK_THAT(comment_on("    shape:"),
             ContainsSubstring("(square_tube, rectangular_tube, round_tube, round_bar, flat_bar, "
                               "properties)"));
  std::map<std::string, int> told;
  for (const Line& line : lines_of(with_key_comments(example))) {
    if (!line.comment.empty()) ++told[line.comment];
  }
  CHECK(told.size() > 15);
  for (const auto& [comment, times] : told) {
    INFO(comment);
    CHECK(times == 1);
  }
}

TEST_CASE("commented lines leave room for a sign before them and no line ends in spaces") {
  std::istringstream stream(with_key_comments(example));
  for (std::string line; std::getline(stream, line);) {
    INFO(line);
    CHECK(line.size() <= 98);
    CHECK((line.empty() || line.back() != ' '));
  }
}

}  // namespace tubewright::key_comments_test
