// Joints recognised from a frame's geometry. Resistances: EN 1993-1-8 Tables 7.10 and 7.14.
#include "cases/joints/joint_check.h"

#include <cmath>

#include "cases/analysis/analysis.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::joint_check_test {

using namespace tubewright::testing;

namespace {

SectionEntry square(const std::string& name, double side, double wall) {
  SectionEntry s;
  s.name = name;
  s.height = s.width = side;
  s.wall = wall;
  s.material = "S355";
  return s;
}

/// A chord A-B-C along x, held at both ends, of `chord`; braces are added at B.
Frame chord_of(double side, double wall) {
  Frame f = empty_frame();
  f.sections = {square("chord", side, wall)};
  add_node(f, "A", -0.3, 0, 0);
  add_node(f, "B", 0, 0, 0);
  add_node(f, "C", 0.3, 0, 0);
  for (int i = 1; i <= 2; ++i) {
    Member& m = add_member(f, "chord." + std::to_string(i), i == 1 ? "A" : "B", i == 1 ? "B" : "C");
    m.section = "chord";
    m.tube = "chord";
  }
  for (const char* end : {"A", "C"}) {
    f.supports.push_back({end, {true, true, true, true, true, true}, {}, {}});
  }
  f.limits.yield_factor = 1;
  return f;
}

void add_brace(Frame& f, const std::string& name, double x, double y, double z) {
  add_node(f, name + "_end", x, y, z);
  add_member(f, name, "B", name + "_end").section = "brace";
}

std::vector<std::array<BraceEnd, 2>> ends_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  return brace_ends(f, n, member_facts(f, n));
}

const BraceEnd& first_end(const std::vector<std::array<BraceEnd, 2>>& ends, size_t member) {
  return ends[member][0];
}

}  // namespace

TEST_CASE("a tube square on a face makes a T joint with the resistance of Table 7.10") {
  Frame f = chord_of(0.040, 0.003);
  f.sections.push_back(square("brace", 0.030, 0.003));
  add_brace(f, "post", 0, 0, 0.4);
  add_case(f, "push").forces.push_back({"post_end", {0, 0, -5000}, {}});
  CHECK(first_end(ends_of(f), 2).shape == JointShape::T);
  const Analysis a = answer_of(analyse(f));
  const CheckResult joint = a.cases[0].members[2].checks.joint;
  REQUIRE(joint.utilisation);
  // N_1,Rd = 44.730 kN for 40x3, b_1 = 30, S355, k_n = 1 (DERIVED from Table 7.10).
  CHECK_THAT(*joint.utilisation, WithinRel(5000 / 44730.0, 1e-4));
  // The chord itself stands on nothing.
  CHECK_FALSE(a.cases[0].members[0].checks.joint.utilisation);
  CHECK_FALSE(a.cases[0].members[0].checks.joint.needed);
}

TEST_CASE("moments of a T joint count by the plane they bend in") {
  Frame f = chord_of(0.040, 0.003);
  f.sections[0].material = "S235";
  f.sections.push_back(square("brace", 0.030, 0.003));
  f.sections[1].material = "S235";
  add_brace(f, "post", 0, 0, 0.1);
  Case& push = add_case(f, "along");
  push.forces.push_back({"post_end", {1000, 0, 0}, {}});
  add_case(f, "across").forces.push_back({"post_end", {0, 1000, 0}, {}});
  const Analysis a = answer_of(analyse(f));
  // M_ip,Rd = 0.48645, M_op,Rd = 0.49621 kN m for 40x3 and 30, S235 (DERIVED from Table 7.14), k_n
  // = 1; the chord's compression is small.
  CHECK_THAT(*a.cases[0].members[2].checks.joint.utilisation, WithinRel(100 / 486.45, 2e-3));
  CHECK_THAT(*a.cases[1].members[2].checks.joint.utilisation, WithinRel(100 / 496.21, 2e-3));
}

TEST_CASE("a leaning tube makes a Y joint, a pair on opposite faces an X joint") {
  Frame f = chord_of(0.040, 0.003);
  f.sections.push_back(square("brace", 0.025, 0.003));
  add_brace(f, "lean", 0.3, 0, 0.3);
  CHECK(first_end(ends_of(f), 2).shape == JointShape::Y);
  CHECK_THAT(first_end(ends_of(f), 2).angle, WithinRel(std::atan(1.0), 1e-9));
  add_brace(f, "beyond", -0.3, 0, -0.3);
  CHECK(first_end(ends_of(f), 2).shape == JointShape::X);
  CHECK(first_end(ends_of(f), 3).shape == JointShape::X);
}

