// Frame files with other sizes in them, held against the exact text that should come out, and read
// again.
#include "io/changes/resized_file.h"

#include <algorithm>
#include <map>
#include <random>

#include "cases/changes/stock_sizes.h"
#include "cases/changes/tube_edits.h"
#include "cases/frame/find_parts.h"
#include "cases/sizing/size_study.h"
#include "io/frame_file/read_frame.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::resized_file_test {

using testing::answer_of;
using testing::text_of;

namespace {

Frame frame_of(const std::string& text) {
  const FrameReading reading = read_frame(FrameText{"frame.yaml", text});
  INFO(text << text_of(reading.diagnostics));
  REQUIRE(reading.sound());
  return reading.frame;
}

using Sizes = std::map<std::string, StockSize>;

StockSize square(double side, double wall) {
  return {Shape::square_tube, side / 1000, side / 1000, wall / 1000, {}};
}

/// The frame with the members of these names, or of tubes of these names, in other sizes.
Frame resized(Frame frame, const Sizes& sizes) {
  for (const auto& [name, size] : sizes) {
    for (std::size_t i = 0; i < frame.members.size(); ++i) {
      const Member& m = frame.members[i];
      if (m.name != name && m.tube != name) continue;
      SectionEntry section = in_size(find_section(frame, m.section), size);
      section.name += " of " + name + std::to_string(i);
      frame = with_section(frame, {static_cast<int>(i)}, section);
    }
  }
  return frame;
}

Result<std::string> outcome(const std::string& text, const Sizes& sizes) {
  const Frame frame = frame_of(text);
  return resized_file({"frame.yaml", text}, frame, resized(frame, sizes));
}

std::string rewritten(const std::string& text, const Sizes& sizes) {
  return answer_of(outcome(text, sizes));
}

std::string replaced(std::string text, const std::string& old, const std::string& with) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), with);
}

/// Everything from a number sign to the end of its line.
std::vector<std::string> remarks_of(const std::string& text) {
  std::vector<std::string> remarks;
  for (std::size_t at = text.find('#'); at != std::string::npos; at = text.find('#', at + 1)) {
    remarks.push_back(text.substr(at, text.find('\n', at) - at));
  }
  return remarks;
}

constexpr const char* two_sections =
    "# A trolley.   \n"  // blanks at its end stay too
    R"(frame: Trolley   # its title
sections:
  # the long ones
  rail: {shape: square_tube, side: 25, wall: 2.0, material: S235}   # bought in May
  brace:
    shape: square_tube   # cold formed
    side: 20 mm
    wall: "1.5 mm"
    material: 'S235'
nodes: {A: [0, 0, 0], B: [500, 0, 0], C: [0, 500, 0], D: [0, 0, 500]}
members:
  AB: {from: A, to: B, section: rail}
  BC: {from: B, to: C, section: "rail"}  # the other
  CA:
    from: C
    section: 'brace'   # thin
    to: A
  AD: {from: A, to: D, section: brace}
supports: {A: fixed}
cases: {standing: {kind: static, gravity: [0, 0, -1]}}
)";

}  // namespace

TEST_CASE("sizes that stay leave every byte of the file as it is") {
  CHECK(rewritten(two_sections, {}) == two_sections);
  CHECK(rewritten(two_sections, {{"AB", square(25, 2)}}) == two_sections);
}

TEST_CASE("a section whose members all get one size gets it, in flow and in block style") {
  std::string expected = replaced(two_sections, "side: 25, wall: 2.0", "side: 30, wall: 1.5");
  CHECK(rewritten(two_sections, {{"AB", square(30, 1.5)}, {"BC", square(30, 1.5)}}) == expected);
  // The side alone changes: the wall keeps the way it is written.
  expected = replaced(two_sections, "side: 25,", "side: 30,");
  CHECK(rewritten(two_sections, {{"AB", square(30, 2)}, {"BC", square(30, 2)}}) == expected);
  // Units stay where they are the file's own.
  expected =
      replaced(replaced(two_sections, "side: 20 mm", "side: 22.5 mm"), "\"1.5 mm\"", "\"2 mm\"");
  CHECK(rewritten(two_sections, {{"CA", square(22.5, 2)}, {"AD", square(22.5, 2)}}) == expected);
}

TEST_CASE("another unit goes, with its quotes") {
  const std::string inches =
      replaced(two_sections, "side: 25, wall: 2.0", "side: \"1 in\", wall: '2 mm'");
  CHECK(rewritten(inches, {{"AB", square(30, 1.5)}, {"BC", square(30, 1.5)}}) ==
        replaced(two_sections, "side: 25, wall: 2.0", "side: 30, wall: '1.5 mm'"));
}

