#include "solver/statics/redundancy.h"

#include <numeric>
#include <random>

#include "solver/model/section_shapes.h"
#include "tests/solver/statics/ten_bars.h"
#include "tests/truth.h"

namespace tubewright::redundancy_tests {

using namespace tubewright::test;

namespace {

Redundancies of(const Model& model) {
  const BaseStiffness base(model);
  REQUIRE(base.sound());
  return redundancies(model, base);
}

}  // namespace

TEST_CASE("redundancies of ten bars are those of an independent solver and sum to two", "[truth]") {
  constexpr Source solver = rederived("an independent truss solver");
  const Redundancies found = of(TenBars().model);
  constexpr std::array<double, 10> expected = {0.027928, 0.177846, 0.040856, 0.020290, 0.567583,
                                               0.177846, 0.332027, 0.115557, 0.037041, 0.503025};
  for (size_t i = 0; i < expected.size(); ++i) {
    truth("ten bars: redundancy of bar " + std::to_string(i + 1), solver, found.bars[i],
          within_abs(expected[i], 5e-7));
  }
  truth("ten bars: degree of static indeterminacy",
        rederived("10 bars less 8 free DOFs in the plane"), found.sum, within_abs(2, 1e-9));
}

TEST_CASE("a beam held at both ends is redundant by six, a cantilever by nothing", "[truth]") {
  ModelBuilder f;
  const int s =
      f.section(hollow_rectangle(0.03, 0.03, 0.002, cold_formed_corners(0.002), 0.3), 210e9, 81e9);
  const int a = f.node(0, 0, 0), b = f.node(0.5, 0, 0), c = f.node(1, 0.2, 0);
  f.beam(a, b, s);
  f.beam(b, c, s);
  f.fix(a);
  CHECK_THAT(of(f.model).sum, WithinAbs(0, 1e-9));
  f.fix(c);
  truth("two beams in a line between walls: degree of static indeterminacy", rederived("6 x 2 - 6"),
        of(f.model).sum, within_abs(6, 1e-9));
}

TEST_CASE("redundancies sum to the ways in which elements resist less the free DOFs") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int draw = 0; draw < 40; ++draw) {
    ModelBuilder f;
    const int s = f.section(hollow_rectangle(0.03, 0.02, 0.002, cold_formed_corners(0.002), 0.3),
                            210e9, 81e9);
    for (int i = 0; i < 8; ++i) {
      const int layer = i / 4, row = i / 2 % 2;
      f.node(layer + 0.2 * u(random), row, i % 2 + 0.2 * u(random));
    }
    int ways = 0;
    for (int a = 0; a < 8; ++a) {
      for (int b = a + 1; b < std::min(8, a + 5); ++b) {
        const double choice = u(random);
        if (choice < -0.5) {
          f.bar(a, b, 1e7);
          ways += 1;
          continue;
        }
        Beam& beam = f.model.beams[static_cast<size_t>(f.beam(a, b, s))];
        ways += 6;
        if (choice > 0.5) {
          beam.connection_from = {rigid, rigid, rigid, rigid, 0, 0};
          ways -= 2;
        }
        if (choice > 0.7) beam.connection_to = {rigid, rigid, rigid, 500, rigid, rigid};
      }
    }
    f.fix(0);
    f.pin(1);
    f.hold(2, {z});
    const Redundancies found = of(f.model);
    const auto free = static_cast<int>(number_free_dofs(f.model).unknown.size());
    CHECK_THAT(found.sum, WithinAbs(ways - free, 1e-7));
    for (const double r : found.beams) {
      CHECK(r > -1e-9);
      CHECK(r < 6);
    }
  }
}

TEST_CASE("what takes the place of a lost bar is what its redundancy says of its force") {
  // N_j' = N_j + N_k (...)/rho_k: under a force along the bar alone the displacement grows by
  // 1/rho_k where the bar is lost, since K' = K (1 - share).
  ModelBuilder f;
  const int a = f.node(0, 0, 0), b = f.node(1, 0, 0);
  f.bar(a, b, 3e6);
  f.bar(a, b, 1e6);
  f.fix(a);
  f.hold(b, {y, z});
  const Redundancies found = of(f.model);
  CHECK_THAT(found.bars[0], WithinAbs(0.25, 1e-12));
  CHECK_THAT(found.bars[1], WithinAbs(0.75, 1e-12));
}

}  // namespace tubewright::redundancy_tests
