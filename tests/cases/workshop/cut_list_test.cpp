#include "cases/workshop/cut_list.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "cases/frame/mirror.h"
#include "cases/pieces/saw_angles.h"
#include "tests/cases/attachments/attachment_frames.h"
#include "tests/cases/attachments/gusset_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_list_test {

using namespace tubewright::testing;

namespace {

const CutGroup& group_with(const CutList& list, const std::string& name) {
  for (const CutGroup& g : list.groups) {
    if (std::find(g.names.begin(), g.names.end(), name) != g.names.end()) return g;
  }
  FAIL("no group holds " + name);
  return list.groups.front();
}

}  // namespace

TEST_CASE("pieces that are cut alike are one group, whichever way they were drawn") {
  Frame f = rectangle();
  std::swap(f.members[2].from, f.members[2].to);
  const CutList list = cut_list(f);
  REQUIRE(list.groups.size() == 2);
  CHECK(list.groups[0].label == "A");
  CHECK(list.groups[0].names == std::vector<std::string>{"AB", "CD"});
  CHECK(list.groups[1].names == std::vector<std::string>{"BC", "DA"});
}

TEST_CASE("a piece turned about its axis is the same piece, its mirror image is not") {
  // Two braces of one length whose compound cuts are mirror images of each other.
  Frame f = empty_frame();
  SectionEntry thin = f.sections.front();
  thin.name = "thin";
  thin.height = thin.width = 0.020;
  f.sections.push_back(thin);
  for (const auto& [side, y] : {std::pair{"l", 0.2}, {"r", -0.2}}) {
    const std::string s = side;
    add_node(f, "a" + s, -0.5, y, 0);
    add_node(f, "b" + s, 0.5, y, 0);
    add_node(f, "n" + s, 0, y, 0);
    for (int i = 1; i <= 2; ++i) {
      Member& m = add_member(f, "rail_" + s + "." + std::to_string(i), i == 1 ? "a" + s : "n" + s,
                             i == 1 ? "n" + s : "b" + s);
      m.tube = "rail_" + s;
    }
    add_node(f, "top" + s, 0.15, y * 1.3, 0.3);
    add_member(f, "brace_" + s, "n" + s, "top" + s).section = "thin";
  }
  const CutList list = cut_list(f);
  CHECK(group_with(list, "rail_l").names.size() == 2);
  CHECK(&group_with(list, "brace_l") != &group_with(list, "brace_r"));
  const CutGroup &l = group_with(list, "brace_l"), &r = group_with(list, "brace_r");
  CHECK((l.mirror_of == r.label) != (r.mirror_of == l.label));
  CHECK_THAT(group_with(list, "brace_l").piece.long_point,
             WithinRel(group_with(list, "brace_r").piece.long_point, 1e-9));
}

TEST_CASE("left and right pieces of a mirrored frame are one group or two that are images") {
  // Braces from a node in the middle to both sides of a keel, a post beside them.
  Frame f = empty_frame();
  SectionEntry thin = f.sections.front();
  thin.name = "thin";
  thin.height = thin.width = 0.020;
  f.sections.push_back(thin);
  add_node(f, "K0", -0.5, 0, 0);
  add_node(f, "K1", 0, 0, 0);
  add_node(f, "K2", 0.5, 0, 0);
  add_node(f, "top_l", 0.1, 0.2, 0.3);
  add_node(f, "front_l", 0.3, 0.2, 0);
  for (int i = 1; i <= 2; ++i) {
    add_member(f, "keel." + std::to_string(i), i == 1 ? "K0" : "K1", i == 1 ? "K1" : "K2").tube =
        "keel";
  }
  add_member(f, "brace_l", "K1", "top_l").section = "thin";
  add_member(f, "floor_l", "K1", "front_l").section = "thin";
  f.mirror = MirrorRule{"_l", "_r", {}};
  REQUIRE(expand_mirror(f).empty());
  const CutList list = cut_list(f);
  for (const std::string name : {"brace", "floor"}) {
    const CutGroup &l = group_with(list, name + "_l"), &r = group_with(list, name + "_r");
    CHECK((&l == &r || l.mirror_of == r.label || r.mirror_of == l.label));
    CHECK(l.names.size() + r.names.size() == (&l == &r ? 4 : 2));
  }
}