TEST_CASE("members that part from others of their section get one of their own behind it") {
  std::string expected = replaced(two_sections, "# bought in May\n",
                                  "# bought in May\n  rail_30x1.5: {shape: square_tube, side: 30, "
                                  "wall: 1.5, material: S235}\n");
  expected = replaced(expected, "section: \"rail\"", "section: \"rail_30x1.5\"");
  CHECK(rewritten(two_sections, {{"BC", square(30, 1.5)}}) == expected);

  expected = replaced(two_sections, "    material: 'S235'\n",
                      "    material: 'S235'\n  brace_25x2:\n    shape: square_tube\n    side: 25\n"
                      "    wall: 2\n    material: \"S235\"\n");
  expected = replaced(expected, "section: 'brace'   # thin", "section: 'brace_25x2'   # thin");
  CHECK(rewritten(two_sections, {{"CA", square(25, 2)}}) == expected);
}

TEST_CASE("of two new sizes the first takes the section over, so that none is left unused") {
  std::string expected =
      replaced(two_sections, "side: 25, wall: 2.0, material: S235}   # bought in May\n",
               "side: 30, wall: 2.0, material: S235}   # bought in May\n"
               "  rail_40x3: {shape: square_tube, side: 40, wall: 3, material: S235}\n");
  expected = replaced(expected, "section: \"rail\"", "section: \"rail_40x3\"");
  CHECK(rewritten(two_sections, {{"AB", square(30, 2)}, {"BC", square(40, 3)}}) == expected);
}

TEST_CASE("a new section's name is one that the file does not have") {
  const std::string taken =
      replaced(two_sections, "  # the long ones\n",
               "  brace_25x2: {shape: round_bar, diameter: 9, material: S235}\n");
  const std::string text = rewritten(taken, {{"CA", square(25, 2)}});
  CHECK_THAT(text, ContainsSubstring("\n  brace_25x2_2:\n"));
  CHECK_THAT(text, ContainsSubstring("section: 'brace_25x2_2'"));
}

TEST_CASE("line ends and a byte order mark stay as they are") {
  std::string windows;
  for (const char c : std::string(two_sections))
    windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
  windows = "\xEF\xBB\xBF" + windows;
  const std::string text = rewritten(windows, {{"BC", square(30, 1.5)}, {"CA", square(25, 2)}});
  CHECK(text.starts_with("\xEF\xBB\xBF# A trolley.   \r\n"));
  CHECK_THAT(text, ContainsSubstring("\r\n  rail_30x1.5: {shape"));
  CHECK_THAT(text, ContainsSubstring("\r\n  brace_25x2:\r\n    shape: square_tube\r\n"));
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') REQUIRE(text[i - 1] == '\r');
  }
}

TEST_CASE("everything in braces on one line gets its new section within them") {
  const std::string flow =
      "{frame: Tie, sections: {s: {shape: square_tube, side: 20, wall: 2, material: S235}}, nodes: "
      "{A: [0, 0, 0], B: [500, 0, 0], C: [0, 500, 0]}, members: {AB: {from: A, to: B, section: s}, "
      "AC: {from: A, to: C, section: s}}, supports: {A: fixed}}";
  CHECK(rewritten(flow, {{"AC", square(25, 2)}}) ==
        replaced(replaced(flow, "S235}}",
                          "S235}, s_25x2: {shape: square_tube, side: 25, wall: 2, "
                          "material: S235}}"),
                 "to: C, section: s}", "to: C, section: s_25x2}"));
}

