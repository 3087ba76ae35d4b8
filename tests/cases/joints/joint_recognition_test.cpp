// Which joint an end makes, from the geometry of its node.
#include "cases/joints/joint_recognition.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "tests/cases/attachments/attachment_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::joint_recognition_test {

using namespace tubewright::testing;

namespace {

SectionEntry square(const std::string& name, double side, double wall) {
  SectionEntry s;
  s.name = name;
  s.height = s.width = side;
  s.wall = wall;
  s.material = "S235";
  return s;
}

/// A tube A-B-C along x, 40 x 3.
Frame chord_of() {
  Frame f = empty_frame();
  f.sections = {square("chord", 0.040, 0.003), square("brace", 0.025, 0.0025)};
  add_node(f, "A", -0.3, 0, 0);
  add_node(f, "B", 0, 0, 0);
  add_node(f, "C", 0.3, 0, 0);
  for (int i = 1; i <= 2; ++i) {
    Member& m = add_member(f, "chord." + std::to_string(i), i == 1 ? "A" : "B", i == 1 ? "B" : "C");
    m.section = "chord";
    m.tube = "chord";
  }
  return f;
}

Member& add_arm(Frame& f, const std::string& name, const std::string& section, double x, double y,
                double z) {
  add_node(f, name + "_end", x, y, z);
  Member& m = add_member(f, name, "B", name + "_end");
  m.section = section;
  return m;
}

std::vector<std::array<JointEnd, 2>> ends_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  return joint_ends(f, n);
}

const StandingEnd& standing(const std::vector<std::array<JointEnd, 2>>& ends, size_t member) {
  const JointEnd& e = ends[member][0];
  REQUIRE(e.needed);
  REQUIRE(e.on.size() == 1);
  return e.on[0].joint->tubes[e.on[0].which];
}

/// Two tubes of one section that meet at B, along -x and in the direction given.
Frame corner(double x, double y, double z) {
  Frame f = empty_frame();
  f.sections = {square("chord", 0.040, 0.003), square("brace", 0.025, 0.0025)};
  add_node(f, "A", -0.4, 0, 0);
  add_node(f, "B", 0, 0, 0);
  add_member(f, "AB", "A", "B").section = "chord";
  add_arm(f, "on", "chord", x, y, z);
  return f;
}

}  // namespace

TEST_CASE("a tube on another meets the face it looks at, at its angle") {
  Frame f = chord_of();
  add_arm(f, "up", "brace", 0, 0, 0.3);
  add_arm(f, "lean", "brace", 0.3, -0.3, 0);
  const auto ends = ends_of(f);
  const StandingEnd& up = standing(ends, 2);
  CHECK(up.onto == std::array<double, 4>{0, 0, 1, 0});
  CHECK_THAT(up.angle, WithinRel(std::acos(0.0), 1e-12));
  CHECK_FALSE(up.turned);
  const StandingEnd& lean = standing(ends, 3);
  CHECK(lean.onto == std::array<double, 4>{0, 1, 0, 0});
  CHECK_THAT(lean.angle, WithinRel(std::atan(1.0), 1e-12));
  // The chord itself has others on it, and its far ends stand on nothing.
  for (const size_t piece : {0, 1}) {
    CHECK_FALSE(ends[piece][0].needed);
    CHECK_FALSE(ends[piece][1].needed);
  }
  CHECK_FALSE(ends[2][1].needed);
}

TEST_CASE("a tube between two faces, or turned about itself, is seen as such") {
  Frame f = chord_of();
  add_arm(f, "askew", "brace", 0, 0.3, 0.4);
  const auto ends = ends_of(f);
  CHECK_THAT(standing(ends, 2).onto[0], WithinRel(0.6, 1e-12));
  CHECK_THAT(standing(ends, 2).onto[2], WithinRel(0.8, 1e-12));

  Frame turned = chord_of();
  add_arm(turned, "up", "brace", 0, 0, 0.3).roll = 0.5;
  CHECK(standing(ends_of(turned), 2).turned);
}

TEST_CASE("only tubes of a triangle that are long enough have secondary moments") {
  Frame f = chord_of();
  add_arm(f, "post", "brace", 0, 0, 0.3);
  CHECK_FALSE(standing(ends_of(f), 2).in_triangle);
  add_member(f, "stay", "A", "post_end").section = "brace";
  CHECK(standing(ends_of(f), 2).in_triangle);
  f.nodes[3].at.z() = 0.14;  // below 6 x 25 mm
  CHECK_FALSE(standing(ends_of(f), 2).in_triangle);
}

