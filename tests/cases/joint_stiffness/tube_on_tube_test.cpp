// Springs of joints from the table against other solids, against joints kept back, and by laws.
#include "cases/joint_stiffness/tube_on_tube.h"

#include <cmath>
#include <numbers>

#include "tests/cases/joint_stiffness/stiffness_rows.h"
#include "tests/truth.h"

namespace tubewright::tube_on_tube_test {

namespace {

constexpr double E = 210e9, mm = 1e-3;
const Source solids = rederived("independent solids, 10-node tetrahedra, for this project");

/// Square brace on a chord, mm.
TubeOnTube tee(double width, double depth, double wall, double brace, double brace_wall,
               ChordEnd end = ChordEnd::through) {
  TubeOnTube j;
  j.chord_width = width * mm;
  j.chord_depth = depth * mm;
  j.chord_wall = wall * mm;
  j.brace_width = j.brace_depth = brace * mm;
  j.brace_wall = brace_wall * mm;
  j.end = end;
  return j;
}

JointSprings springs(const TubeOnTube& j) {
  const auto k = springs_of_tube_on_tube(j, E);
  REQUIRE(k);
  return *k;
}

JointSprings corner(double width, double depth, double wall, CornerKind kind) {
  const auto k = springs_of_corner({width * mm, depth * mm, wall * mm, kind}, E);
  REQUIRE(k);
  return *k;
}

OutsideTable refusal(const TubeOnTube& j) {
  const auto k = springs_of_tube_on_tube(j, E);
  REQUIRE(k.error());
  return *k.error();
}

double compliance(double spring) { return std::isfinite(spring) ? 1 / spring : 0; }

}  // namespace

TEST_CASE("Springs of tees are those of other solids", "[truth]") {
  struct Row {
    const char* name;
    TubeOnTube joint;
    double out_of_plane, in_plane;
  };
  const Row rows[] = {
      {"20x1.5 on 20x1.5", tee(20, 20, 1.5, 20, 1.5), 16400, 80900},
      {"25x1.5 on 25x1.5", tee(25, 25, 1.5, 25, 1.5), 17200, 114000},
      {"25x2 on 25x2", tee(25, 25, 2, 25, 2), 40300, 194000},
      {"25x2 on 30x2", tee(30, 30, 2, 25, 2), 27900, 84100},
      {"20x1.5 on 25x1.5", tee(25, 25, 1.5, 20, 1.5), 11300, 32100},
      {"15x1.5 on 20x1.5", tee(20, 20, 1.5, 15, 1.5), 9590, 22100},
      {"20x1.5 on 30x2", tee(30, 30, 2, 20, 1.5), 21100, 35800},
      {"20x1.5 on 30x1.5", tee(30, 30, 1.5, 20, 1.5), 10400, 17500},
      {"15x1.5 on 25x1.5", tee(25, 25, 1.5, 15, 1.5), 8880, 12200},
      {"15x1.5 on 30x2", tee(30, 30, 2, 15, 1.5), 14000, 14600},
      {"20x1.5 on the wide face of 40x20x1.5", tee(40, 20, 1.5, 20, 1.5), 4700, 5250},
      {"20x1.5 on the narrow face of 40x20x1.5", tee(20, 40, 1.5, 20, 1.5), 15200, 160000},
      {"20x1.5 on the wide face of 40x20x1.5, open end", tee(40, 20, 1.5, 20, 1.5, ChordEnd::open),
       2310, 2850},
  };
  for (const Row& row : rows) {
    const JointSprings k = springs(row.joint);
    truth(named(row.name, ": out-of-plane spring, N m/rad"), solids, k.out_of_plane,
          within_rel(row.out_of_plane, 0.15));
    truth(named(row.name, ": in-plane spring, N m/rad"), solids, k.in_plane,
          within_rel(row.in_plane, 0.15));
  }
}

TEST_CASE("Pushes on faces are those of other solids", "[truth]") {
  struct Row {
    const char* name;
    TubeOnTube joint;
    double axial;  // kN/mm
  };
  for (const Row& row : {Row{"20x1.5 on 30x2", tee(30, 30, 2, 20, 1.5), 427},
                         {"20x1.5 on 30x1.5", tee(30, 30, 1.5, 20, 1.5), 219},
                         {"15x1.5 on 25x1.5", tee(25, 25, 1.5, 15, 1.5), 219},
                         {"15x1.5 on 30x2", tee(30, 30, 2, 15, 1.5), 153},
                         {"20x1.5 on the wide face of 40x20x1.5", tee(40, 20, 1.5, 20, 1.5), 43}}) {
    truth(named(row.name, ": axial spring, kN/mm"), solids, springs(row.joint).axial / 1e6,
          within_rel(row.axial, 0.2));
  }
}

TEST_CASE("The table follows the fit by hand over the width ratio", "[truth]") {
  struct Row {
    double beta, out_of_plane, in_plane;
  };
  for (const Row& row : {Row{0.5, 8.3, 8.4},
                         {0.6, 12, 17},
                         {0.67, 13.5, 22},
                         {0.75, 15, 34},
                         {0.8, 15.6, 42},
                         {0.83, 16.6, 50},
                         {1, 24, 115}}) {
    // As the joints that the fit was made from: 0.75 of the wall where the brace is small.
    const JointSprings k = springs(tee(15, 15, 1, 15 * row.beta, row.beta < 0.7 ? 0.75 : 1));
    const double unit = E * mm * mm * mm;
    truth(named("b0/t0 15, beta ", row.beta, ": out of plane, k/(E t0^3)"), solids,
          k.out_of_plane / unit, within_rel(row.out_of_plane, 0.2));
    truth(named("b0/t0 15, beta ", row.beta, ": in plane, k/(E t0^3)"), solids, k.in_plane / unit,
          within_rel(row.in_plane, row.beta == 1 ? 0.4 : 0.25));
  }
}

TEST_CASE("Springs of corners are those of other solids", "[truth]") {
  const JointSprings mitred = corner(20, 20, 1.5, CornerKind::mitred);
  truth("20x1.5 mitred: out-of-plane spring, N m/rad", solids, mitred.out_of_plane,
        within_rel(15800, 0.05));
  truth("20x1.5 mitred: in-plane spring, N m/rad", solids, mitred.in_plane,
        within_rel(38900, 0.16));
  truth("20x1.5 mitred: torsional spring, N m/rad", solids, mitred.torsion,
        within_rel(15700, 0.05));
  const JointSprings open = corner(20, 20, 1.5, CornerKind::butted_open);
  truth("20x1.5 on an open end: out-of-plane spring, N m/rad", solids, open.out_of_plane,
        within_rel(9000, 0.05));
  // What is left of beams five times as flexible: 3 % of theirs.
  truth("20x1.5 on an open end: in-plane spring, N m/rad", solids, open.in_plane,
        within_rel(43800, 0.25));
}

TEST_CASE("A corner capped is far stiffer than other solids ask for an open one", "[truth]") {
  const JointSprings capped = corner(20, 20, 1.5, CornerKind::butted_capped);
  truth("20x1.5 on a capped end: out-of-plane spring, N m/rad", solids, capped.out_of_plane,
        not_below(66700, 2));
  truth("20x1.5 on a capped end: in-plane spring, N m/rad", solids, capped.in_plane,
        not_below(67900, 1.5));
}

TEST_CASE("Two braces on neighbouring faces hand over what other solids say", "[truth]") {
  const auto through = springs_of_pair(tee(20, 20, 1.5, 20, 1.5), E);
  const auto open = springs_of_pair(tee(20, 20, 1.5, 20, 1.5, ChordEnd::open), E);
  REQUIRE((through && open));
  // Equal and opposite moments on the two: r1 - r2 = 2 M/against.
  truth("two 20x1.5 on neighbouring faces of a 20x1.5: spring between them, N m/rad", solids,
        through->against / 2, within_rel(5360, 0.12));
  truth("the same at an open end", solids, open->against / 2, within_rel(3390, 0.16));
}

TEST_CASE("The table foretells joints that were kept back when it was made") {
  int compared = 0;
  for (const test::StiffnessRow& r : test::stiffness_rows()) {
    if (r.use != "check" || r.kind != "tee") continue;
    const TubeOnTube j = test::joint_of(r);
    const auto k = springs_of_tube_on_tube(j, 1);
    INFO("b0 " << j.chord_width << " h0 " << j.chord_depth << " b1 " << j.brace_width << " h1 "
               << j.brace_depth << " t1 " << j.brace_wall << " angle " << r.at("angle") << " "
               << r.end);
    REQUIRE(k);
    const test::StubFlexibility stub = test::stub_of(j);
    // Local flexibilities, which have no small differences.
    const double out = (compliance(k->out_of_plane) + stub.out_of_plane) /
                       (std::max(0.0, r.at("out_of_plane")) + stub.out_of_plane);
    const double in = (compliance(k->in_plane) + stub.in_plane) /
                      (std::max(0.0, r.at("in_plane")) + stub.in_plane);
    // Braces at an angle at the end of a chord were not among the joints the table is made from.
    const bool inclined_end = j.end != ChordEnd::through && r.at("angle") != 90;
    CHECK(std::abs(std::log(out)) < std::log(inclined_end ? 1.5 : 1.15));
    CHECK(std::abs(std::log(in)) < std::log(1.3));
    ++compared;
  }
  CHECK(compared >= 20);
}

TEST_CASE("The table foretells pairs that were kept back") {
  int compared = 0;
  for (const test::StiffnessRow& r : test::stiffness_rows()) {
    if (r.use != "check" || r.kind != "pair") continue;
    const TubeOnTube j = test::joint_of(r);
    const auto k = springs_of_pair(j, 1);
    REQUIRE(k);
    const double stub = test::stub_of(j).out_of_plane;
    const double against =
        (compliance(k->against) + stub) / (r.at("out_of_plane") + stub - r.at("other"));
    INFO("b0 " << j.chord_width << " b1 " << j.brace_width << " " << r.end << ": " << against);
    CHECK(std::abs(std::log(against)) < std::log(1.15));
    ++compared;
  }
  CHECK(compared == 3);
}

TEST_CASE("A wider brace makes a stiffer joint, at every slenderness") {
  for (const double slenderness : {10.0, 12.0, 15.0, 18.0, 24.0, 30.0}) {
    double out_before = 0, in_before = 0;
    for (int k = 0; k <= 140; ++k) {
      const double beta = std::min(1.0, 0.3 + 0.005 * k);
      if (beta * slenderness < 5 * 0.667) continue;
      // Local stiffness: what a thin brace gives inside the chord would hide it.
      const TubeOnTube j = tee(slenderness, slenderness, 1, beta * slenderness, 0.667);
      const auto s = springs_of_tube_on_tube(j, 1);
      REQUIRE(s);
      const TubeOnTube walls =
          tee(slenderness / mm, slenderness / mm, 1 / mm, beta * slenderness / mm, 0.667 / mm);
      const auto unit = springs_of_tube_on_tube(walls, 1);
      REQUIRE(unit);
      if (std::isinf(unit->out_of_plane) || std::isinf(unit->in_plane)) continue;
      const test::StubFlexibility stub = test::stub_of(walls);
      const double out = 1 / (1 / unit->out_of_plane + stub.out_of_plane);
      const double in = 1 / (1 / unit->in_plane + stub.in_plane);
      INFO("b0/t0 " << slenderness << ", beta " << beta);
      CHECK(out >= out_before);
      CHECK(in >= in_before);
      out_before = out;
      in_before = in;
    }
    CHECK(out_before > 0);
  }
}

TEST_CASE("A chord's open end is softer than one that runs on, a cap stiffer") {
  for (const double brace : {12.0, 15.0, 18.0, 20.0}) {
    const JointSprings open = springs(tee(20, 20, 1, brace, 1, ChordEnd::open));
    const JointSprings through = springs(tee(20, 20, 1, brace, 1));
    const JointSprings capped = springs(tee(20, 20, 1, brace, 1, ChordEnd::capped));
    INFO("brace " << brace);
    CHECK(open.out_of_plane < 0.7 * through.out_of_plane);
    CHECK(open.in_plane < through.in_plane);
    CHECK(capped.out_of_plane > through.out_of_plane);
  }
}

TEST_CASE("A mitred corner is stiffer out of its plane than one butted on an open end") {
  for (const double wall : {1.0, 1.5, 2.0, 3.0}) {
    INFO("30 x " << wall);
    const double mitred = corner(30, 30, wall, CornerKind::mitred).out_of_plane;
    CHECK(mitred > corner(30, 30, wall, CornerKind::butted_open).out_of_plane);
    CHECK(mitred < corner(30, 30, wall, CornerKind::butted_capped).out_of_plane);
  }
}

TEST_CASE("Only a brace at an angle gives in torsion, the more the nearer it lies to the chord") {
  TubeOnTube j = tee(25, 25, 1.5, 20, 1.5, ChordEnd::open);
  CHECK(springs(j).torsion == rigid);
  j.angle = 55 * std::numbers::pi / 180;
  const double steep = springs(j).torsion;
  j.angle = 45 * std::numbers::pi / 180;
  CHECK(springs(j).torsion < steep);
  CHECK(springs(j).torsion > springs(j).out_of_plane);
}

TEST_CASE("Springs go with Young's modulus, moments with the cube of the size") {
  const TubeOnTube small = tee(30, 40, 2, 20, 1.5), large = tee(60, 80, 4, 40, 3);
  const JointSprings a = springs(small), b = springs(large);
  CHECK_THAT(b.out_of_plane, WithinRel(8 * a.out_of_plane, 1e-9));
  CHECK_THAT(b.in_plane, WithinRel(8 * a.in_plane, 1e-9));
  CHECK_THAT(b.axial, WithinRel(2 * a.axial, 1e-9));
  CHECK_THAT(springs_of_tube_on_tube(small, E / 3)->in_plane, WithinRel(a.in_plane / 3, 1e-9));
}

TEST_CASE("Where the solid gives no more than beams do a spring is rigid") {
  const JointSprings k = springs(tee(25, 25, 2, 25, 2));
  CHECK(k.axial == rigid);
  CHECK(k.torsion == rigid);
  CHECK(std::isfinite(k.out_of_plane));
}

TEST_CASE("Braces that turn together are held better than those turned against each other") {
  for (const ChordEnd end : {ChordEnd::through, ChordEnd::open}) {
    for (const double brace : {12.0, 16.0, 20.0}) {
      const auto k = springs_of_pair(tee(20, 20, 1.5, brace, 1.5, end), E);
      REQUIRE(k);
      CHECK(k->together > k->against);
      CHECK(k->against < springs(tee(20, 20, 1.5, brace, 1.5)).out_of_plane);
    }
  }
}

TEST_CASE("What lies outside the table is refused, with the reason") {
  CHECK(refusal(tee(40, 40, 1, 30, 1)) == OutsideTable::chord_slenderness);
  CHECK(refusal(tee(18, 18, 2, 16, 2)) == OutsideTable::chord_slenderness);
  CHECK(refusal(tee(40, 40, 2, 10, 1.5)) == OutsideTable::width_ratio);
  CHECK(refusal(tee(20, 20, 1.5, 25, 1.5)) == OutsideTable::width_ratio);
  CHECK(refusal(tee(40, 40, 3, 20, 1)) == OutsideTable::wall_ratio);
  CHECK(refusal(tee(40, 100, 2, 20, 2)) == OutsideTable::chord_aspect);
  CHECK(refusal(tee(20, 20, 2, 8, 2)) == OutsideTable::brace_wall);
  TubeOnTube j = tee(20, 20, 1.5, 15, 1.5);
  j.brace_depth *= 2.5;
  CHECK(refusal(j) == OutsideTable::brace_aspect);
  j = tee(20, 20, 1.5, 15, 1.5);
  j.angle = 40 * std::numbers::pi / 180;
  CHECK(refusal(j) == OutsideTable::angle);
  j.angle = 60 * std::numbers::pi / 180;
  CHECK(springs_of_tube_on_tube(j, E));
  CHECK(*springs_of_pair(j, E).error() == OutsideTable::angle);
  CHECK(*springs_of_pair(tee(20, 30, 1.5, 15, 1.5), E).error() == OutsideTable::unequal_tubes);
  CHECK(*springs_of_corner({60 * mm, 60 * mm, 1.5 * mm, CornerKind::mitred}, E).error() ==
        OutsideTable::chord_slenderness);
  const double nan = std::nan("");
  CHECK(refusal(tee(nan, 20, 1.5, 15, 1.5)) == OutsideTable::chord_slenderness);
}

}  // namespace tubewright::tube_on_tube_test
