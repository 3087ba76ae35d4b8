// Where section forces are greatest: textbook beams, and random beams looked through by brute
// force.
#include "cases/checks/governing_cuts.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "tests/solver/model_builder.h"

namespace tubewright::governing_cuts_test {

using namespace tubewright::test;

namespace {

constexpr double SectionForces::*all_forces[] = {&SectionForces::N,  &SectionForces::Vy,
                                                 &SectionForces::Vz, &SectionForces::T,
                                                 &SectionForces::My, &SectionForces::Mz};

struct Extremes {
  double least = INFINITY;
  double greatest = -INFINITY;
  void take(double value) {
    least = std::min(least, value);
    greatest = std::max(greatest, value);
  }
};

/// One beam of length 2 along x, held at its start and as given at its end, under a line load.
std::vector<SectionCut> cuts_of(std::initializer_list<int> held, double line) {
  ModelBuilder b;
  const int s = b.section(properties(1e-3, 1e-6, 2e-6, 1e-6), 210e9, 81e9);
  const int from = b.node(0, 0, 0), to = b.node(2, 0, 0);
  b.beam(from, to, s);
  b.hold(from, held);
  b.hold(to, {y, z, rx});
  Actions a = b.actions();
  a.beams[0].line = {0, 0, line};
  return governing_cuts(b.solve(a).beams[0]);
}

/// Positive; M_y is positive where z > 0 is in tension, that is where a level beam hogs.
double greatest_sagging(const std::vector<SectionCut>& cuts, double& at) {
  double M = 0;
  for (const SectionCut& cut : cuts) {
    if (-cut.forces.My > M) {
      M = -cut.forces.My;
      at = cut.s;
    }
  }
  return M;
}

}  // namespace

TEST_CASE("cuts find the sagging moments of beams under a line load where textbooks put them") {
  // q L^2/8 in the middle; propped cantilever 9 q L^2/128 at 5/8 from the fixed end, which
  // hogs with q L^2/8.
  const double q = 300, L = 2;
  double at = 0;
  CHECK_THAT(greatest_sagging(cuts_of({x, y, z, rx}, -q), at), WithinRel(q * L * L / 8, 1e-9));
  CHECK_THAT(at, WithinRel(0.5, 1e-9));
  const auto propped = cuts_of({x, y, z, rx, ry, rz}, -q);
  CHECK_THAT(greatest_sagging(propped, at), WithinRel(9 * q * L * L / 128, 1e-9));
  CHECK_THAT(at, WithinRel(0.625, 1e-9));
  CHECK(propped.front().s == 0);
  CHECK_THAT(propped.front().forces.My, WithinRel(q * L * L / 8, 1e-9));
  CHECK(propped.back().s == 1);
  // Under a line load the middle is cut too, where several forces may act together.
  const auto in_the_middle = [](const SectionCut& cut) { return cut.s == 0.5; };
  CHECK(std::any_of(propped.begin(), propped.end(), in_the_middle));
  CHECK(cuts_of({x, y, z, rx}, 0).size() == 2);
}

TEST_CASE("no section force anywhere along a loaded beam goes beyond its cuts") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int trial = 0; trial < 80; ++trial) {
    ModelBuilder b;
    const int s = b.section(properties(1e-3, 1e-6, 2e-6, 1e-6), 210e9, 81e9);
    const int from = b.node(0, 0, 0), to = b.node(1, 0.5 * u(random), u(random));
    b.beam(from, to, s, 2 * u(random));
    b.fix(0);
    b.pin(1);
    Actions a = b.actions();
    BeamActions& on = a.beams[0];
    if (trial % 3 != 0) on.line = 500 * Eigen::Vector3d(u(random), u(random), u(random));
    if (trial % 5 > 2) on.couple = 300 * Eigen::Vector3d(u(random), u(random), u(random));
    for (int p = 0; p < trial % 4; ++p) {
      on.points.push_back({0.5 + 0.5 * u(random),
                           200 * Eigen::Vector3d(u(random), u(random), u(random)),
                           20 * Eigen::Vector3d(u(random), u(random), u(random))});
    }
    const BeamState beam = b.solve(a).beams[0];
    const std::vector<SectionCut> cuts = governing_cuts(beam);
    CHECK(std::is_sorted(cuts.begin(), cuts.end(),
                         [](const SectionCut& c, const SectionCut& d) { return c.s < d.s; }));
    INFO("trial " << trial);
    for (const auto force : all_forces) {
      Extremes at_cuts, anywhere;
      for (const SectionCut& cut : cuts) at_cuts.take(cut.forces.*force);
      for (int i = 0; i <= 1000; ++i) anywhere.take(section_forces(beam, i / 1000.0).*force);
      const double rounding = 1e-9 * std::max({1.0, anywhere.greatest, -anywhere.least});
      CHECK(at_cuts.greatest >= anywhere.greatest - rounding);
      CHECK(at_cuts.least <= anywhere.least + rounding);
    }
  }
}

