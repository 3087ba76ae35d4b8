// Cut lengths against plane geometry, worked by hand beside each check.
#include "cases/cut_geometry.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

using namespace tubewright;
using namespace tubewright::testing;

namespace {

constexpr double mm = 1e-3;

SectionEntry square(const std::string& name, double side) {
  SectionEntry s;
  s.name = name;
  s.height = s.width = side;
  s.wall = 0.002;
  s.material = "S235";
  return s;
}

/// A rail of 25 mm from A through B to C along x, 1 m, B in the middle.
Frame rail() {
  Frame f = empty_frame();
  f.sections.push_back(square("thin", 0.020));
  add_node(f, "A", -0.5, 0, 0);
  add_node(f, "B", 0, 0, 0);
  add_node(f, "C", 0.5, 0, 0);
  for (int i = 1; i <= 2; ++i) {
    add_member(f, "rail." + std::to_string(i), i == 1 ? "A" : "B", i == 1 ? "B" : "C").tube =
        "rail";
  }
  return f;
}

CutPiece piece_of(const Frame& f, const std::string& name) {
  for (const CutPiece& p : cut_pieces(f, build_model(f))) {
    if (p.tube.name == name) return p;
  }
  FAIL("no piece " + name);
  return {};
}

Member& add_thin(Frame& f, const std::string& name, double x, double y, double z) {
  add_node(f, name + "_end", x, y, z);
  Member& m = add_member(f, name, "B", name + "_end");
  m.section = "thin";
  return m;
}

}  // namespace

TEST_CASE("a path in one line is one piece, whole at the nodes it runs through") {
  Frame f = rail();
  add_thin(f, "post", 0, 0, 0.4);
  const CutPiece p = piece_of(f, "rail");
  CHECK(p.tube.members.size() == 2);
  CHECK_THAT(p.long_point, WithinRel(1.0, 1e-12));
  CHECK_THAT(p.short_point, WithinRel(1.0, 1e-12));
}

TEST_CASE("a post square on a rail is shorter by half the rail") {
  Frame f = rail();
  add_thin(f, "post", 0, 0, 0.4);
  const CutPiece p = piece_of(f, "post");
  CHECK(p.ends[0].kind == EndKind::face);
  CHECK(p.ends[1].kind == EndKind::square);
  CHECK_THAT(p.long_point, WithinRel(0.4 - 12.5 * mm, 1e-12));
  CHECK_THAT(p.short_point, WithinRel(p.long_point, 1e-12));
  CHECK_THAT(p.weld_length, WithinRel(2 * 80 * mm, 1e-12));
}

TEST_CASE("a brace at 45 degrees is cut at 45 degrees along the rail's face") {
  Frame f = rail();
  add_thin(f, "brace", 0.3, 0, 0.3);
  const CutPiece p = piece_of(f, "brace");
  const double L = 0.3 * std::numbers::sqrt2;
  // Its axis meets the face 12.5/sin 45 from the node; its sides 10 mm before and after.
  CHECK_THAT(p.ends[0].begin(0, 0), WithinRel(12.5 * mm * std::numbers::sqrt2, 1e-9));
  CHECK_THAT(p.long_point, WithinRel(L - 12.5 * mm * std::numbers::sqrt2 + 10 * mm, 1e-9));
  CHECK_THAT(p.short_point, WithinRel(L - 12.5 * mm * std::numbers::sqrt2 - 10 * mm, 1e-9));
  const CutPlane& cut = p.ends[0].cuts[0].planes[0];
  CHECK_THAT(std::abs(cut.mitre) + std::abs(cut.bevel), WithinRel(1.0, 1e-9));
  // Round a cut at 45 degrees: two sides of 20, two of 20 sqrt 2.
  CHECK_THAT(p.weld_length, WithinRel(80 * mm + 40 * mm + 40 * mm * std::numbers::sqrt2, 1e-9));
}

TEST_CASE("the corners of a frame of one tube are mitred at 45 degrees") {
  const Frame f = rectangle();  // 600 by 400 of 25 mm
  for (const auto& [name, length] : {std::pair{"AB", 0.6}, {"BC", 0.4}}) {
    const CutPiece p = piece_of(f, name);
    for (const TubeEnd& e : p.ends) CHECK(e.kind == EndKind::mitre);
    CHECK_THAT(p.long_point, WithinRel(length + 25 * mm, 1e-9));
    CHECK_THAT(p.short_point, WithinRel(length - 25 * mm, 1e-9));
  }
}

