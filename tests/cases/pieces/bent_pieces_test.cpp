// Bent tubes as pieces of stock: lengths by hand (derived for this project).
#include "cases/pieces/bent_pieces.h"

#include <numbers>

#include "cases/bends/expand_bends.h"
#include "cases/workshop/cut_list.h"
#include "tests/cases/small_frames.h"
#include "tests/truth.h"

namespace tubewright::bent_pieces_test {

using namespace tubewright::testing;

namespace {

constexpr double mm = 1e-3;
constexpr double pi = std::numbers::pi;

void add_path(Frame& f, const std::string& tube, const std::vector<std::string>& nodes,
              double radius) {
  for (size_t i = 0; i + 1 < nodes.size(); ++i) {
    Member& m = add_member(f, tube + "." + std::to_string(i + 1), nodes[i], nodes[i + 1]);
    m.tube = tube;
    if (i + 2 < nodes.size()) m.bend = radius;
  }
}

/// A rail along x and a bent tube that rises from its middle, turns and comes down on its side:
/// legs of 300, 400 across.
Frame rail_and_arch() {
  Frame f = empty_frame();
  add_node(f, "A", -0.5, 0, 0);
  add_node(f, "M", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_path(f, "rail", {"A", "M", "B"}, 0);
  add_node(f, "t", 0, 0, 0.3);
  add_node(f, "u", 0, 0.4, 0.3);
  add_node(f, "v", 0, 0.4, 0);
  add_path(f, "arch", {"M", "t", "u", "v"}, 0.1);
  REQUIRE(expand_bends(f).empty());
  return f;
}

const CutGroup& group_of(const CutList& list, const std::string& name) {
  for (const CutGroup& g : list.groups) {
    if (std::find(g.names.begin(), g.names.end(), name) != g.names.end()) return g;
  }
  FAIL("no piece " << name);
  return list.groups.front();
}

}  // namespace

TEST_CASE(
    "a bent tube is one piece, its ends cut as any tube's, its bends told from its long point",
    "[truth]") {
  const Source by_hand = rederived("straights and arcs by hand");
  const CutList list = cut_list(rail_and_arch());
  const CutPiece& arch = group_of(list, "arch").piece;
  // The rail takes half of its 25 mm off the first leg.
  truth("arch of 300, 400, 300, R 100, on a rail, mm", by_hand, arch.long_point / mm,
        within_rel(1000 - 2 * 200 + 100 * pi - 12.5, 1e-9));
  CHECK(arch.ends[0].kind == EndKind::face);
  CHECK(list.tube_names[static_cast<size_t>(arch.ends[0].cuts[0].against)] == "rail");
  CHECK(arch.ends[1].kind == EndKind::square);
  REQUIRE(arch.bends.size() == 2);
  CHECK_THAT(arch.bends[0].at - arch.first_point, WithinRel(200 * mm - 12.5 * mm, 1e-9));
  CHECK_THAT(arch.bends[1].at, WithinRel((200 + 50 * pi + 200) * mm, 1e-9));
  CHECK_THAT(arch.weld_length, WithinRel(100 * mm, 1e-9));
  CHECK_THAT(group_of(list, "arch").mass, WithinRel(arch.long_point * 7850 * 173.699e-6, 1e-5));
}

TEST_CASE("bent tubes are alike if their bends are, whichever way they lie") {
  Frame f = empty_frame();
  const auto hook = [&](const std::string& name, double x, double radius, bool back) {
    add_node(f, name + "a", x, 0, 0);
    add_node(f, name + "b", x, 0.5, 0);
    add_node(f, name + "c", x, 0.5, 0.3);
    const std::vector<std::string> there = {name + "a", name + "b", name + "c"};
    add_path(f, name, back ? std::vector(there.rbegin(), there.rend()) : there, radius);
  };
  hook("one", 0, 0.1, false);
  hook("two", 1, 0.1, true);
  hook("tight", 2, 0.08, false);
  REQUIRE(expand_bends(f).empty());
  const CutList list = cut_list(f);
  REQUIRE(list.groups.size() == 2);
  CHECK(group_of(list, "one").names == std::vector<std::string>{"one", "two"});
}

TEST_CASE("a tube bent to the left twice is the mirror image of one bent to the right") {
  Frame f = empty_frame();
  for (const double side : {1.0, -1.0}) {
    const std::string name = side > 0 ? "left" : "right";
    add_node(f, name + "a", 0, side, 0);
    add_node(f, name + "b", 0.5, side, 0);
    add_node(f, name + "c", 0.5, 1.5 * side, 0);
    add_node(f, name + "d", 0.5, 1.5 * side, 0.6);
    add_path(f, name, {name + "a", name + "b", name + "c", name + "d"}, 0.1);
  }
  REQUIRE(expand_bends(f).empty());
  const CutList list = cut_list(f);
  REQUIRE(list.groups.size() == 2);
  CHECK(list.groups[1].mirror_of == list.groups[0].label);
}

TEST_CASE("without bends the pieces are left as they are") {
  Frame f = rectangle();
  const NumberedFrame n = build_model(f);
  CHECK(joined_over_bends(f, n, cut_straight_parts(f, n)).size() == 4);
}

}  // namespace tubewright::bent_pieces_test