TEST_CASE("two tubes on a face that pull and push make a gap joint") {
  Frame f = chord_of(0.060, 0.003);
  f.sections.push_back(square("brace", 0.030, 0.003));
  add_brace(f, "left", -0.3, 0, 0.3);
  add_brace(f, "right", 0.3, 0, 0.3);
  const auto ends = ends_of(f);
  REQUIRE(first_end(ends, 2).shape == JointShape::gap);
  CHECK(first_end(ends, 2).partner == 3);
  // h_0/2 sin 90/(sin 45)^2 - b_1/sin 45 (geometry)
  CHECK_THAT(first_end(ends, 2).gap, WithinRel(0.060 - 0.030 * std::sqrt(2.0), 1e-9));
  Case& c = add_case(f, "shear");
  const double along = 4000 / std::sqrt(2.0);
  c.forces.push_back({"left_end", {along, 0, -along}, {}});  // pushes
  c.forces.push_back({"right_end", {along, 0, along}, {}});  // pulls
  add_case(f, "both").forces = {{"left_end", {along, 0, -along}, {}},
                                {"right_end", {-along, 0, -along}, {}}};
  const Analysis a = answer_of(analyse(f));
  const CheckResult joint = a.cases[0].members[2].checks.joint;
  REQUIRE(joint.utilisation);
  const double N_Rd = gap_joint_resistance(355e6, 0.060, 0.003, 0.5, std::atan(1.0), 1);
  CHECK_THAT(*joint.utilisation, WithinRel(4000 / N_Rd, 1e-3));
  CHECK_FALSE(a.cases[1].members[2].checks.joint.utilisation);
  CHECK_THAT(a.cases[1].members[2].checks.joint.reason, ContainsSubstring("both push"));
}

TEST_CASE("where there is no rule the reason says why") {
  Frame corner = rectangle();
  CHECK_THAT(first_end(ends_of(corner), 0).reason, ContainsSubstring("corner"));

  Frame f = chord_of(0.040, 0.003);
  f.sections.push_back(square("brace", 0.025, 0.003));
  add_brace(f, "askew", 0, 0.3, 0.3);
  CHECK_THAT(first_end(ends_of(f), 2).reason, ContainsSubstring("edge"));

  Frame planes = chord_of(0.040, 0.003);
  planes.sections.push_back(square("brace", 0.025, 0.003));
  add_brace(planes, "up", 0, 0, 0.3);
  add_brace(planes, "side", 0, 0.3, 0);
  CHECK_THAT(first_end(ends_of(planes), 2).reason, ContainsSubstring("more than one plane"));

  Frame turned = chord_of(0.040, 0.003);
  turned.sections.push_back(square("brace", 0.025, 0.003));
  add_brace(turned, "up", 0, 0, 0.3);
  turned.members.back().roll = 0.5;
  CHECK_THAT(first_end(ends_of(turned), 2).reason, ContainsSubstring("turned"));

  Frame crossing = chord_of(0.040, 0.003);
  for (Member& m : crossing.members) m.tube.clear();
  crossing.sections.push_back(square("brace", 0.040, 0.003));
  add_brace(crossing, "left", 0, 0.3, 0);
  add_brace(crossing, "right", 0, -0.3, 0);
  CHECK_THAT(first_end(ends_of(crossing), 2).reason, ContainsSubstring("more than one tube runs"));
}

TEST_CASE("walls below 2.5 mm are outside the standard's scope and say so") {
  Frame f = chord_of(0.025, 0.002);
  f.sections.push_back(square("brace", 0.020, 0.002));
  add_brace(f, "post", 0, 0, 0.3);
  add_case(f, "push").forces.push_back({"post_end", {0, 0, -500}, {}});
  const CheckResult joint = answer_of(analyse(f)).cases[0].members[2].checks.joint;
  CHECK_FALSE(joint.utilisation);
  CHECK(joint.needed);
  CHECK_THAT(joint.reason, ContainsSubstring("2.5 mm"));
}

TEST_CASE("turning the whole frame changes no joint") {
  Frame f = chord_of(0.060, 0.003);
  f.sections.push_back(square("brace", 0.030, 0.003));
  add_brace(f, "left", -0.3, 0, 0.3);
  add_brace(f, "right", 0.3, 0, 0.3);
  Frame turned = f;
  for (Node& node : turned.nodes) {  // about z by 0.7: heights stay up, so do the rolls
    const double x = node.at.x(), y = node.at.y();
    node.at.x() = std::cos(0.7) * x - std::sin(0.7) * y;
    node.at.y() = std::sin(0.7) * x + std::cos(0.7) * y;
  }
  const auto a = ends_of(f), b = ends_of(turned);
  for (size_t m = 0; m < a.size(); ++m) {
    for (size_t end = 0; end < 2; ++end) {
      CHECK(a[m][end].shape == b[m][end].shape);
      CHECK_THAT(a[m][end].gap, WithinAbs(b[m][end].gap, 1e-9));
    }
  }
}

}  // namespace tubewright::joint_check_test
