// Solving many load cases: superposition, settlements against the tube's stiffness, failures with
// the case that fails, and a solver that is used again against one used once.
#include "solver/statics/statics.h"

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::statics_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9;
const Section tube = hollow_rectangle(0.04, 0.03, 0.002, cold_formed_corners(0.002), 0.3);

/// A portal in the x-z plane with crossed cables; its feet are fixed.
struct Portal : ModelBuilder {
  int left, right;

  Portal() {
    const int s = section(tube, E, G);
    const int a = node(0, 0, 0), b = node(1, 0, 0);
    left = node(0, 0, 1);
    right = node(1, 0, 1);
    beam(a, left, s);
    beam(left, right, s);
    beam(right, b, s);
    bar(a, right, 4e6, true);
    bar(b, left, 4e6, true);
    fix(a);
    fix(b);
  }

  Actions pushed(double F) const {
    Actions a = actions();
    at(a, left, x) = F;
    return a;
  }
};

std::vector<StaticSolution> solved(const StaticResult& r) {
  REQUIRE(r.has_value());
  return *r;
}

}  // namespace

TEST_CASE("cases solved at once are those solved one by one, each with its own slack cable") {
  const Portal f;
  const std::vector<Actions> cases = {f.pushed(500), f.pushed(-500), f.actions(), f.pushed(1500)};
  const std::vector<StaticSolution> all = solved(solve_statics(f.model, cases));
  REQUIRE(all.size() == 4);
  for (size_t c = 0; c < 4; ++c) {
    const Eigen::VectorXd alone = f.solve(cases[c]).displacements;
    CHECK((all[c].displacements - alone).norm() <= 1e-11 * alone.norm());
  }
  CHECK(all[0].slack == std::vector<bool>{false, true});
  CHECK(all[1].slack == std::vector<bool>{true, false});
  CHECK(all[2].slack == std::vector<bool>{false, false});
  // Cables make no difference to how answers grow with the load: positive homogeneity.
  CHECK((all[3].displacements - 3 * all[0].displacements).norm() <
        1e-10 * all[3].displacements.norm());
}

TEST_CASE("a solver used again gives what a fresh one gives") {
  const Portal f;
  StaticSolver solver(f.model);
  const Eigen::VectorXd first = solved(solver.solve({f.pushed(500)}))[0].displacements;
  solved(solver.solve({f.pushed(-80), f.pushed(20)}));
  CHECK(solved(solver.solve({f.pushed(500)}))[0].displacements == first);
  CHECK(solved(solver.solve({})).empty());
}

TEST_CASE("a settling support pulls with E A/L, and only restrained directions settle") {
  ModelBuilder b;
  const int s = b.section(tube, E, G);
  const std::vector<int> n = b.chain({0, 0, 0}, {2, 0, 0}, 4, s);
  b.fix(n[0]);
  b.hold(n[4], {x});
  Actions a = b.actions();
  a.prescribed[6 * n[4] + x] = 1e-4;
  a.prescribed[6 * n[4] + z] = 0.5;  // not restrained: no settlement
  const StaticSolution r = b.solve(a);
  CHECK_THAT(reaction(r, n[4], x), WithinRel(E * tube.A / 2 * 1e-4, 1e-9));
  CHECK_THAT(moved(r, n[2], x), WithinRel(0.5e-4, 1e-9));
  CHECK(std::abs(moved(r, n[4], z)) < 1e-12);
}

TEST_CASE("the first case without an answer is named with what moves") {
  ModelBuilder b;
  const int s = b.section(tube, E, G);
  const int root = b.node(0, 0, 0), tip = b.node(1, 0, 0), alone = b.node(3, 3, 3);
  b.beam(root, tip, s);
  b.fix(root);
  Actions sound = b.actions(), loose = b.actions();
  at(sound, tip, z) = -10;
  at(loose, alone, y) = 5;
  const StaticResult r = solve_statics(b.model, {sound, sound, loose, sound});
  REQUIRE(!r);
  const StaticFailure& failure = *r.error();
  CHECK(failure.load_case == 2);
  REQUIRE(failure.mechanism.motions.size() == 1);
  CHECK(failure.mechanism.motions[0].node == alone);
  CHECK(failure.mechanism.motions[0].direction == y);
}

TEST_CASE("a hinge about whose pin a moment acts is refused, and no other moment is") {
  ModelBuilder b;
  const int s = b.section(tube, E, G);
  const int root = b.node(0, 0, 0), tip = b.node(1, 0, 0);
  b.beam(root, tip, s);
  b.model.beams[0].connection_to[4] = 0;  // about y
  b.fix(root);
  b.hold(tip, {z});
  Actions about_pin = b.actions(), about_tube = b.actions();
  at(about_pin, tip, ry) = 3;
  at(about_tube, tip, rx) = 3;
  CHECK(b.fail(about_pin).mechanism.motions[0].direction == ry);
  CHECK_THAT(moved(b.solve(about_tube), tip, rx), WithinRel(3 / (G * tube.It), 1e-9));
}

}  // namespace tubewright::statics_test
