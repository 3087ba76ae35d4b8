// Cut lengths against plane geometry, worked by hand beside each check.
#include "cases/pieces/cut_geometry.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

#include "cases/frame/find_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_geometry_test {

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
  CHECK_THAT(p.weld_length, WithinRel(80 * mm, 1e-12));  // the other end is free
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
  CHECK_THAT(p.weld_length, WithinRel(40 * mm + 40 * mm * std::numbers::sqrt2, 1e-9));
}

TEST_CASE("the corners of a frame of one tube are mitred at 45 degrees") {
  const Frame f = rectangle();  // 600 by 400 of 25 mm
  for (const auto& [name, length] : {std::pair{"AB", 0.6}, {"BC", 0.4}}) {
    const CutPiece p = piece_of(f, name);
    for (const TubeEnd& e : p.ends) CHECK(e.kind == EndKind::mitre);
    CHECK_THAT(p.long_point, WithinRel(length + 25 * mm, 1e-9));
    CHECK_THAT(p.short_point, WithinRel(length - 25 * mm, 1e-9));
    // Two halves of 2 x 25 + 2 x 25 sqrt 2: the weld of a mitre belongs to two tubes.
    CHECK_THAT(p.weld_length, WithinRel(50 * mm + 50 * mm * std::numbers::sqrt2, 1e-9));
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
  CHECK(p.ends[0].kind == EndKind::cope);
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

namespace {

/// Where the corners of an end stand, in global axes.
std::vector<Eigen::Vector3d> end_corners(const Frame& f, const CutPiece& p, int end) {
  const NumberedFrame n = build_model(f);
  const SectionEntry& s = find_section(f, p.tube.section);
  const Eigen::Vector3d origin = n.model.nodes[static_cast<size_t>(p.tube.nodes[0])];
  std::vector<Eigen::Vector3d> places;
  for (const auto& [y, z] : {std::pair{1, 1}, {-1, 1}, {-1, -1}, {1, -1}}) {
    const double at_y = y * s.width / 2, at_z = z * s.height / 2;
    const double begin = p.ends[static_cast<size_t>(end)].begin(at_y, at_z);
    const double x = end == 0 ? begin : p.tube.length - begin;
    places.emplace_back(origin + p.tube.axes.transpose() * Eigen::Vector3d(x, at_y, at_z));
  }
  return places;
}

/// Every corner of one end has its image at the other's, in the plane n.x = 0.
bool are_images(const std::vector<Eigen::Vector3d>& a, const std::vector<Eigen::Vector3d>& b,
                const Eigen::Vector3d& n) {
  return std::all_of(a.begin(), a.end(), [&](const Eigen::Vector3d& p) {
    const Eigen::Vector3d image = p - 2 * n.dot(p) * n;
    return std::any_of(b.begin(), b.end(),
                       [&](const Eigen::Vector3d& q) { return (q - image).norm() < 1e-9; });
  });
}

/// A rail along x with a brace to the left and its image to the right.
Frame rail_with_twins() {
  Frame f = rail();
  add_thin(f, "brace_l", 0.1, 0.2, 0.3);
  add_thin(f, "brace_r", 0.1, -0.2, 0.3);
  return f;
}

void turn(Frame& f, const Eigen::Matrix3d& rotation) {
  for (Node& node : f.nodes) node.at = rotation * node.at;
}

}  // namespace

TEST_CASE("twins that meet on a rail are images of each other, mitred on the plane between them") {
  const Frame f = rail_with_twins();
  const CutPiece l = piece_of(f, "brace_l"), r = piece_of(f, "brace_r");
  CHECK(are_images(end_corners(f, l, 0), end_corners(f, r, 0), Eigen::Vector3d::UnitY()));
  for (const Eigen::Vector3d& corner : end_corners(f, l, 0)) CHECK(corner.y() > -1e-12);
  const auto mitred = [](const EndCut& c) { return c.kind == EndKind::mitre; };
  CHECK(std::count_if(l.ends[0].cuts.begin(), l.ends[0].cuts.end(), mitred) == 1);
  CHECK_THAT(l.long_point, WithinRel(r.long_point, 1e-12));
  CHECK_THAT(l.short_point, WithinRel(r.short_point, 1e-12));
}

TEST_CASE("twins are found about any plane through the node") {
  Frame f = rail_with_twins();
  const Eigen::Matrix3d r = Eigen::AngleAxisd(0.6, Eigen::Vector3d::UnitZ()).toRotationMatrix();
  turn(f, r);
  const CutPiece a = piece_of(f, "brace_l"), b = piece_of(f, "brace_r");
  CHECK(are_images(end_corners(f, a, 0), end_corners(f, b, 0), r * Eigen::Vector3d::UnitY()));
}

TEST_CASE("twins with a post between them stay images of each other") {
  Frame f = rail_with_twins();
  add_thin(f, "post", 0, 0, 0.4);
  const CutPiece l = piece_of(f, "brace_l"), r = piece_of(f, "brace_r");
  CHECK(are_images(end_corners(f, l, 0), end_corners(f, r, 0), Eigen::Vector3d::UnitY()));
}

TEST_CASE("four alike on a cross are all cut alike") {
  Frame f = rail();
  for (const auto& [name, x, y] :
       {std::tuple{"a", 1, 1}, {"b", -1, 1}, {"c", -1, -1}, {"d", 1, -1}}) {
    add_thin(f, name, 0.2 * x, 0.15 * y, 0.3);
  }
  const CutPiece a = piece_of(f, "a");
  for (const char* name : {"b", "c", "d"}) {
    const CutPiece p = piece_of(f, name);
    CHECK_THAT(p.long_point, WithinRel(a.long_point, 1e-9));
    CHECK_THAT(p.short_point, WithinRel(a.short_point, 1e-9));
    CHECK_THAT(p.weld_length, WithinRel(a.weld_length, 1e-9));
  }
}

TEST_CASE("with something one-sided before them the first in the file goes first") {
  Frame f = rail_with_twins();
  add_node(f, "side", 0.05, 0.3, 0.1);
  add_member(f, "bigger", "B", "side");
  const auto mitred = [](const EndCut& c) { return c.kind == EndKind::mitre; };
  for (const char* name : {"brace_l", "brace_r"}) {
    const CutPiece p = piece_of(f, name);
    CHECK(std::none_of(p.ends[0].cuts.begin(), p.ends[0].cuts.end(), mitred));
  }
}

TEST_CASE("an image stands in the file beside its original: left and right joints are cut alike") {
  // On both sides a post and a brace meet on a rail; on the right they were drawn in another order.
  Frame f = empty_frame();
  SectionEntry thin = square("thin", 0.020);
  f.sections.push_back(thin);
  for (const auto& [side, y] : {std::pair{"l", 0.2}, {"r", -0.2}}) {
    const std::string s = side;
    add_node(f, "a" + s, -0.5, y, 0);
    add_node(f, "n" + s, 0, y, 0);
    add_node(f, "b" + s, 0.5, y, 0);
    add_node(f, "post" + s, 0, y, 0.4);
    add_node(f, "brace" + s, 0.3, y, 0.3);
    for (int i = 1; i <= 2; ++i) {
      add_member(f, "rail_" + s + "." + std::to_string(i), i == 1 ? "a" + s : "n" + s,
                 i == 1 ? "n" + s : "b" + s)
          .tube = "rail_" + s;
    }
    const bool left = s == "l";
    for (const char* name : {left ? "post" : "brace", left ? "brace" : "post"}) {
      add_member(f, name + ("_" + s), "n" + s, name + s).section = "thin";
    }
  }
  for (const std::string name : {"post_", "brace_"}) {
    CHECK_THAT(piece_of(f, name + "l").long_point,
               WithinRel(piece_of(f, name + "r").long_point, 1e-12));
  }
  CHECK_THAT(piece_of(f, "post_r").long_point, WithinRel(0.4 - 12.5 * mm, 1e-12));
}

TEST_CASE("where two tubes run through one node the bigger is whole, the other cut in two") {
  Frame f = rail();
  add_node(f, "L", 0, 0.3, 0);
  add_node(f, "R", 0, -0.3, 0);
  for (int i = 1; i <= 2; ++i) {
    Member& m = add_member(f, "cross." + std::to_string(i), i == 1 ? "L" : "B", i == 1 ? "B" : "R");
    m.tube = "cross";
    m.section = "thin";
  }
  CHECK_THAT(piece_of(f, "rail").long_point, WithinRel(1.0, 1e-12));
  CHECK_THAT(piece_of(f, "cross.1").long_point, WithinRel(0.3 - 12.5 * mm, 1e-12));
  CHECK_THAT(piece_of(f, "cross.2").long_point, WithinRel(0.3 - 12.5 * mm, 1e-12));
}

TEST_CASE("a path that turns under a rail is cut along the rail and mitred below it") {
  Frame f = rail();
  add_node(f, "left_foot", -0.3, 0, -0.3);
  add_node(f, "right_foot", 0.3, 0, -0.3);
  for (int i = 1; i <= 2; ++i) {
    Member& m = add_member(f, "zigzag." + std::to_string(i), i == 1 ? "left_foot" : "B",
                           i == 1 ? "B" : "right_foot");
    m.tube = "zigzag";
    m.section = "thin";
  }
  const CutPiece p = piece_of(f, "zigzag.2");
  // Along the rail it begins 12.5 sqrt 2 from the node on its axis and 10 mm more or less at its
  // sides; the plane between the runs, x = 0, crosses that face at (0, -12.5), whence the tube's
  // inner side is cut back from -10 to 12.5/sqrt 2 along the axis.
  const double L = 0.3 * std::numbers::sqrt2;
  CHECK_THAT(p.ends[0].begin(0, 0), WithinRel(12.5 * mm * std::numbers::sqrt2, 1e-9));
  CHECK_THAT(p.long_point, WithinRel(L - 12.5 * mm / std::numbers::sqrt2, 1e-9));
  CHECK_THAT(piece_of(f, "zigzag.1").long_point, WithinRel(p.long_point, 1e-9));
}

TEST_CASE("three equal tubes square to each other are butted, two alone are mitred") {
  Frame f = empty_frame();
  add_node(f, "O", 0, 0, 0);
  add_node(f, "X", 0.5, 0, 0);
  add_node(f, "Y", 0, 0.5, 0);
  add_node(f, "Z", 0, 0, 0.5);
  for (const char* end : {"X", "Y", "Z"}) add_member(f, std::string("to_") + end, "O", end);
  CHECK(piece_of(f, "to_X").ends[0].kind == EndKind::square);
  CHECK_THAT(piece_of(f, "to_X").long_point, WithinRel(0.5 + 12.5 * mm, 1e-9));
  CHECK_THAT(piece_of(f, "to_Y").long_point, WithinRel(0.5 - 12.5 * mm, 1e-9));
  CHECK_THAT(piece_of(f, "to_Z").long_point, WithinRel(0.5 - 12.5 * mm, 1e-9));
}

TEST_CASE("a free corner sharper than square is butted: the angle is 90 - 60, not 90 - 30") {
  Frame f = empty_frame();
  add_node(f, "O", 0, 0, 0);
  add_node(f, "A", 0.5, 0, 0);
  add_node(f, "B", 0.5 * std::cos(1.0472), 0.5 * std::sin(1.0472), 0);
  add_member(f, "first", "O", "A");
  add_member(f, "second", "O", "B");
  CHECK(piece_of(f, "first").ends[0].kind == EndKind::square);
  const CutPiece p = piece_of(f, "second");
  CHECK(p.ends[0].kind == EndKind::face);
  CHECK_THAT(p.long_point - p.short_point, WithinRel(25 * mm * std::tan(0.5236), 1e-4));
}

TEST_CASE("on a bend a post stands on both runs, each as far as it reaches") {
  // A roof of 120 degrees with a post on its ridge: on each side the face of that run only.
  Frame f = empty_frame();
  f.sections.push_back(square("thin", 0.020));
  add_node(f, "B", 0, 0, 0);
  add_node(f, "left_eave", -0.4, 0, -0.4 * std::tan(0.5236));
  add_node(f, "right_eave", 0.4, 0, -0.4 * std::tan(0.5236));
  for (int i = 1; i <= 2; ++i) {
    add_member(f, "roof." + std::to_string(i), i == 1 ? "left_eave" : "B",
               i == 1 ? "B" : "right_eave")
        .tube = "roof";
  }
  add_thin(f, "post", 0, 0, 0.4);
  const CutPiece p = piece_of(f, "post");
  // The ridge stands 12.5/cos 30 over the node; its slopes fall by 10 tan 30 to the post's sides.
  const double ridge = 12.5 * mm / std::cos(0.5236), fall = 10 * mm * std::tan(0.5236);
  CHECK_THAT(p.short_point, WithinRel(0.4 - ridge, 1e-4));
  CHECK_THAT(p.long_point, WithinRel(0.4 - ridge + fall, 1e-4));
}

}  // namespace tubewright::cut_geometry_test