TEST_CASE("couples along a beam move its greatest moment off the zero of the transverse force") {
  // By hand: cantilever of 2 m under q = 300 N/m down and c = 450 N m/m: |M| = c (L - x) -
  // q (L - x)^2/2 from the tip, greatest where L - x = c/q = 1.5 m: c^2/(2 q) = 337.5 N m.
  ModelBuilder b;
  b.section(properties(1e-3, 1e-6, 2e-6, 1e-6), 210e9, 81e9);
  b.node(0, 0, 0);
  b.node(2, 0, 0);
  b.beam(0, 1, 0);
  b.fix(0);
  Actions a = b.actions();
  a.beams[0].line = {0, 0, -300};
  a.beams[0].couple = {0, -450, 0};
  double greatest = 0, at = 0;
  for (const SectionCut& cut : governing_cuts(b.solve(a).beams[0])) {
    if (std::abs(cut.forces.My) <= greatest) continue;
    greatest = std::abs(cut.forces.My);
    at = cut.s;
  }
  CHECK_THAT(greatest, WithinRel(337.5, 1e-9));
  CHECK_THAT(at, WithinRel(0.25, 1e-9));
}

TEST_CASE("a point load shows both of its sides in the cuts") {
  ModelBuilder b;
  const int s = b.section(properties(1e-3, 1e-6, 2e-6, 1e-6), 210e9, 81e9);
  const int from = b.node(0, 0, 0), to = b.node(2, 0, 0);
  b.beam(from, to, s);
  b.hold(0, {x, y, z, rx});
  b.hold(1, {y, z});
  Actions a = b.actions();
  a.beams[0].points.push_back({0.25, {0, 0, -400}, {0, 0, 0}});
  std::vector<double> shear;
  for (const SectionCut& cut : governing_cuts(b.solve(a).beams[0])) {
    if (std::abs(cut.s - 0.25) < 1e-12) shear.push_back(cut.forces.Vz);
  }
  // Simple beam by statics: what is beyond the cut pulls down with P b/L = 300 before the load and
  // pushes up with P a/L = 100 after it.
  REQUIRE(shear.size() >= 2);
  CHECK_THAT(*std::max_element(shear.begin(), shear.end()), WithinRel(100.0, 1e-9));
  CHECK_THAT(*std::min_element(shear.begin(), shear.end()), WithinRel(-300.0, 1e-9));
}

TEST_CASE("scaled forces are all six of them times the factor") {
  const SectionForces f = scaled({1, -2, 3, -4, 5, -6}, -1.5);
  const double wanted[] = {-1.5, 3, -4.5, 6, -7.5, 9};
  for (size_t i = 0; i < 6; ++i) CHECK(f.*all_forces[i] == wanted[i]);
}

}  // namespace tubewright::governing_cuts_test
