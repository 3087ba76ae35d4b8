// Joints of whole frames: recognised, loaded and checked. Resistances by hand from EN 1993-1-8 and
// CIDECT Design Guide 3, see chord_face_test and frame_corner_test.
#include "cases/joints/joint_check.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/analysis/analysis.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::joint_check_test {

using namespace tubewright::testing;

namespace {

constexpr Source table_7_10 =
    seen_in("EN 1993-1-8 Table 7.10 (formula in an extract), worked by hand");
constexpr Source table_7_14 = from_memory("EN 1993-1-8 Table 7.14, worked by hand");
constexpr Source table_7_14_out = seen_in("EN 1993-1-8 Table 7.14, M_op, worked by hand");
constexpr Source guide_3 = seen_in("CIDECT Design Guide 3: alpha, worked by hand");
constexpr Source round_tables = from_memory("EN 1993-1-8 Tables 7.4, worked by hand");

SectionEntry square(const std::string& name, double side, double wall,
                    const std::string& material = "S235") {
  SectionEntry s;
  s.name = name;
  s.height = s.width = side;
  s.wall = wall;
  s.material = material;
  return s;
}

void hold(Frame& f, const std::string& node) {
  f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
}

/// A chord A-B-C along x, held at both ends.
Frame chord_of(const SectionEntry& chord, const SectionEntry& brace) {
  Frame f = empty_frame();
  f.sections = {chord, brace};
  add_node(f, "A", -0.3, 0, 0);
  add_node(f, "B", 0, 0, 0);
  add_node(f, "C", 0.3, 0, 0);
  for (int i = 1; i <= 2; ++i) {
    Member& m = add_member(f, "chord." + std::to_string(i), i == 1 ? "A" : "B", i == 1 ? "B" : "C");
    m.section = chord.name;
    m.tube = "chord";
  }
  hold(f, "A");
  hold(f, "C");
  f.limits.yield_factor = 1;
  return f;
}

void add_brace(Frame& f, const std::string& name, double x, double y, double z) {
  add_node(f, name + "_end", x, y, z);
  add_member(f, name, "B", name + "_end").section = f.sections[1].name;
}

CheckResult joint_of(const Frame& f, size_t member, size_t load_case = 0) {
  return answer_of(analyse(f)).cases[load_case].members[member].checks.joint;
}

double use_of_joint(const Frame& f, size_t member) {
  const CheckResult r = joint_of(f, member);
  INFO(r.reason);
  REQUIRE(r.utilisation);
  return *r.utilisation;
}

}  // namespace

TEST_CASE("a post that is pushed onto a face is checked by Table 7.10", "[truth]") {
  Frame f = chord_of(square("chord", 0.040, 0.003, "S355"), square("brace", 0.030, 0.003, "S355"));
  add_brace(f, "post", 0, 0, 0.4);
  add_case(f, "push").forces.push_back({"post_end", {0, 0, -5000}, {}});
  truth("frame: post 30 x 3 on 40 x 3, S355, 5 kN: utilisation", table_7_10, use_of_joint(f, 2),
        within_rel(5000 / 44730.0, 1e-4));
  CHECK_FALSE(joint_of(f, 2).comparison);
  // The chord itself stands on nothing.
  CHECK_FALSE(joint_of(f, 0).needed);
}

TEST_CASE("moments of a post count by the plane they bend in", "[truth]") {
  Frame f = chord_of(square("chord", 0.040, 0.003), square("brace", 0.030, 0.003));
  add_brace(f, "post", 0, 0, 0.1);
  add_case(f, "along").forces.push_back({"post_end", {1000, 0, 0}, {}});
  add_case(f, "across").forces.push_back({"post_end", {0, 1000, 0}, {}});
  truth("frame: post 30 x 3 on 40 x 3, S235, 100 N m in plane: utilisation", table_7_14,
        *joint_of(f, 2, 0).utilisation, within_rel(100 / 486.45, 2e-3));
  truth("frame: post 30 x 3 on 40 x 3, S235, 100 N m out of plane: utilisation", table_7_14_out,
        *joint_of(f, 2, 1).utilisation, within_rel(100 / 496.21, 2e-3));
}