TEST_CASE("a path and its mirror image are written once") {
  const std::string half = R"(frame: Bed
sections:
  rail: {shape: square_tube, side: 30, wall: 2, material: S235}
nodes: {a_l: [0, 300, 0], b_l: [500, 300, 0], c_l: [900, 300, 0]}
members:
  rail_l: {path: [a_l, b_l, c_l], section: rail}
  cross_a: {from: a_l, to: a_r, section: rail}
  cross_b: {from: b_l, to: b_r, section: rail}
  cross_c: {from: c_l, to: c_r, section: rail}
mirror: {from: _l, to: _r}
supports: {a_l: pinned}
)";
  const Sizes both = {{"rail_l", square(40, 2)}, {"rail_r", square(40, 2)}};
  const std::string text = rewritten(half, both);
  CHECK_THAT(text, ContainsSubstring("rail_l: {path: [a_l, b_l, c_l], section: rail_40x2}"));
  const Frame f = frame_of(text);
  for (const Member& m : f.members) {
    INFO(m.name);
    CHECK(find_section(f, m.section).height == (m.tube.empty() ? 0.03 : 0.04));
  }
  // One side of the mirror, or one piece of the path, alone cannot be told apart in the file.
  for (const char* one : {"rail_l", "rail_r", "rail_l.1"}) {
    const auto refused = outcome(half, {{one, square(40, 2)}});
    REQUIRE_FALSE(refused.has_value());
    CHECK_THAT(text_of(*refused.error()),
               ContainsSubstring("member `rail_l` stands once in the file"));
    CHECK(refused.error()->front().place.line == 6);
  }
}

TEST_CASE("all shapes are written by their own keys") {
  const std::string shapes = R"(frame: Shapes
sections:
  a: {shape: rectangular_tube, height: 40, width: 20, wall: 2, material: S235}
  b: {shape: round_tube, diameter: 30, wall: 2, material: S235, weld_filler: 500}
  c: {shape: round_bar, diameter: 10, material: S235}
  d: {shape: flat_bar, height: 30, width: 5, material: S235}
nodes: {O: [0, 0, 0], A: [500, 0, 0], B: [0, 500, 0], C: [0, 0, 500], D: [300, 300, 300]}
members:
  OA: {from: O, to: A, section: a}
  OB: {from: O, to: B, section: b}
  OC: {from: O, to: C, section: c}
  OD: {from: O, to: D, section: d}
supports: {O: fixed}
)";
  const std::string text =
      rewritten(shapes, {{"OA", {Shape::rectangular_tube, 0.05, 0.03, 0.003, {}}},
                         {"OB", {Shape::round_tube, 0.0424, 0.0424, 0.0026, {}}},
                         {"OC", {Shape::round_bar, 0.012, 0.012, 0, {}}},
                         {"OD", {Shape::flat_bar, 0.04, 0.006, 0, {}}}});
  CHECK_THAT(text, ContainsSubstring(
                       "a: {shape: rectangular_tube, height: 50, width: 30, wall: 3, material"));
  CHECK_THAT(
      text,
      ContainsSubstring(
          "b: {shape: round_tube, diameter: 42.4, wall: 2.6, material: S235, weld_filler: 500}"));
  CHECK_THAT(text, ContainsSubstring("c: {shape: round_bar, diameter: 12, material"));
  CHECK_THAT(text, ContainsSubstring("d: {shape: flat_bar, height: 40, width: 6, material"));
}

TEST_CASE("given properties change where the size gives them, others stay, new ones are added") {
  const std::string given = R"(frame: Truss
sections:
  bar: {shape: properties, A: 1000 mm2, Iy: 8e4, Iz: 80000, It: 160000, Wy: 4000, Wz: 4000, Wt: 8000, material: S235}
  post:
    shape: properties
    A: 500  # net
    Iy: 20000
    Iz: 20000
    It: 40000
    Wy: 1500
    Wz: 1500
    Wt: 3000   # the last
    material: S235
nodes: {A: [0, 0, 0], B: [500, 0, 0], C: [0, 500, 0]}
members:
  AB: {kind: link, from: A, to: B, section: bar}
  BC: {kind: link, from: B, to: C, section: bar}
  CA: {from: C, to: A, section: post}
supports: {A: fixed, B: pinned}
)";
  StockSize area{Shape::properties, 0, 0, 0, {}};
  area.given.A = 1374.19e-6;
  StockSize round = area;
  round.given.A = 300e-6;
  round.given.Iy = 1e6 * 1e-12;
  CHECK(rewritten(given, {{"AB", round}, {"BC", round}}) ==
        replaced(replaced(given, "A: 1000 mm2", "A: 300 mm2"), "Iy: 8e4", "Iy: 1000000"));
  StockSize more = area;
  more.given.A = 600e-6;
  more.given.Ay = 250e-6;
  more.given.Wplz = 1.8e-6;
  CHECK(rewritten(given, {{"AB", area}, {"BC", area}}) ==
        replaced(given, "A: 1000 mm2", "A: 1374.19 mm2"));
  std::string expected = replaced(given, "A: 500  # net", "A: 600  # net");
  expected = replaced(expected, "# the last\n", "# the last\n    Ay: 250\n    Wplz: 1800\n");
  CHECK(rewritten(given, {{"CA", more}}) == expected);
  const std::string parted = rewritten(given, {{"AB", area}});
  CHECK_THAT(parted,
             ContainsSubstring("\n  bar_1374.19: {shape: properties, A: 1374.19, Iy: 8e4, "));
  CHECK_THAT(parted, ContainsSubstring("to: B, section: bar_1374.19}"));
}

