// Effective lengths of frame_sway() against Euler's columns. One cubic beam finds the load of a
// cantilever 0.75 % too high, hence lengths to within a hundredth.
#include "cases/analysis/buckling_lengths.h"

#include <cmath>
#include <numbers>

#include "cases/frame/section_of.h"
#include "cases/model/case_actions.h"
#include "solver/statics/statics.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::buckling_lengths_test {

using namespace tubewright::testing;

namespace {

constexpr Source euler_load = rederived("Euler: pi2 E I/(2 L)2");
constexpr Source falls_over = rederived("post against a spring falls over at k L");

constexpr double L = 1.5;

/// A mast of shear-rigid tube, 30 by 20, that stands fixed at `foot` under `load` on its `top`.
Frame mast(double load) {
  Frame f = empty_frame();
  SectionEntry& tube = f.sections.front();
  tube.shape = Shape::rectangular_tube;
  tube.height = 0.030;
  tube.width = 0.020;
  tube.shear = false;
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "top", 0, 0, L);
  add_member(f, "mast", "foot", "top");
  f.supports.push_back({"foot", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"top", {0, 0, -load}, {}});
  return f;
}

FrameSway sway_of(const Frame& f, double safety_factor) {
  const NumberedFrame n = build_model(f);
  const StaticResult r = solve_statics(n.model, {case_actions(f, n, f.cases.front())});
  REQUIRE(r.has_value());
  const StaticSolution& solution = r->front();
  return frame_sway(n.model, n.slots, member_facts(f, n), axial_forces(solution), safety_factor,
                    nodes_of_body(f, n));
}

Section tube_of(const Frame& f) {
  Material steel;
  steel.E = 210e9;
  steel.G = 81e9;
  return section_of(f.sections.front(), steel);
}

/// Euler's load of a column of that effective length, E 210 GPa.
double euler(double I, double length) {
  return std::numbers::pi * std::numbers::pi * 210e9 * I / (length * length);
}

}  // namespace

TEST_CASE("a mast that stands free is twice as long as it is, about both axes", "[truth]") {
  // Euler: N_cr = pi^2 E I/(2 L)^2.
  const Section s = tube_of(mast(0));
  REQUIRE(s.Iz < s.Iy);
  const double load = euler(s.Iz, 2 * L) / 6;
  const FrameSway sway = sway_of(mast(load), 1.5);
  REQUIRE(sway.factor);
  truth("free mast: factor to sway, reserve 1.5", euler_load, *sway.factor,
        within_rel(6 / 1.5, 0.01));
  REQUIRE(sway.lengths.size() == 1);
  CHECK_THAT(sway.lengths[0].lengths.y, WithinRel(2 * L, 0.01));
  CHECK_THAT(sway.lengths[0].lengths.z, WithinRel(2 * L, 0.01));
  CHECK(sway.lengths[0].sway[0]);
  CHECK(sway.lengths[0].sway[1]);
}

TEST_CASE("a mast loaded to less than a tenth of what it buckles at has its own length") {
  // EN 1993-1-1 5.2.1, on the design loads: the factor asked for counts.
  const Section s = tube_of(mast(0));
  const double load = euler(s.Iz, 2 * L) / 11;
  const FrameSway calm = sway_of(mast(load), 1);
  CHECK_FALSE(calm.factor);
  CHECK(calm.lengths[0].lengths.y == L);
  CHECK(calm.lengths[0].lengths.z == L);
  CHECK_FALSE(calm.lengths[0].sway[1]);
  CHECK_THAT(sway_of(mast(load), 2).factor.value_or(0), WithinRel(5.5, 0.01));
  // Above ten about y, below ten about z: only that way it is longer.
  REQUIRE(s.Iy / s.Iz > 1.5);
  const FrameSway one_way = sway_of(mast(euler(s.Iz, 2 * L) / 8), 1);
  CHECK(one_way.lengths[0].lengths.y == L);
  CHECK_THAT(one_way.lengths[0].lengths.z, WithinRel(2 * L, 0.01));
}

TEST_CASE("a length that the frame file gives is left alone, and so is a mast in tension") {
  const double load = euler(tube_of(mast(0)).Iz, 2 * L) / 3;
  Frame given = mast(load);
  given.members.front().buckling_length = {std::nullopt, 0.8};
  const FrameSway sway = sway_of(given, 1);
  CHECK(sway.lengths[0].lengths.z == 0.8 * L);
  CHECK_FALSE(sway.lengths[0].sway[1]);
  CHECK_THAT(sway.lengths[0].lengths.y, WithinRel(2 * L, 0.01));
  const FrameSway pulled = sway_of(mast(-load), 1);
  CHECK_FALSE(pulled.factor);
  CHECK(pulled.lengths[0].lengths.y == L);
}