TEST_CASE("thin joints that are too weak fail by comparison", "[truth]") {
  Frame f = chord_of(square("chord", 0.040, 0.0015), square("brace", 0.020, 0.0015));
  add_brace(f, "up", 0, 0, 0.2);
  add_brace(f, "down", 0, 0, -0.2);
  add_case(f, "pull").forces = {{"up_end", {0, 0, 15000}, {}}, {"down_end", {0, 0, -15000}, {}}};
  for (const size_t member : {2, 3}) {
    truth(named("frame: X, 20 x 1.5 on 40 x 1.5, 15 kN, member ", member, ": utilisation"),
          table_7_10, use_of_joint(f, member), within_abs(3.705, 1e-3));
    CHECK(joint_of(f, member).comparison);
    CHECK(joint_of(f, member).reason == "walls under 2.5 mm");
  }

  Frame bent = chord_of(square("chord", 0.040, 0.0015), square("brace", 0.020, 0.0015));
  add_brace(bent, "post", 0, 0, 0.1);
  add_case(bent, "bend").forces.push_back({"post_end", {1000, 0, 0}, {}});
  truth("frame: 20 x 1.5 on 40 x 1.5, 100 N m: utilisation", table_7_14, use_of_joint(bent, 2),
        within_abs(1.9585, 1e-3));

  Frame equal = chord_of(square("chord", 0.040, 0.0015), square("brace", 0.040, 0.0015));
  add_brace(equal, "up", 0, 0, 0.2);
  add_brace(equal, "down", 0, 0, -0.2);
  add_case(equal, "push").forces = {{"up_end", {0, 0, -30000}, {}},
                                    {"down_end", {0, 0, 30000}, {}}};
  CHECK_THAT(use_of_joint(equal, 2), WithinAbs(1.8838, 1e-3));
  // Without a path nobody knows which of them is cut: the numbers stay.
  for (Member& m : equal.members) {
    m.tube.clear();
    m.section = "chord";
  }
  CHECK_THAT(use_of_joint(equal, 2), WithinAbs(1.8838, 1e-3));
}

TEST_CASE("a leaning tube in pure pull is checked though its moments are rounding", "[truth]") {
  Frame f = chord_of(square("chord", 0.040, 0.003), square("brace", 0.025, 0.0025));
  add_brace(f, "lean", 0.3, 0, 0.3);
  f.supports.push_back({"B", {false, false, true, false, false, false}, {}, {}});
  const double along = 84900 / std::sqrt(2.0);
  add_case(f, "pull").forces.push_back({"lean_end", {along, 0, along}, {}});
  truth("frame: 25 x 2.5 at 45 degrees on 40 x 3, 84.9 kN: utilisation", table_7_10,
        use_of_joint(f, 2), within_rel(84.9 / 33.638, 1e-4));  // by hand
  CHECK_FALSE(joint_of(f, 2).comparison);

  // Without that support the chord bends far beyond its yield: k_n = 0 fails, and says so.
  f.supports.pop_back();
  CHECK(use_of_joint(f, 2) > 10);
  CHECK_THAT(joint_of(f, 2).reason, ContainsSubstring("k_n = 0"));
  CHECK_FALSE(joint_of(f, 2).comparison);
}

TEST_CASE("two tubes that pull and push make a K joint, and what bends them counts", "[truth]") {
  Frame f = chord_of(square("chord", 0.060, 0.003), square("brace", 0.030, 0.003));
  add_brace(f, "left", -0.3, 0, 0.3);
  add_brace(f, "right", 0.3, 0, 0.3);
  const double along = 4000 / std::sqrt(2.0);
  add_case(f, "shear").forces = {{"left_end", {along, 0, -along}, {}},
                                 {"right_end", {along, 0, along}, {}}};
  const double plain = use_of_joint(f, 2);
  truth("frame: K gap, 30 x 3 on 60 x 3, 4 kN: utilisation", table_7_10, plain,
        within_rel(4 / 42.091, 2e-3));
  f.cases[0].forces.push_back({"left_end", {0, 500, 0}, {}});
  // 500 N at 424.3 mm against 314.97 N m.
  CHECK_THAT(use_of_joint(f, 2), WithinRel(plain + 500 * 0.42426 / 314.97, 2e-3));
}