TEST_CASE("an alias is written out where it is to differ; where it cannot be, nothing is written") {
  const std::string anchored = R"(frame: Anchors
sections:
  thin: &tube {shape: square_tube, side: 20, wall: &wall 2, material: S235}
  same: *tube
  wide: {shape: square_tube, side: 40, wall: *wall, material: S235}
nodes: {A: [0, 0, 0], B: [500, 0, 0], C: [0, 500, 0], D: [0, 0, 500]}
members:
  AB: {from: A, to: B, section: &of thin}
  AC: {from: A, to: C, section: *of}
  AD: {from: A, to: D, section: wide}
  BC: {from: B, to: C, section: same}
supports: {A: fixed}
)";
  // `wall: *wall` alone is replaced.
  CHECK(rewritten(anchored, {{"AD", square(40, 3)}}) == replaced(anchored, "*wall", "3"));
  // `section: *of` alone is replaced, and `thin` stays.
  const std::string text = rewritten(anchored, {{"AC", square(30, 2)}});
  CHECK_THAT(text, ContainsSubstring("AC: {from: A, to: C, section: thin_30x2}"));
  CHECK_THAT(text, ContainsSubstring("section: &of thin}"));
  // The anchored word changes its alias too, which is to stay.
  const auto refused = outcome(anchored, {{"AB", square(30, 2)}});
  REQUIRE_FALSE(refused.has_value());
  CHECK_THAT(text_of(*refused.error()), ContainsSubstring("`AC`"));
  // Sections that share one text part.
  const Frame f = frame_of(rewritten(anchored, {{"BC", square(30, 2)}}));
  CHECK(find_section(f, "same").height == 0.02);
  CHECK(find_section(f, f.members[3].section).height == 0.03);
}

// Whatever the file looks like: what is read back has the sizes asked for, member for member, and
// every line that holds none of them is as before, in its order.
TEST_CASE("random files read back with the sizes asked for and keep their other lines") {
  std::mt19937 random(17);
  const auto pick = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
  const StockSize list[] = {square(20, 1.5), square(20, 2), square(25, 2), square(30, 2.5)};
  for (int round = 0; round < 60; ++round) {
    const std::string end = pick(3) == 0 ? "\r\n" : "\n";
    std::string text = "frame: Random # 0" + end + "sections:" + end;
    const int sections = 1 + pick(3);
    int remark = 1;
    const auto comment = [&] {
      return pick(2) == 0 ? std::string() : "   # remark " + std::to_string(remark++);
    };
    for (int s = 0; s < sections; ++s) {
      const std::string name = "s" + std::to_string(s), side = std::to_string(20 + 5 * s);
      if (pick(2) == 0) {
        text += "  " + name + ": { shape: square_tube, side: " + side +
                (pick(2) == 0 ? "" : " mm") + ", 'wall': 2, material: \"S235\" }" + comment() + end;
      } else {
        text += "  \"" + name + "\":" + comment() + end + "      material: S235" + end +
                "      side:  \"" + side + " mm\"" + comment() + end + "      shape: square_tube" +
                end + "      wall: 2e0" + comment() + end;
      }
    }
    text +=
        "nodes: {O: [0, 0, 0], P_l: [500, 100, 0], Q_l: [900, 300, 200]}" + end + "members:" + end;
    const bool mirrored = pick(2) == 0;
    const int members = 1 + pick(6);
    Sizes sizes;
    for (int m = 0; m < members; ++m) {
      const std::string name = "m" + std::to_string(m) + "_l",
                        section = "s" + std::to_string(pick(sections));
      const std::string quote = pick(2) == 0 ? "'" : "";
      const bool path = pick(2) == 0;
      const std::string ends = path ? "path: [O, P_l, Q_l]" : "from: O, to: P_l";
      if (pick(2) == 0) {
        text += "  " + name + ": {" + ends + ", section: " + quote + section + quote + "}" +
                comment() + end;
      } else {
        text += "  " + name + ":" + end + "    section: " + quote + section + quote + comment() +
                end + "    " + (path ? ends : "from: O" + end + "    to: P_l") + end;
      }
      if (pick(3) == 0) continue;
      sizes[name] = list[pick(4)];
      if (mirrored) sizes[name.substr(0, name.size() - 1) + "r"] = sizes[name];
    }
    if (mirrored) text += "mirror: {from: _l, to: _r}" + end;
    text += "supports: {O: fixed}" + (pick(2) == 0 ? end : std::string());
    INFO(text);

    const Frame wanted = resized(frame_of(text), sizes);
    const std::string out = rewritten(text, sizes);
    INFO(out);
    const Frame read = frame_of(out);
    REQUIRE(read.members.size() == wanted.members.size());
    for (std::size_t i = 0; i < read.members.size(); ++i) {
      const SectionEntry &a = find_section(read, read.members[i].section),
                         &b = find_section(wanted, wanted.members[i].section);
      CHECK(read.members[i].name == wanted.members[i].name);
      CHECK_THAT(a.height, WithinRel(b.height, 1e-12));
      CHECK_THAT(a.wall, WithinRel(b.wall, 1e-12));
      CHECK(a.material == b.material);
    }
    CHECK(remarks_of(out) == remarks_of(text));
    for (const char* line : {"frame: Random # 0", "nodes: {O: [0, 0, 0], P_l", "members:"}) {
      CHECK_THAT(out, ContainsSubstring(line));
    }
  }
}