TEST_CASE("two tubes of one section that end on each other make a corner") {
  const auto ends = ends_of(corner(0, 0, 0.3));
  for (const size_t member : {0, 1}) {
    const JointEnd& e = ends[member][member == 0 ? 1 : 0];
    REQUIRE(e.needed);
    REQUIRE(e.partners.size() == 1);
    CHECK_THAT(e.partners[0].angle, WithinRel(std::acos(0.0), 1e-12));
    CHECK_FALSE(e.crowded);
    CHECK_FALSE(e.unlike);
    CHECK(e.on.empty());
  }
  CHECK(ends[0][1].partners[0].about_y);
  CHECK_FALSE(ends_of(corner(0, 0.3, 0))[0][1].partners[0].about_y);
  CHECK_THAT(ends_of(corner(0.3, 0, 0.3))[0][1].partners[0].angle,
             WithinRel(3 * std::atan(1.0), 1e-9));
  Frame turned = corner(0, 0, 0.3);
  turned.members[0].roll = 0.4;
  CHECK(ends_of(turned)[0][1].partners[0].turned);
}

TEST_CASE("tubes of one section in one line run on, and so do two of one outside") {
  Frame f = corner(0.3, 0, 0);
  CHECK_FALSE(ends_of(f)[0][1].needed);
  CHECK_THAT(ends_of(f)[0][1].reason, ContainsSubstring("one line"));
  add_arm(f, "up", "brace", 0, 0, 0.3);
  CHECK(standing(ends_of(f), 2).onto[2] == 1);
  f.sections.push_back(square("thin", 0.040, 0.002));
  f.members[1].section = "thin";
  CHECK(standing(ends_of(f), 2).onto[2] == 1);
}

TEST_CASE("a kinked tube is a chord for others, and its own pieces are mitred if they are welded") {
  Frame f = corner(0.3, 0, 0.03);
  add_arm(f, "up", "brace", 0, 0, 0.3);
  const auto ends = ends_of(f);
  CHECK(ends[0][1].partners.size() == 1);
  CHECK(ends[0][1].crowded);
  const JointEnd& up = ends[2][0];
  REQUIRE(up.on.size() == 1);
  CHECK(up.on[0].joint->bent);
  CHECK_FALSE(up.on[0].joint->ends);
}

TEST_CASE("a smaller tube stands on the end of a bigger one, open or closed") {
  Frame f = corner(0, 0, 0.3);
  f.members[1].section = "brace";
  auto ends = ends_of(f);
  REQUIRE(ends[1][0].on.size() == 1);
  CHECK(ends[1][0].on[0].joint->ends);
  CHECK(ends[1][0].on[0].joint->open);
  CHECK_FALSE(ends[0][1].needed);
  add_arm(f, "cap", "chord", 0, 0.3, 0);
  ends = ends_of(f);
  CHECK_FALSE(ends[1][0].on[0].joint->open);
  CHECK(ends[0][1].partners.size() == 1);
  CHECK(ends[0][1].crowded);
}

TEST_CASE("of two flat tubes in a corner the narrower stands on the face of the wider") {
  Frame f = corner(0, 0.4, 0);
  f.sections[0] = square("chord", 0.060, 0.002);
  f.sections[0].shape = Shape::rectangular_tube;
  f.sections[0].width = 0.020;  // 60 high, 20 wide: its side face is 60 wide
  f.sections[1] = square("brace", 0.040, 0.002);
  f.members[1].section = "brace";
  const auto ends = ends_of(f);
  CHECK_FALSE(ends[0][1].needed);
  REQUIRE(ends[1][0].on.size() == 1);
  CHECK(ends[1][0].partners.empty());
  CHECK(ends[1][0].on[0].joint->open);
}

TEST_CASE("a tube that ends just behind a joint is open there") {
  Frame f = chord_of();
  add_arm(f, "up", "brace", 0, 0, 0.3);
  CHECK_FALSE(ends_of(f)[2][0].on[0].joint->open);
  f.nodes[2].at.x() = 0.06;  // C: 1.5 widths behind B, nothing else there
  CHECK(ends_of(f)[2][0].on[0].joint->open);
  add_node(f, "D", 0.06, 0.3, 0);
  add_member(f, "end", "C", "D").section = "chord";
  CHECK_FALSE(ends_of(f)[2][0].on[0].joint->open);
}