TEST_CASE("every tube is cut from some bar, and bars are counted with their proof") {
  const CutList list = cut_list(rectangle());
  REQUIRE(list.orders.size() == 1);
  const Nesting& n = list.orders[0].nesting;
  CHECK(n.bars_needed == 1);  // 2.1 m of 6 m
  CHECK(n.optimal);
  std::multiset<int> cut(n.bars[0].pieces.begin(), n.bars[0].pieces.end());
  CHECK(cut == std::multiset<int>{0, 0, 1, 1});
  // 6000 - 2 x 20 - 2 x 625 - 2 x 425 - 4 x 2
  CHECK_THAT(n.bars[0].rest, WithinRel(3.852, 1e-9));
}

TEST_CASE("the mass as cut of a mitred frame is that of its centre lines") {
  const Frame f = rectangle();
  const double per_metre = 7850 * build_model(f).model.sections[0].A;
  CHECK_THAT(cut_list(f).mass, WithinRel(2.0 * per_metre, 1e-9));
}

TEST_CASE("a piece longer than a bar is named, not lost") {
  Frame f = rectangle();
  f.stock = Stock{};
  f.stock->length = 0.5;
  const CutList list = cut_list(f);
  CHECK_THAT(text_of(list.remarks), ContainsSubstring("more than a bar gives"));
  CHECK(list.groups.size() == 2);
}

TEST_CASE("nodes nearer than the tubes are wide leave nothing to cut, and it says so") {
  Frame f = rectangle();
  f.nodes[1].at.x() = f.nodes[2].at.x() = 0.020;
  CHECK_THAT(text_of(cut_list(f).remarks), ContainsSubstring("nothing is left"));
}

TEST_CASE("the diagonals of a bay are those between its nodes") {
  const CutList list = cut_list(rectangle());
  REQUIRE(list.jig.size() == 1);
  CHECK_THAT(list.jig[0].first, WithinRel(std::hypot(0.6, 0.4), 1e-12));
  CHECK_THAT(list.jig[0].second, WithinRel(std::hypot(0.6, 0.4), 1e-12));
}

TEST_CASE("prices of the stock are those of the bars bought") {
  Frame f = rectangle();
  f.stock = Stock{};
  f.stock->sizes.push_back({Shape::square_tube, 0.025, 0.025, 0.002, 14.5});
  CHECK(cut_list(f).orders[0].bar_price == 14.5);
}

TEST_CASE("the turn between the ends tells a trapezium from a parallelogram") {
  // Planes of 45 degrees; x runs inward at both ends, y and z stay, so parallel planes have
  // opposite slopes (derived).
  const auto turn = [](CutPlane first, CutPlane second) {
    CutPiece piece;
    piece.ends[0].cuts = {{{first}, 0, EndKind::face}};
    piece.ends[1].cuts = {{{second}, 0, EndKind::face}};
    return turn_between_ends(piece);
  };
  constexpr double pi = std::numbers::pi;
  CHECK_THAT(*turn({0, 1, 0}, {0, 1, 0}), WithinAbs(0, 1e-12));    // trapezium
  CHECK_THAT(*turn({0, 1, 0}, {0, -1, 0}), WithinAbs(pi, 1e-12));  // parallelogram
  CHECK_THAT(*turn({0, -1, 0}, {0, 1, 0}), WithinAbs(pi, 1e-12));
  // From the side of -y to that of -z: from y to z clockwise looking along x.
  CHECK_THAT(*turn({0, 1, 0}, {0, 0, 1}), WithinAbs(pi / 2, 1e-12));
  CHECK_THAT(*turn({0, 0, 1}, {0, 1, 0}), WithinAbs(-pi / 2, 1e-12));
  CHECK_FALSE(turn({0, 1, 0}, {0, 0, 0}));  // a square end
}