// As `size -o` does it: the file in a choice of sizes is the frame of in_sizes(), section for
// section.
TEST_CASE("the file of a choice of sizes reads back as that choice") {
  const std::string half = R"(frame: Bed
sections:
  rail: {shape: square_tube, side: 30, wall: 2, corners: sharp, material: S355}  # bought
  "cross": {shape: square_tube, side: 20, wall: 1.5, material: S235}
nodes: {a_l: [0, 300, 0], b_l: [500, 300, 0], c_l: [900, 300, 0], d_l: [900, 300, 400]}
members:
  rail_l: {path: [a_l, b_l, c_l], section: rail}
  post_l: {from: c_l, to: d_l, section: rail}
  cross_a: {from: a_l, to: a_r, section: "cross"}
  cross_b: {from: b_l, to: b_r, section: cross}
  top: {from: d_l, to: d_r, section: rail}
mirror: {from: _l, to: _r}
supports: {a_l: pinned}
)";
  const Frame frame = frame_of(half);
  const auto group = [&](const std::vector<std::string>& names) {
    SizedTubes tubes;
    for (std::size_t i = 0; i < frame.members.size(); ++i) {
      const Member& m = frame.members[i];
      const std::string& name = m.tube.empty() ? m.name : m.tube;
      if (std::find(names.begin(), names.end(), name) == names.end()) continue;
      tubes.members.push_back(static_cast<int>(i));
    }
    tubes.stock = {square(20, 1.5), square(25, 2), square(30, 2), square(42.4, 2.6)};
    return tubes;
  };
  // The second group has tubes of both sections, which keep their materials and corners.
  const std::vector<SizedTubes> groups = {group({"rail_l", "rail_r"}),
                                          group({"post_l", "post_r", "cross_a"}), group({"top"})};
  std::mt19937 random(5);
  std::uniform_int_distribution<int> pick(-1, 3);
  for (int round = 0; round < 60; ++round) {
    const std::vector<int> choice = {pick(random), pick(random), pick(random)};
    const Frame wanted = in_sizes(frame, groups, choice);
    const std::string text = answer_of(resized_file({"frame.yaml", half}, frame, wanted));
    INFO(text);
    const Frame read = frame_of(text);
    REQUIRE(read.members.size() == wanted.members.size());
    for (std::size_t i = 0; i < read.members.size(); ++i) {
      const SectionEntry &a = find_section(read, read.members[i].section),
                         &b = find_section(wanted, wanted.members[i].section);
      CHECK(read.members[i].name == wanted.members[i].name);
      CHECK_THAT(a.height, WithinRel(b.height, 1e-12));
      CHECK_THAT(a.width, WithinRel(b.width, 1e-12));
      CHECK_THAT(a.wall, WithinRel(b.wall, 1e-12));
      CHECK(a.material == b.material);
      CHECK(a.corners == b.corners);
    }
    // A section that all of its members have left would be told of as unused.
    for (const SectionEntry& s : read.sections) {
      CHECK(std::any_of(read.members.begin(), read.members.end(),
                        [&](const Member& m) { return m.section == s.name; }));
    }
    CHECK(remarks_of(text) == remarks_of(half));
  }
}

}  // namespace tubewright::resized_file_test