TEST_CASE("a mitred corner is checked where its moment is, on both tubes", "[truth]") {
  Frame f = empty_frame();
  f.sections = {square("tube", 0.040, 0.0015)};
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "corner", 0, 0, 0.5);
  add_node(f, "tip", 0.5, 0, 0.5);
  add_member(f, "post", "foot", "corner");
  add_member(f, "arm", "corner", "tip");
  hold(f, "foot");
  f.limits.yield_factor = 1;
  const NumberedFrame n = build_model(f);
  const double M_pl = 235e6 * member_facts(f, n)[0].section.Wply;
  add_case(f, "couple").moments.push_back({"tip", {0, 0.66 * M_pl, 0}, {}});
  truth("frame: mitre of 40 x 40 x 1.5 at 0.66 M_pl: utilisation", guide_3, use_of_joint(f, 0),
        within_rel(0.66 / 0.550277, 1e-4));
  CHECK_THAT(use_of_joint(f, 1), WithinRel(0.66 / 0.550277, 1e-4));
  CHECK(joint_of(f, 0).reason == "walls under 2.5 mm");
  // Both ends of the post: the foot stands on no tube.
  const auto at = answer_of(analyse(f)).cases[0].members[0].checks.joint_at;
  CHECK_FALSE(at[0].needed);
  CHECK(at[1].utilisation);
}

TEST_CASE("a corner of three tubes gets its number by comparison") {
  Frame f = empty_frame();
  f.sections = {square("tube", 0.040, 0.003)};
  add_node(f, "O", 0, 0, 0);
  add_node(f, "X", 0.4, 0, 0);
  add_node(f, "Y", 0, 0.4, 0);
  add_node(f, "Z", 0, 0, 0.4);
  for (const char* to : {"X", "Y", "Z"}) add_member(f, to, "O", to);
  hold(f, "X");
  hold(f, "Y");
  add_case(f, "pull").forces.push_back({"Z", {800, 300, 500}, {}});
  for (size_t member = 0; member < 3; ++member) {
    const CheckResult r = joint_of(f, member);
    REQUIRE(r.utilisation);
    CHECK(*r.utilisation > 0);
    CHECK(r.comparison);
    CHECK_THAT(r.reason, ContainsSubstring("more than two tubes"));
  }
}

TEST_CASE("metals: stainless and aluminium by comparison, others not") {
  Frame f = chord_of(square("chord", 0.040, 0.003), square("brace", 0.030, 0.003));
  add_brace(f, "post", 0, 0, 0.4);
  add_case(f, "push").forces.push_back({"post_end", {0, 0, -1000}, {}});
  const NumberedFrame n = build_model(f);
  std::vector<MemberFacts> facts = member_facts(f, n);
  const auto ends = joint_ends(f, n);
  const BeamEnds forces = beam_ends(answer_of(analyse(f)).cases[0].solution.beams);
  const auto with = [&](Metal metal, double heated) {
    for (MemberFacts& m : facts) {
      m.metal = metal;
      m.heat_affected.yield = heated;
    }
    return joint_checks(n, facts, ends, 2, forces, 1)[0];
  };
  const double steel = *with(Metal::steel, 0).utilisation;
  const CheckResult stainless = with(Metal::stainless, 0);
  CHECK_THAT(*stainless.utilisation, WithinRel(steel, 1e-12));
  CHECK_THAT(stainless.reason, ContainsSubstring("stainless"));
  const CheckResult aluminium = with(Metal::aluminium, 110e6);
  CHECK_THAT(*aluminium.utilisation, WithinRel(steel * 235 / 100, 1e-3));
  CHECK(aluminium.comparison);
  CHECK(lacks_number(with(Metal::aluminium, std::nan(""))));
  CHECK(lacks_number(with(Metal::other, 0)));
}

TEST_CASE("turning the frame and naming its tubes otherwise changes no number") {
  Frame f = chord_of(square("chord", 0.040, 0.002), square("brace", 0.025, 0.0015));
  add_brace(f, "left", -0.3, 0, 0.3);
  add_brace(f, "right", 0.3, 0.1, 0.3);
  add_brace(f, "side", 0.1, 0.3, 0.1);
  Case& c = add_case(f, "push");
  c.forces = {{"left_end", {500, 20, -600}, {}},
              {"right_end", {300, -10, 400}, {}},
              {"side_end", {20, 500, 30}, {}}};
  Frame turned = f;
  const Eigen::AngleAxisd about_z(0.7, Eigen::Vector3d::UnitZ());
  for (Node& node : turned.nodes) node.at = about_z * node.at;
  for (NodeAction& force : turned.cases[0].forces) force.value = about_z * force.value;
  Frame reordered = f;
  std::reverse(reordered.members.begin() + 2, reordered.members.end());
  for (size_t m = 2; m < 5; ++m) {
    CHECK_THAT(use_of_joint(turned, m), WithinRel(use_of_joint(f, m), 1e-6));
    CHECK_THAT(use_of_joint(reordered, 6 - m), WithinRel(use_of_joint(f, m), 1e-6));
  }
}