TEST_CASE("a brace between parallel rails has its long points on opposite sides") {
  Frame f = empty_frame();
  for (const double y : {0.0, 0.3}) {
    const std::string side = y == 0 ? "a" : "b";
    add_node(f, side + "1", 0, y, 0);
    add_node(f, side + "2", 0.4, y, 0);
    add_node(f, side + "3", 0.8, y, 0);
    Member& rail = add_member(f, "rail_" + side + ".1", side + "1", side + "2");
    rail.tube = "rail_" + side;
    Member& more = add_member(f, "rail_" + side + ".2", side + "2", side + "3");
    more.tube = "rail_" + side;
  }
  add_member(f, "brace", "a2", "b3");
  const CutList list = cut_list(f);
  CHECK_THAT(std::abs(*turn_between_ends(group_with(list, "brace").piece)),
             WithinAbs(std::numbers::pi, 1e-6));
}

TEST_CASE("a compound cut turns into mitre and bevel of a saw") {
  // Corner of a cube cut off equally: tan mitre = 1, and the tilt that is left has sine 1/sqrt 3.
  const SawAngles a = saw_angles({0, 1, 1});
  CHECK_THAT(a.mitre, WithinRel(std::numbers::pi / 4, 1e-12));
  CHECK_THAT(std::sin(a.bevel), WithinRel(1 / std::sqrt(3.0), 1e-12));
}

TEST_CASE("a tube is sawn as if nothing were fixed to it") {
  Frame f = rectangle();
  const CutList bare = cut_list(f);
  f.attachments = {testing::tab("ear", "AB", 0.5, Face::bottom),
                   testing::tab("lug", "AB", 0.25, Face::top),
                   testing::tab("end", "BC", 0.0, Face::top)};
  const CutList list = cut_list(testing::expanded(f));
  REQUIRE(list.groups.size() == bare.groups.size());
  for (size_t g = 0; g < list.groups.size(); ++g) {
    CHECK(list.groups[g].names == bare.groups[g].names);
    CHECK_THAT(list.groups[g].piece.long_point, WithinRel(bare.groups[g].piece.long_point, 1e-12));
  }
}

TEST_CASE("gussets that are cut alike are one row, legs either way round") {
  testing::GussetCorner corner;
  corner.first_leg = 80;
  corner.second_leg = 50;
  Frame f = testing::gusset_frame(corner);
  testing::add_node(f, "C", -0.4, 0, 0);
  testing::add_member(f, "back", "M", "C");
  Gusset other = f.gussets[0];
  other.name = "h";
  other.legs = {f.gussets[0].legs[1], f.gussets[0].legs[0]};
  other.legs[1].tube = "back";
  other.at_sides = true;
  f.gussets.push_back(other);
  const CutList list = cut_list(testing::expanded(f));
  REQUIRE(list.gussets.size() == 1);
  const GussetCut& cut = list.gussets[0];
  CHECK(cut.plates == 3);
  CHECK(cut.names == std::vector<std::string>{"g", "h"});
  CHECK(cut.long_leg == 0.080);
  CHECK(cut.short_leg == 0.050);
  CHECK_THAT(cut.angle, WithinRel(1.5707963, 1e-7));
  CHECK_THAT(cut.mass, WithinRel(0.080 * 0.050 / 2 * 0.004 * 7850, 1e-9));
  std::size_t tubes = 0;
  for (const CutGroup& group : list.groups) tubes += group.names.size();
  CHECK(tubes == 3);  // parted tubes are cut whole
}

}  // namespace tubewright::cut_list_test
