// Stresses on sections and the worst place along members, against hand formulas.
#include "solver/elements/stress.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::stress_test {

using namespace tubewright::test;

namespace {

constexpr Source timoshenko =
    from_memory("S. Timoshenko, Strength of Materials: greatest shear 2 V/A, 4/3 V/A, 3/2 V/A");

constexpr double mm = 1e-3;
const Section square = hollow_rectangle(25 * mm, 25 * mm, 2 * mm, cold_formed_corners(2 * mm), 0.3);
const Section oblong = hollow_rectangle(40 * mm, 20 * mm, 2 * mm, cold_formed_corners(2 * mm), 0.3);
const Section round_pipe = round_tube(26.9 * mm, 2.3 * mm, 0.3);

}  // namespace

// EN 1993-1-1 worked numbers of an independent script (DERIVED): 25x25x2, N = 10 kN, My = 0.10,
// Mz = 0.05 kN m: N/A + My/W + Mz/W = 183.96 N/mm2.
TEST_CASE("axial force and bending both ways add up in the corner") {
  SectionForces f;
  f.N = 10e3;
  f.My = 100;
  f.Mz = 50;
  const Stress s = worst_stress(square, f);
  CHECK_THAT(s.von_mises / 1e6, WithinAbs(183.96, 0.006));
  CHECK_THAT(s.axial / 1e6, WithinAbs(57.57, 0.006));
  CHECK_THAT(s.bending / 1e6, WithinAbs(84.26 + 42.13, 0.01));
  CHECK(s.shear == 0);
}

// T = 50 N m on 25x25x2, Ct = 1.804 cm3 (EN 10219-2 table value to four digits): tau = 27.716
// N/mm2.
TEST_CASE("torsion gives T / W_t all round a tube") {
  SectionForces f;
  f.T = 50;
  CHECK_THAT(worst_stress(square, f).shear / 1e6, WithinAbs(27.716, 0.008));
  CHECK_THAT(worst_stress(square, f).von_mises / 1e6, WithinAbs(27.716 * std::sqrt(3.0), 0.014));
  for (const StressPoint& p : outline(oblong)) CHECK(p.shear_per_T == 1 / oblong.Wt);
}

TEST_CASE("the shear flow round a tube carries the transverse force") {
  // Integrating the vertical part of q = tau t along the webs must give V_z. On the mid-line the
  // flow is a parabola between the corner and the web's middle: Simpson is exact for it. The thin
  // corner-free box behind V Q/(I t) has its own I.
  const double w = 38 * mm, b = 18 * mm, t = 2 * mm;
  const auto ring = outline(oblong);
  const double middle = ring[0].shear_per_Vz, corner = ring[1].shear_per_Vz;
  const double carried = 2 * t * w * (4 * middle + 2 * corner) / 6 * oblong.Iy;
  const double thin_Iy = 2 * (t * w * w * w / 12) + 2 * b * t * w * w / 4;
  CHECK_THAT(carried, WithinRel(thin_Iy, 1e-12));
  const double across = ring[2].shear_per_Vy, corner_y = ring[1].shear_per_Vy;
  const double carried_y = -2 * t * b * (4 * across + 2 * corner_y) / 6 * oblong.Iz;
  const double thin_Iz = 2 * (t * b * b * b / 12) + 2 * w * t * b * b / 4;
  CHECK_THAT(carried_y, WithinRel(thin_Iz, 1e-12));
}

TEST_CASE("torsion and shear add on one web and cancel on the other") {
  SectionForces f;
  f.T = 20;
  f.Vz = 1000;
  const auto ring = outline(square);
  CHECK(stress_at(square, ring[0], f).shear > stress_at(square, ring[4], f).shear);
  CHECK_THAT(worst_stress(square, f).shear,
             WithinRel(20 / square.Wt + 1000 * ring[0].shear_per_Vz, 1e-12));
}

// Shear of a thin round tube is greatest at the neutral axis, 2 V/A; of a disc 4/3 V/A (S.
// Timoshenko, Strength of Materials, MEMORY).
TEST_CASE("transverse shear peaks at 2 V/A in a thin pipe and 4/3 V/A in a bar", "[truth]") {
  SectionForces f;
  f.Vz = 1000;
  const Section thin = round_tube(0.1, 0.0001, 0.3), bar = round_bar(0.01, 0.3),
                strap = flat_bar(0.02, 0.003, 0.3);
  truth("thin round tube: greatest shear, Pa", timoshenko, worst_stress(thin, f).shear,
        within_rel(2 * 1000 / thin.A, 2e-3));
  truth("round bar: greatest shear, Pa", timoshenko, worst_stress(bar, f).shear,
        within_rel(4.0 / 3 * 1000 / bar.A, 1e-12));
  truth("flat bar: greatest shear, Pa", timoshenko, worst_stress(strap, f).shear,
        within_rel(1.5 * 1000 / strap.A, 1e-12));
}

TEST_CASE("a pipe feels bending in any direction alike") {
  for (double angle = 0; angle < 6.3; angle += 0.37) {
    SectionForces f;
    f.My = 80 * std::cos(angle);
    f.Mz = 80 * std::sin(angle);
    CHECK_THAT(worst_stress(round_pipe, f).von_mises, WithinRel(80 / round_pipe.Wy, 1e-12));
  }
}