TEST_CASE("whatever meets at a node gets a finite number or a reason") {
  unsigned state = 7;
  const auto random = [&] {  // 0 to 1, the same on every machine
    state = state * 1664525U + 1013904223U;
    return static_cast<double>(state >> 8) / (1U << 24);
  };
  const Shape shapes[] = {Shape::square_tube, Shape::rectangular_tube, Shape::round_tube,
                          Shape::round_bar,   Shape::flat_bar,         Shape::properties};
  int numbers = 0;
  for (int round = 0; round < 300; ++round) {
    Frame f = empty_frame();
    f.sections.clear();
    for (const Shape shape : shapes) {
      SectionEntry s = square("s" + std::to_string(f.sections.size()), 0.015 + 0.03 * random(),
                              0.001 + 0.002 * random());
      s.shape = shape;
      s.width *= shape == Shape::rectangular_tube ? 0.6 : 1;
      if (shape == Shape::flat_bar) s.width = 0.004;
      if (shape == Shape::properties) {
        s.given.A = 1.7e-4;
        s.given.Iy = s.given.Iz = 1.5e-8;
        s.given.It = 2.5e-8;
        s.given.Wy = s.given.Wz = 1.2e-6;
        s.given.Wt = 1.8e-6;
      }
      f.sections.push_back(s);
    }
    add_node(f, "O", 0, 0, 0);
    const int arms = 2 + static_cast<int>(5 * random());
    for (int i = 0; i < arms; ++i) {
      const std::string name = std::to_string(i);
      const double x = std::round(4 * random() - 2) / 4, y = std::round(4 * random() - 2) / 4;
      add_node(f, name, x, y, 0.5 + random());
      if (random() < 0.5) f.nodes.back().at.z() = x == 0 && y == 0 ? -0.4 : 0;
      add_member(f, name, "O", name).section =
          "s" + std::to_string(random() < 0.6 ? 0 : static_cast<int>(6 * random()));
      f.members.back().roll = random() < 0.7 ? 0 : random();
    }
    const NumberedFrame n = build_model(f);
    const std::vector<MemberFacts> facts = member_facts(f, n);
    const auto ends = joint_ends(f, n);
    BeamEnds forces(f.members.size());
    for (auto& beam : forces) {
      for (SectionForces& at : beam) {
        at = {2e4 * (random() - 0.5), 500 * random(), 500 * random(),
              50 * random(),          200 * random(), 200 * (random() - 0.5)};
        if (random() < 0.1) at = {};
      }
    }
    for (size_t m = 0; m < f.members.size(); ++m) {
      for (const CheckResult& r : joint_checks(n, facts, ends, m, forces, 1.5)) {
        if (!r.utilisation) {
          CHECK_FALSE(r.reason.empty());
          continue;
        }
        ++numbers;
        CHECK(std::isfinite(*r.utilisation));
        CHECK(*r.utilisation >= 0);
        if (r.comparison) CHECK_FALSE(r.reason.empty());
      }
    }
  }
  CHECK(numbers > 600);
}

TEST_CASE("a tube on a round one is checked by its own tables", "[truth]") {
  // 25 x 2.5 on 40 x 3, S235, beta 0.625: 235 x 9 (4 + 20 x 0.3906)(1 + 0.15625) = 28.888 kN.
  Frame f = chord_of(square("chord", 0.040, 0.003), square("brace", 0.025, 0.0025));
  add_brace(f, "post", 0, 0, 0.4);
  add_case(f, "push").forces.push_back({"post_end", {0, 0, -10}, {}});  // k_p close to 1
  f.sections[0].shape = Shape::round_tube;
  truth("frame: square 25 on round 40 x 3, 10 N: utilisation", round_tables, use_of_joint(f, 2),
        within_rel(0.01 / 28.888, 1e-3));
}

TEST_CASE("a tube that carries on a bigger one in line has no number and says so") {
  Frame f = chord_of(square("chord", 0.040, 0.003), square("brace", 0.025, 0.0025));
  f.members[1].section = "brace";
  for (Member& m : f.members) m.tube.clear();
  add_case(f, "push").forces.push_back({"B", {0, 0, -500}, {}});
  CHECK(lacks_number(joint_of(f, 1)));
  CHECK_THAT(joint_of(f, 1).reason, ContainsSubstring("in one line"));
}

}  // namespace tubewright::joint_check_test
