// Forces recovered from given displacements: states whose answer is known without solving, and
// a residual that notices displacements that are not the answer.
#include "solver/statics/recovery.h"

#include <Eigen/Geometry>
#include <cmath>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::recovery_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9;
const Section tube = hollow_rectangle(0.04, 0.03, 0.002, cold_formed_corners(0.002), 0.3);

/// A tripod on three pins with a bar and a cable between its feet.
struct Tripod : ModelBuilder {
  int top;

  Tripod() {
    const int s = section(tube, E, G);
    const int a = node(0, 0, 0), b = node(1, 0, 0.1), c = node(0.3, 0.9, 0);
    top = node(0.4, 0.3, 0.8);
    for (const int foot : {a, b, c}) {
      beam(foot, top, s);
      pin(foot);
    }
    bar(a, b, 2e6);
    bar(b, c, 3e6, true);
  }

  Actions loaded() const {
    Actions a = actions();
    at(a, top, z) = -700;
    at(a, top, x) = 250;
    a.beams[1].line = {0, 40, -60};
    return a;
  }
};

Eigen::VectorXd rigid_motion(const Model& model, const Eigen::Vector3d& t,
                             const Eigen::Vector3d& w) {
  Eigen::VectorXd u(dof_count(model));
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    u.segment<6>(6 * n) << t + w.cross(model.nodes[n]), w;
  }
  return u;
}

}  // namespace

TEST_CASE("displacements of a rigid motion recover no force anywhere") {
  const Tripod f;
  const Eigen::VectorXd u = rigid_motion(f.model, {0.01, -0.02, 0.03}, {1e-3, 2e-3, -1e-3});
  const StaticSolution s = recover(f.model, f.actions(), {false, false}, u);
  const double size = E * tube.A * u.lpNorm<Eigen::Infinity>();
  for (const BeamState& b : s.beams) CHECK(b.end_forces.norm() < 1e-12 * size);
  for (const double N : s.bar_forces) CHECK(std::abs(N) < 1e-12 * size);
  CHECK(s.reactions.norm() < 1e-12 * size);
  CHECK(s.displacements == u);
}

TEST_CASE("a uniform stretch recovers E A e in every member and k e L in every bar") {
  const Tripod f;
  constexpr double e = 1e-4;
  Eigen::VectorXd u = Eigen::VectorXd::Zero(dof_count(f.model));
  for (size_t n = 0; n < f.model.nodes.size(); ++n) u.segment<3>(6 * n) = e * f.model.nodes[n];
  const StaticSolution s = recover(f.model, f.actions(), {false, false}, u);
  for (const BeamState& b : s.beams) {
    CHECK_THAT(section_forces(b, 0.3).N, WithinRel(E * tube.A * e, 1e-9));
    CHECK_THAT(section_forces(b, 0.3).My, WithinAbs(0, 1e-6));
  }
  CHECK_THAT(s.bar_forces[0], WithinRel(2e6 * e, 1e-9));
  CHECK_THAT(s.bar_forces[1], WithinRel(3e6 * e, 1e-9));
  CHECK(recover(f.model, f.actions(), {false, true}, u).bar_forces[1] == 0);
}

TEST_CASE("reactions of the true displacements balance the loads by plain statics") {
  const Tripod f;
  const Actions a = f.loaded();
  const StaticSolution s = f.solve(a);
  const StaticSolution again = recover(f.model, a, s.slack, s.displacements);
  CHECK(again.residual.force < 1e-9);
  CHECK(again.residual.moment < 1e-9);
  CHECK(again.equilibrium.force < 1e-9);
  CHECK(again.equilibrium.moment < 1e-9);
  const Eigen::Vector3d from = f.model.nodes[1], to = f.model.nodes[f.top];
  const Eigen::Vector3d along_beam = a.beams[1].line * (to - from).norm();
  Eigen::Vector3d force(250, 0, -700), moment = to.cross(force);
  moment += ((from + to) / 2).cross(along_beam);
  force += along_beam;
  for (int n = 0; n < 3; ++n) {
    const Eigen::Vector3d R = again.reactions.segment<3>(6 * n);
    force += R;
    moment += f.model.nodes[n].cross(R);
    CHECK(again.reactions.segment<3>(6 * n + 3).norm() == 0);  // pins
  }
  CHECK(force.norm() < 1e-8);
  CHECK(moment.norm() < 1e-8);
  CHECK(again.reactions.segment<6>(6 * f.top).norm() == 0);
}

TEST_CASE("the residual tells displacements that are wrong by a little") {
  const Tripod f;
  const Actions a = f.loaded();
  const StaticSolution s = f.solve(a);
  for (const double factor : {0.99, 1.01}) {
    const StaticSolution wrong = recover(f.model, a, s.slack, factor * s.displacements);
    CHECK(wrong.residual.force > 1e-3);
    CHECK(wrong.residual.force < 0.1);
  }
  // 1 % less displacement carries 1 % less load: the top misses it, the supports never do.
  Actions joint_only = f.actions();
  at(joint_only, f.top, z) = -1000;
  const StaticSolution t = f.solve(joint_only);
  const StaticSolution less = recover(f.model, joint_only, t.slack, 0.99 * t.displacements);
  double greatest = 1000;
  for (const BeamState& b : less.beams) {
    const Vector12 F = rotation_12(b.element.axes).transpose() * b.end_forces;
    greatest = std::max({greatest, F.head<3>().lpNorm<Eigen::Infinity>(),
                         F.segment<3>(6).lpNorm<Eigen::Infinity>()});
  }
  CHECK_THAT(less.residual.force, WithinRel(10 / greatest, 1e-6));
}

}  // namespace tubewright::recovery_test