TEST_CASE("a column whose ends are held in place buckles at no more than its own length") {
  Frame f = mast(0);
  f.supports.push_back({"top", {true, true, false, false, false, false}, {}, {}});
  f.cases.front().forces.front().value.z() = -euler(tube_of(f).Iz, L) / 2;
  // Fixed and pinned: 0.7 L would do (Euler), but none becomes shorter than the member.
  const FrameSway sway = sway_of(f, 1);
  CHECK(sway.lengths[0].lengths.y == L);
  CHECK(sway.lengths[0].lengths.z == L);
}

TEST_CASE("a post that falls over against its spring lengthens nothing and is no sway of tubes",
          "[truth]") {
  // A stiff post pinned at its foot, held upright by a spring k at its top, falls over at k L.
  const double k = 2000, load = k * L / 2;
  Frame f = mast(load);
  f.sections.front().height = f.sections.front().width = 0.06;
  f.supports.front().restrained = {true, true, true, true, false, true};
  f.supports.push_back({"top", {false, true, false, false, false, false}, {}, {}});
  add_node(f, "wall", 1, 0, L);
  f.supports.push_back({"wall", {true, true, true, true, true, true}, {}, {}});
  Member& spring = add_member(f, "spring", "wall", "top");
  spring.kind = MemberKind::spring;
  spring.section.clear();
  spring.rate = k;
  const NumberedFrame n = build_model(f);
  AxialForces forces{{-load}, {}, {0}, {false}};
  REQUIRE(modes_below(n.model, forces, second_order_limit) == 1);
  truth("post against its spring: factor", falls_over,
        linear_buckling(n.model, forces, 1).modes.front().factor, within_rel(2.0, 0.01));
  const FrameSway sway = sway_of(f, 1);
  CHECK_FALSE(sway.factor);
  CHECK(sway.lengths[0].lengths.y == L);
  // A link instead of the spring is part of the frame: its give is the frame's own sway.
  f.members.back().kind = MemberKind::link;
  f.members.back().section = "wire";
  SectionEntry wire = f.sections.front();
  wire.name = "wire";
  wire.shape = Shape::properties;
  wire.given = Section{};
  wire.given.A = k * 1 / 210e9;
  f.sections.push_back(wire);
  truth("post against its link: factor", falls_over, sway_of(f, 1).factor.value_or(0),
        within_rel(2.0, 0.01));
}

TEST_CASE("a member's length does not hang on neighbours that stand idle, however many") {
  // Masts side by side: one under load, the others under loads of their own, not joined.
  const double critical = euler(tube_of(mast(1)).Iz, 2 * L);
  const FrameSway alone = sway_of(mast(critical / 11), 1);
  const FrameSway swaying = sway_of(mast(critical / 3), 1);
  for (const int neighbours : {5, 20, 70}) {
    for (const double own : {11.0, 3.0}) {
      Frame f = mast(critical / own);
      for (int i = 0; i < neighbours; ++i) {
        const std::string foot = "foot" + std::to_string(i), top = "top" + std::to_string(i);
        add_node(f, foot, 1 + i, 0, 0);
        add_node(f, top, 1 + i, 0, L);
        add_member(f, "mast" + std::to_string(i), foot, top);
        f.supports.push_back({foot, {true, true, true, true, true, true}, {}, {}});
        f.cases.front().forces.push_back({top, {0, 0, -critical / (1.2 + 0.1 * i)}, {}});
      }
      const BucklingLengths& expected = (own > 10 ? alone : swaying).lengths[0].lengths;
      const BucklingLengths found = sway_of(f, 1).lengths[0].lengths;
      CHECK_THAT(found.y, WithinRel(expected.y, 1e-6));
      CHECK_THAT(found.z, WithinRel(expected.z, 1e-6));
    }
  }
}

TEST_CASE("of a vehicle, what sways beside the frame proper is its suspension") {
  const double critical = euler(tube_of(mast(1)).Iz, 2 * L);
  Frame f = mast(critical / 4);
  CHECK_FALSE(sway_of(f, 1).in_suspension);  // no vehicle
  f.vehicle = Vehicle{};
  const FrameSway proper = sway_of(f, 1);  // the mast is the frame
  REQUIRE(proper.factor);
  CHECK_FALSE(proper.in_suspension);
  for (int i = 0; i < 3; ++i) add_node(f, "body_" + std::to_string(i), 1 + i, 0, 0);
  add_member(f, "body_1", "body_0", "body_1");
  add_member(f, "body_2", "body_1", "body_2");
  f.supports.push_back({"body_0", {true, true, true, true, true, true}, {}, {}});
  const FrameSway hung = sway_of(f, 1);
  REQUIRE(hung.factor);
  CHECK(hung.in_suspension);
  CHECK_THAT(*hung.factor, WithinRel(*proper.factor, 1e-9));
}

}  // namespace tubewright::buckling_lengths_test