TEST_CASE("a section known by its properties alone takes every part at its greatest") {
  Section s = properties(173.7e-6, 1.48e-8, 1.48e-8, 2.5e-8);
  s.Wy = s.Wz = 1187e-9;
  s.Wt = 1804e-9;
  SectionForces f;
  f.N = -10e3;
  f.My = 100;
  f.Mz = -50;
  f.T = 30;
  f.Vz = 500;
  const double sigma = 10e3 / 173.7e-6 + 150 / 1187e-9;
  const double tau = 30 / 1804e-9 + 500 / (173.7e-6 / 2);
  CHECK_THAT(worst_stress(s, f).von_mises,
             WithinRel(std::sqrt(sigma * sigma + 3 * tau * tau), 1e-12));
}

TEST_CASE("the worst stress of a rectangle is that of a search all along its walls") {
  // Independent of the program's points: Navier's sigma, and for a flat bar Jourawski's parabolas
  // 1.5 V/A (1 - s^2) and torsion as a parabola; for a box the flow V Q/I on its mid-line, written
  // down again here.
  std::mt19937 random(11);
  std::uniform_real_distribution<double> part(-1, 1);
  for (int trial = 0; trial < 60; ++trial) {
    const bool box = trial % 2 == 0;
    const double b = 0.02, h = trial % 3 == 0 ? 0.06 : 0.02, t = 0.002;
    const Section s = box ? hollow_rectangle(h, b, t, {}, 0.3) : flat_bar(h, b / 5, 0.3);
    const double width = s.profile.width;
    SectionForces f;
    f.N = part(random) * 1000;
    f.Vy = part(random) * 800;
    f.Vz = part(random) * 3000;
    f.T = part(random) * 10;
    f.My = part(random) * 30;
    f.Mz = part(random) * 5;
    double worst = 0;
    for (const int wall : {0, 1, 2, 3}) {
      for (int k = -500; k <= 500; ++k) {
        const double at = k / 500.0, side = wall % 2 == 0 ? 1 : -1;
        const bool web = wall < 2;  // y = +-width/2
        const double y = (web ? side : at) * width / 2, z = (web ? at : side) * h / 2;
        const double sigma = f.N / s.A + f.My * z / s.Iy - f.Mz * y / s.Iz;
        double tau = 0;
        if (box) {
          const double wm = b - t, hm = h - t;
          const double Qz =
              web ? side * (wm * hm / 4 + hm * hm / 8 * (1 - at * at)) : at * wm * hm / 4;
          const double Qy =
              web ? -at * wm * hm / 4 : -side * (wm * hm / 4 + wm * wm / 8 * (1 - at * at));
          tau = f.T / s.Wt + f.Vz * Qz / s.Iy + f.Vy * Qy / s.Iz;
        } else {
          const double bow = 1 - at * at;
          tau = f.T / s.Wt * bow + 1.5 / s.A * bow * side * (web ? f.Vz : -f.Vy);
        }
        worst = std::max(worst, std::hypot(sigma, std::sqrt(3.0) * tau));
      }
    }
    CHECK_THAT(worst_stress(s, f).von_mises, WithinRel(worst, 1e-4));
  }
}

TEST_CASE("the worst place of a cantilever is its root, of a simple beam its middle") {
  ModelBuilder b;
  const int s = b.section(square, 210e9, 81e9);
  const int a = b.node(0, 0, 0), c = b.node(1, 0, 0), d = b.node(0, 1, 0), e = b.node(1, 1, 0);
  b.beam(c, a, s);
  b.beam(d, e, s);
  b.fix(a);
  b.hold(d, {x, y, z, rx});
  b.hold(e, {y, z});
  Actions load = b.actions();
  at(load, c, z) = -100;
  load.beams[1].line = {0, 0, -500};
  const StaticSolution r = b.solve(load);
  const MemberStress root = worst_along(r.beams[0]);
  CHECK(root.where == 1);
  CHECK_THAT(root.stress.bending, WithinRel(100 / square.Wy, 1e-12));
  const MemberStress middle = worst_along(r.beams[1]);
  CHECK_THAT(middle.where, WithinAbs(0.5, 1e-6));
  CHECK_THAT(middle.stress.bending, WithinRel(500.0 / 8 / square.Wy, 1e-9));
}

TEST_CASE("the worst place agrees with a search at ten thousand stations") {
  for (const Section* section : {&square, &oblong, &round_pipe}) {
    ModelBuilder b;
    const int s = b.section(*section, 210e9, 81e9);
    const int n0 = b.node(0, 0, 0), n1 = b.node(1.1, 0.3, 0.2);
    b.beam(n0, n1, s, 0.3);
    b.fix(n0);
    b.hold(n1, {y, z, rx});
    Actions a = b.actions();
    a.beams[0].line = {80, -300, -700};
    a.beams[0].points = {{0.31, {10, 300, -200}, {5, 0, 3}}, {0.66, {-300, 20, 150}, {-8, 4, 0}}};
    at(a, n1, rz) = 20;
    at(a, n1, ry) = -60;
    const StaticSolution r = b.solve(a);
    double dense = 0;
    for (int i = 0; i <= 10000; ++i) {
      for (const bool before : {false, true}) {
        dense = std::max(
            dense,
            worst_stress(*section, section_forces(r.beams[0], i / 10000.0, before)).von_mises);
      }
    }
    const double found = worst_along(r.beams[0]).stress.von_mises;
    CHECK(found >= dense * (1 - 1e-12));
    CHECK_THAT(found, WithinRel(dense, 1e-5));
  }
}

}  // namespace tubewright::stress_test
