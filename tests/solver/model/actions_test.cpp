// What acts on a model: no action does nothing, and the sum of two cases is the superposition of
// their answers.
#include "solver/model/actions.h"

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::actions_test {

using namespace tubewright::test;

namespace {

/// A bent cantilever, its root held.
struct Bent : ModelBuilder {
  int tip;

  Bent() {
    const int s =
        section(hollow_rectangle(0.04, 0.03, 0.002, cold_formed_corners(0.002), 0.3), 210e9, 81e9);
    const int root = node(0, 0, 0), knee = node(0.7, 0.1, 0);
    tip = node(0.7, 0.5, 0.3);
    beam(root, knee, s);
    beam(knee, tip, s);
    fix(root);
  }
};

/// One of everything.
Actions loaded(const Bent& f, double size) {
  Actions a = f.actions();
  at(a, f.tip, z) = -100 * size;
  a.beams[0].line = {0, 20 * size, -50};
  a.beams[1].couple = {3, 0, 8 * size};
  a.beams[1].points.push_back({0.4, {10, size, 0}, {0, 2 * size, 1}});
  a.prescribed[2] = 1e-3 * size;
  return a;
}

}  // namespace

TEST_CASE("no actions are sized for the model and move nothing") {
  Bent f;
  f.model.panels.resize(3);
  const Actions a = no_actions(f.model);
  CHECK(a.nodal.size() == 18);
  CHECK(a.prescribed.size() == 18);
  CHECK(a.nodal.norm() + a.prescribed.norm() == 0);
  CHECK(a.tension_fields == std::vector<double>{0, 0, 0});
  REQUIRE(a.beams.size() == 2);
  CHECK(a.beams[0].empty());
  f.model.panels.clear();
  CHECK(f.solve(f.actions()).displacements.norm() == 0);
}

TEST_CASE("the answer to a sum of actions is the sum of the answers") {
  const Bent f;
  const Actions one = loaded(f, 1), other = loaded(f, -3);
  Actions sum = one;
  add_actions(sum, other, 0.7);
  const StaticSolution a = f.solve(one), b = f.solve(other), s = f.solve(sum);
  const Eigen::VectorXd u = a.displacements + 0.7 * b.displacements;
  const Eigen::VectorXd R = a.reactions + 0.7 * b.reactions;
  CHECK((s.displacements - u).norm() < 1e-10 * u.norm());
  CHECK((s.reactions - R).norm() < 1e-9 * R.norm());
  CHECK_THAT(
      section_forces(s.beams[1], 0.2).Mz,
      WithinRel(section_forces(a.beams[1], 0.2).Mz + 0.7 * section_forces(b.beams[1], 0.2).Mz,
                1e-9));
}

TEST_CASE("actions added and taken off again leave nothing that moves the frame") {
  const Bent f;
  Actions sum = f.actions();
  add_actions(sum, loaded(f, 2), 1.5);
  add_actions(sum, loaded(f, 2), -1.5);
  CHECK(f.solve(sum).displacements.norm() < 1e-15);
  CHECK(sum.beams[1].points.size() == 2);  // they stand there twice and cancel
}

TEST_CASE("tractions of buckled sheets add up sheet by sheet") {
  Model model;
  model.panels.resize(2);
  Actions sum = no_actions(model), other = no_actions(model);
  sum.tension_fields = {100, 0};
  other.tension_fields = {10, -4};
  add_actions(sum, other, 2);
  CHECK(sum.tension_fields == std::vector<double>{120, -8});
}

TEST_CASE("any one load along a beam makes it loaded") {
  BeamActions line, couple, point;
  line.line.z() = 1e-300;
  couple.couple.x() = -1e-300;
  point.points.resize(1);
  CHECK_FALSE(line.empty());
  CHECK_FALSE(couple.empty());
  CHECK_FALSE(point.empty());
  CHECK(BeamActions().empty());
}

}  // namespace tubewright::actions_test