TEST_CASE("of two tubes that cross the bigger is whole, of equals either may be cut") {
  Frame f = chord_of();
  add_arm(f, "left", "brace", 0, 0.3, 0).tube = "across";
  add_node(f, "right_end", 0, -0.3, 0);
  std::swap(f.members[2].from, f.members[2].to);
  Member& right = add_member(f, "right", "B", "right_end");
  right.section = "brace";
  right.tube = "across";
  auto ends = ends_of(f);
  CHECK(ends[2][1].on.size() == 1);
  CHECK(ends[3][0].on.size() == 1);
  CHECK_FALSE(ends[0][1].needed);
  for (size_t i = 2; i < 4; ++i) f.members[i].section = "chord";
  ends = ends_of(f);
  for (const auto& [member, end] : {std::pair<size_t, size_t>{0, 1}, {1, 0}, {2, 1}, {3, 0}}) {
    CHECK(ends[member][end].needed);
    CHECK(ends[member][end].on.size() == 1);
  }
}

TEST_CASE("what carries on a bigger tube in one line, and bars, are told apart") {
  Frame f = corner(0.3, 0, 0);
  f.members[1].section = "brace";
  auto ends = ends_of(f);
  CHECK(ends[1][0].needed);
  CHECK_THAT(ends[1][0].reason, ContainsSubstring("one line"));

  // Nearly as big, but its walls do not meet those of the other either.
  f.sections[1] = square("brace", 0.036, 0.002);
  ends = ends_of(f);
  CHECK(ends[1][0].needed);
  CHECK_THAT(ends[1][0].reason, ContainsSubstring("one line"));
  CHECK_FALSE(ends[0][1].needed);

  Frame bars = corner(0, 0, 0.3);
  for (SectionEntry& s : bars.sections) s.shape = Shape::round_bar;
  ends = ends_of(bars);
  CHECK_FALSE(ends[0][1].needed);
  CHECK_THAT(ends[0][1].reason, ContainsSubstring("bar"));
}

TEST_CASE("turning the frame, or naming its tubes in another order, changes no joint") {
  Frame f = chord_of();
  add_arm(f, "left", "brace", -0.3, 0, 0.3);
  add_arm(f, "right", "brace", 0.3, 0.05, 0.3);
  add_arm(f, "side", "brace", 0, 0.3, 0.1);
  Frame turned = f;
  for (Node& node : turned.nodes) {  // about z: heights stay up, so do the rolls
    node.at = Eigen::AngleAxisd(0.7, Eigen::Vector3d::UnitZ()) * node.at;
  }
  Frame reordered = f;
  std::reverse(reordered.members.begin() + 2, reordered.members.end());
  const auto a = ends_of(f), b = ends_of(turned), c = ends_of(reordered);
  for (size_t m = 2; m < 5; ++m) {
    const StandingEnd &one = standing(a, m), &two = standing(b, m), &three = standing(c, 6 - m);
    CHECK_THAT(one.angle, WithinAbs(two.angle, 1e-9));
    CHECK_THAT(one.angle, WithinAbs(three.angle, 1e-9));
    CHECK(one.turned == two.turned);
    for (size_t face = 0; face < 4; ++face) {
      CHECK_THAT(one.onto[face], WithinAbs(two.onto[face], 1e-9));
      CHECK_THAT(one.onto[face], WithinAbs(three.onto[face], 1e-9));
    }
  }
}

TEST_CASE("a tube that ends just behind a joint is open there, whatever is fixed to it between") {
  Frame f = chord_of();
  add_arm(f, "brace", "brace", 0, 0, 0.4);
  f.nodes[2].at.x() = 0.060;
  CHECK(ends_of(f)[2][0].on[0].joint->open);
  Attachment ear = tab("ear", "chord", 0.330 / 0.360, Face::left);
  f.attachments = {ear};
  REQUIRE(expand_attachments(f).empty());
  REQUIRE(f.members.size() == 4);
  CHECK(ends_of(f)[3][0].on[0].joint->open);
}

TEST_CASE("a tube runs through where something is fixed to it: nothing stands there") {
  Frame f = chord_of();
  f.attachments = {tab("ear", "chord", 0.25, Face::left)};
  REQUIRE(expand_attachments(f).empty());
  const auto ends = ends_of(f);
  REQUIRE(ends.size() == 3);
  for (const auto& end : {ends[0][1], ends[1][0]}) {
    CHECK(!end.needed);
    CHECK(end.on.empty());
    CHECK(end.partners.empty());
  }
}

}  // namespace tubewright::joint_recognition_test