TEST_CASE("at a corner of unequal tubes the bigger reaches to the outside, the other butts") {
  Frame f = empty_frame();
  f.sections.push_back(square("thin", 0.020));
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.6, 0, 0);
  add_node(f, "C", 0.6, 0.4, 0);
  add_member(f, "small", "B", "C").section = "thin";
  add_member(f, "big", "A", "B");
  CHECK_THAT(piece_of(f, "big").long_point, WithinRel(0.6 + 10 * mm, 1e-9));
  CHECK_THAT(piece_of(f, "small").long_point, WithinRel(0.4 - 12.5 * mm, 1e-9));
}

TEST_CASE("a path that turns is two runs with a mitre, by half the turn each") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 0.5 + 0.3 * std::cos(1.0), 0.3 * std::sin(1.0), 0);
  add_member(f, "hoop.1", "A", "B").tube = "hoop";
  add_member(f, "hoop.2", "B", "C").tube = "hoop";
  const CutPiece p = piece_of(f, "hoop.1");
  CHECK(p.ends[1].kind == EndKind::mitre);
  CHECK_THAT(p.long_point - p.short_point, WithinRel(25 * mm * std::tan(0.5), 1e-9));
}

TEST_CASE("the second of two braces on one side is cut along the first too") {
  Frame f = rail();
  add_thin(f, "first", 0, 0, 0.4);
  add_thin(f, "second", 0.3, 0, 0.3);
  const CutPiece p = piece_of(f, "second");
  REQUIRE(p.ends[0].cuts.size() == 2);
  // Along the post's face it begins 10/sin 45 from the node, along the rail's 12.5/sin 45; with its
  // sides 10 mm to and fro the two planes cross within the tube.
  CHECK_THAT(p.ends[0].begin(0, 0), WithinRel(12.5 * mm * std::numbers::sqrt2, 1e-9));
  const double L = 0.3 * std::numbers::sqrt2;
  // They cross where the tube begins least: (12.5 + 10)/2 sqrt 2 from the node.
  CHECK_THAT(p.long_point, WithinRel(L - 11.25 * mm * std::numbers::sqrt2, 1e-9));
}

TEST_CASE("a tube astride an edge gets a notch of two planes") {
  Frame f = rail();
  add_thin(f, "askew", 0, 0.3, 0.3);
  const CutPiece p = piece_of(f, "askew");
  CHECK(p.ends[0].kind == EndKind::edge);
  CHECK(p.ends[0].cuts[0].planes.size() == 2);
}

TEST_CASE("on a round tube the end is a saddle, long at its sides") {
  Frame f = rail();
  SectionEntry& s = f.sections.front();
  s.shape = Shape::round_tube;
  s.height = s.width = 0.0269;
  add_thin(f, "post", 0, 0, 0.4);
  const CutPiece p = piece_of(f, "post");
  CHECK(p.ends[0].kind == EndKind::saddle);
  CHECK_THAT(p.long_point, WithinRel(0.4 - std::sqrt(13.45 * 13.45 - 10.0 * 10.0) * mm, 1e-9));
}

TEST_CASE("links are measured from eye to eye, cables and springs are not cut") {
  Frame f = rail();
  add_thin(f, "stay", 0.3, 0, 0.3).kind = MemberKind::link;
  add_thin(f, "wire", 0.3, 0.3, 0.3).kind = MemberKind::cable;
  CHECK_THAT(piece_of(f, "stay").long_point, WithinRel(0.3 * std::numbers::sqrt2, 1e-12));
  CHECK(piece_of(f, "stay").ends[0].kind == EndKind::eye);
  const auto tubes = cut_tubes(f, build_model(f));
  CHECK(
      std::none_of(tubes.begin(), tubes.end(), [](const CutTube& t) { return t.name == "wire"; }));
}

TEST_CASE("no piece depends on where the frame stands or which way a member was drawn") {
  Frame f = rail();
  add_thin(f, "first", 0.1, 0.2, 0.4);
  add_thin(f, "second", 0.3, 0, 0.3);
  Frame other = f;
  for (Node& node : other.nodes) {
    const double x = node.at.x(), y = node.at.y();
    node.at = {std::cos(0.4) * x - std::sin(0.4) * y + 1, std::sin(0.4) * x + std::cos(0.4) * y - 2,
               node.at.z() + 3};
  }
  std::swap(other.members.back().from, other.members.back().to);
  for (const char* name : {"rail", "first", "second"}) {
    const CutPiece a = piece_of(f, name), b = piece_of(other, name);
    CHECK_THAT(a.long_point, WithinRel(b.long_point, 1e-9));
    CHECK_THAT(a.short_point, WithinRel(b.short_point, 1e-9));
    CHECK_THAT(a.weld_length, WithinRel(b.weld_length, 1e-9));
  }
}
