// Links, springs and cables that only pull, by hand statics.
#include <cmath>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::bars_and_cables_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9;
const Section tube = hollow_rectangle(0.03, 0.03, 0.002, cold_formed_corners(0.002), 0.3);

/// A square bay in the x-z plane, pinned feet, stiff corners, crossed cables.
struct CrossBraced : ModelBuilder {
  int a, b, c, d, rising, falling;

  CrossBraced() {
    const int s = section(tube, E, G);
    a = node(0, 0, 0);
    b = node(1, 0, 0);
    c = node(1, 0, 1);
    d = node(0, 0, 1);
    beam(a, d, s);
    beam(d, c, s);
    beam(c, b, s);
    for (const int n : {a, b}) hold(n, {x, y, z, rx, rz});
    for (const int n : {c, d}) hold(n, {y});
    rising = bar(a, c, 1.5e6, true);
    falling = bar(b, d, 1.5e6, true);
  }
};

}  // namespace

TEST_CASE("of two crossed cables the one that would be pushed goes slack") {
  CrossBraced f;
  Actions a = f.actions();
  at(a, f.d, x) = 1000;
  const StaticSolution s = f.solve(a);
  CHECK_FALSE(s.slack[f.rising]);
  CHECK(s.slack[f.falling]);
  CHECK(s.bar_forces[f.falling] == 0);
  CHECK(s.bar_forces[f.rising] > 0);

  ModelBuilder alone = f;  // the same frame built without the slack cable
  alone.model.bars.erase(alone.model.bars.begin() + f.falling);
  const StaticSolution t = alone.solve(a);
  CHECK((s.displacements - t.displacements).norm() < 1e-10 * t.displacements.norm());
}

TEST_CASE("reversing the load swaps the slack cable and mirrors the forces") {
  CrossBraced f;
  Actions a = f.actions();
  at(a, f.d, x) = at(a, f.c, x) = 500;
  const StaticSolution one = f.solve(a);
  at(a, f.d, x) = at(a, f.c, x) = -500;
  const StaticSolution other = f.solve(a);
  CHECK_THAT(one.bar_forces[f.rising], WithinRel(other.bar_forces[f.falling], 1e-9));
  CHECK(other.slack[f.rising]);
}

TEST_CASE("no cable is ever pushed and no slack cable is stretched") {
  // A mast on a stiff base with six stays under loads from all sides.
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  const auto mast = f.chain({0, 0, 0}, {0, 0, 3}, 3, s);
  f.fix(mast[0]);
  for (int i = 0; i < 6; ++i) {
    const double angle = 2 * 3.14159265358979 * i / 6;
    const int foot = f.node(2 * std::cos(angle), 2 * std::sin(angle), 0);
    f.pin(foot);
    f.bar(mast[1 + i % 3], foot, 4e5, true);
  }
  for (int i = 0; i < 12; ++i) {
    Actions a = f.actions();
    at(a, mast[3], x) = 800 * std::cos(0.5 * i);
    at(a, mast[2], y) = 900 * std::sin(0.7 * i);
    at(a, mast[3], z) = -400;
    const StaticSolution r = f.solve(a);
    for (size_t k = 0; k < f.model.bars.size(); ++k) {
      const Bar& bar = f.model.bars[k];
      const Eigen::Vector3d n = (f.model.nodes[bar.to] - f.model.nodes[bar.from]).normalized();
      const double stretch =
          n.dot(r.displacements.segment<3>(6 * bar.to) - r.displacements.segment<3>(6 * bar.from));
      CHECK(r.bar_forces[k] >= 0);
      CHECK((r.slack[k] ? stretch <= 1e-12 : stretch >= -1e-12));
    }
    CHECK(r.residual.force < 1e-9);
  }
}

TEST_CASE("an unloaded cable is not slack") {
  CrossBraced f;
  const StaticSolution s = f.solve(f.actions());
  CHECK_FALSE(s.slack[f.rising]);
  CHECK_FALSE(s.slack[f.falling]);
}

TEST_CASE(
    "a weight held only by a cable that would be pushed is a mechanism with the cable named") {
  ModelBuilder f;
  const int top = f.node(0, 0, 1), weight = f.node(0, 0, 0);
  f.pin(top);
  f.hold(weight, {x, y});
  f.bar(top, weight, 1e5, true);
  Actions a = f.actions();
  at(a, weight, z) = -100;
  CHECK_THAT(f.solve(a).bar_forces[0], WithinRel(100, 1e-12));
  at(a, weight, z) = 100;
  const StaticFailure failure = f.fail(a);
  CHECK(failure.slack[0]);
  REQUIRE_FALSE(failure.mechanism.empty());
  CHECK(failure.mechanism.motions[0].node == weight);
  CHECK(failure.mechanism.motions[0].direction == z);
}

TEST_CASE("a spring between two nodes has the rate it was given") {
  ModelBuilder f;
  const int a = f.node(0, 0, 0), b = f.node(0.3, 0.4, 0);
  f.pin(a);
  f.hold(b, {y, z});
  f.model.bars.push_back({a, b, 2000, false});
  Actions act = f.actions();
  at(act, b, x) = 36;
  const StaticSolution s = f.solve(act);
  CHECK_THAT(s.bar_forces[0], WithinRel(60, 1e-12));  // 36 / cos, cos = 0.6
  CHECK_THAT(moved(s, b, x), WithinRel(60 / 2000.0 / 0.6, 1e-12));
}

}  // namespace tubewright::bars_and_cables_test
