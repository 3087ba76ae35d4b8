// A deformed frame against finite differences of its energy, against linear stiffness where nothing
// has moved, and against geometry: what moves as one piece keeps its lengths.
#include "solver/stability/deformed_frame.h"

#include <Eigen/Geometry>
#include <random>

#include "solver/elements/rotations.h"
#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::deformed_frame_test {

using namespace tubewright::test;

namespace {

const Section tube = round_tube(0.03, 0.002, 0.3);

/// A bent cantilever with a rigid arm, a link, a cable and a partly held foot.
struct Mixed : ModelBuilder {
  int root, knee, tip, arm, foot;

  Mixed() {
    const int s = section(tube, 210e9, 81e9);
    root = node(0, 0, 0);
    knee = node(0.8, 0.1, 0);
    tip = node(0.9, 0.7, 0.2);
    arm = node(0.9, 0.8, 0.5);
    foot = node(0.3, 0.6, -0.4);
    beam(root, knee, s);
    beam(knee, tip, s, 0.3);
    beam(foot, knee, s);
    bar(arm, root, 4e5);
    bar(arm, node(2, 0.5, 1), 3e5, true);
    model.bodies.push_back({{tip, arm}});
    fix(root);
    fix(5);
    hold(foot, {x, y, z, ry});
  }

  Actions forces() const {
    Actions a = actions();
    a.nodal.segment<3>(6 * knee) << 300, -200, 500;
    a.nodal.segment<3>(6 * arm) << -150, 80, -400;
    return a;
  }
};

DeformableFrame frame_of(const Model& model, const Actions& actions) {
  Outcome<DeformableFrame, std::string> r = deformable_frame(model, actions);
  REQUIRE(r.has_value());
  return *r;
}

Eigen::VectorXd some_step(const DeformableFrame& frame, double size) {
  std::mt19937 random(9);
  std::uniform_real_distribution<double> any(-size, size);
  return Eigen::VectorXd::NullaryExpr(static_cast<Eigen::Index>(frame.free.unknown.size()),
                                      [&](Eigen::Index) { return any(random); });
}

/// Far from where it was, and strained.
Configuration far(const DeformableFrame& frame) {
  Configuration c = reference_configuration(frame);
  for (int i = 0; i < 3; ++i) update_configuration(frame, some_step(frame, 0.15), 0, c);
  return c;
}

std::string reason(const Model& model, const Actions& actions) {
  const auto r = deformable_frame(model, actions);
  REQUIRE(!r);
  return *r.error();
}

}  // namespace

TEST_CASE("the out-of-balance of a deformed frame is the derivative of its potential") {
  const Mixed f;
  const DeformableFrame frame = frame_of(f.model, f.forces());
  const Configuration c = far(frame);
  constexpr double factor = 0.6, h = 1e-6;
  const InternalForces r = internal_forces(frame, c, factor, false);
  REQUIRE(r.valid);
  const auto potential = [&](const Eigen::VectorXd& step) {
    Configuration moved = c;
    update_configuration(frame, step, factor, moved);
    return internal_forces(frame, moved, factor, false).energy -
           factor * frame.loads.dot(moved.displacements);
  };
  const auto n = static_cast<Eigen::Index>(frame.free.unknown.size());
  for (Eigen::Index i = 0; i < n; ++i) {
    const Eigen::VectorXd d = h * Eigen::VectorXd::Unit(n, i);
    CAPTURE(frame.free.unknown[i]);
    CHECK_THAT((potential(d) - potential(-d)) / (2 * h),
               WithinAbs(r.out_of_balance[i], 1e-7 * r.out_of_balance.norm()));
  }
}

TEST_CASE("the tangent of a deformed frame is the derivative of its out-of-balance") {
  const Mixed f;
  Actions a = f.forces();
  at(a, f.tip, ry) = 40;  // a dead moment has no potential but a tangent
  const DeformableFrame frame = frame_of(f.model, a);
  const Configuration c = far(frame);
  constexpr double factor = 0.6, h = 1e-6;
  const InternalForces r = internal_forces(frame, c, factor, true);
  const Eigen::MatrixXd K = r.tangent;
  const auto at_step = [&](const Eigen::VectorXd& step) {
    Configuration moved = c;
    update_configuration(frame, step, factor, moved);
    return internal_forces(frame, moved, factor, false).out_of_balance;
  };
  for (Eigen::Index i = 0; i < K.cols(); ++i) {
    const Eigen::VectorXd d = h * Eigen::VectorXd::Unit(K.cols(), i);
    CHECK(((at_step(d) - at_step(-d)) / (2 * h) - K.col(i)).norm() < 1e-8 * K.norm());
  }
}

TEST_CASE("unmoved, a frame has the linear stiffness, the loads as its rate and no energy") {
  const Mixed f;
  const DeformableFrame frame = frame_of(f.model, f.forces());
  const InternalForces r = internal_forces(frame, reference_configuration(frame), 0, true);
  CHECK(r.energy < 1e-20);
  CHECK(r.residual.norm() < 1e-9);
  const Eigen::MatrixXd linear = SparseMatrix(
      assemble_stiffness(f.model, frame.free, {false, false}).selfadjointView<Eigen::Lower>());
  CHECK((Eigen::MatrixXd(r.tangent) - linear).norm() < 1e-9 * linear.norm());
  // The force on the arm counts on its master with its moment r x F.
  const Eigen::Vector3d F(-150, 80, -400);
  const Eigen::Vector3d M = (f.model.nodes[f.arm] - f.model.nodes[f.tip]).cross(F);
  for (int d = 0; d < 3; ++d) {
    CHECK_THAT(r.rate[frame.free.number[6 * f.tip + d]], WithinRel(F[d], 1e-12));
    CHECK_THAT(r.rate[frame.free.number[6 * f.tip + 3 + d]], WithinRel(M[d], 1e-12));
  }
}

TEST_CASE("a moved frame keeps its rigid arms, its held DOFs and the turns of its nodes") {
  const Mixed f;
  Actions a = f.forces();
  a.prescribed[6 * f.foot + z] = 0.2;
  a.prescribed[6 * f.foot + ry] = 0.5;
  const DeformableFrame frame = frame_of(f.model, a);
  Configuration c = far(frame);
  update_configuration(frame, some_step(frame, 0.1), 0.8, c);
  const auto place = [&](int n) {
    return Eigen::Vector3d(f.model.nodes[n] + c.displacements.segment<3>(6 * n));
  };
  CHECK_THAT((place(f.arm) - place(f.tip)).norm(),
             WithinRel((f.model.nodes[f.arm] - f.model.nodes[f.tip]).norm(), 1e-12));
  CHECK((c.rotations[f.arm] - c.rotations[f.tip]).norm() == 0);
  CHECK_THAT(c.displacements[6 * f.foot + z], WithinRel(0.16, 1e-14));
  CHECK_THAT(c.displacements[6 * f.foot + ry], WithinRel(0.4, 1e-14));
  CHECK(c.displacements.segment<6>(6 * f.root).norm() == 0);
  for (size_t n = 0; n < f.model.nodes.size(); ++n) {
    const Eigen::Vector3d v = c.displacements.segment<3>(6 * static_cast<Eigen::Index>(n) + 3);
    CHECK((rotation_matrix(v) - c.rotations[n]).norm() < 1e-12);
  }
}

TEST_CASE("turned as one piece a frame meets no force, and a cable shortened is slack") {
  const Mixed f;
  Model free = f.model;
  free.supports.clear();
  const DeformableFrame frame = frame_of(free, no_actions(free));
  const Eigen::Matrix3d R = rotation_matrix({1.1, -2.0, 0.4});
  Configuration c = reference_configuration(frame);
  for (size_t n = 0; n < free.nodes.size(); ++n) {
    const auto i = 6 * static_cast<Eigen::Index>(n);
    c.displacements.segment<3>(i) = R * free.nodes[n] - free.nodes[n] + Eigen::Vector3d(3, 2, 1);
    c.displacements.segment<3>(i + 3) = rotation_vector(R);
    c.rotations[n] = R;
  }
  const InternalForces turned = internal_forces(frame, c, 1, false);
  REQUIRE(turned.valid);
  CHECK(turned.energy < 1e-12);
  CHECK(turned.residual.norm() < 1e-5);  // against 1e8 N/m
  const Eigen::Vector3d cable = R * (free.nodes[5] - free.nodes[f.arm]);
  for (const double stretch : {1e-3, -1e-3}) {
    Configuration pulled = c;
    pulled.displacements.segment<3>(6 * 5) += stretch * cable;
    const InternalForces r = internal_forces(frame, pulled, 1, false);
    CHECK(r.slack[1] == (stretch < 0));
    const double force = f.model.bars[1].stiffness * 1e-3 * cable.norm();
    CHECK_THAT(r.bar_forces[1], WithinAbs(stretch > 0 ? force : 0, 1e-6));
  }
}

TEST_CASE("what large displacements cannot take is told with its place") {
  Mixed f;
  const Actions none = f.actions();
  Model sheet = f.model, sliding = f.model, loose = f.model;
  sheet.panels.resize(1);
  CHECK_THAT(reason(sheet, no_actions(sheet)), ContainsSubstring("sheets"));
  sliding.beams[1].connection_to[1] = 0;
  CHECK_THAT(reason(sliding, none), ContainsSubstring("beam 1: "));
  loose.beams[2].connection_from[3] = loose.beams[2].connection_to[3] = 0;
  CHECK(reason(loose, none) == "beam 2: its releases leave it loose");
  const int alone = f.node(4, 4, 4);
  Actions lost = f.actions();
  at(lost, alone, y) = 1;
  CHECK_THAT(reason(f.model, lost), ContainsSubstring("node " + std::to_string(alone)));
}

TEST_CASE("the lower triangle of a tangent is that of its symmetric part") {
  SparseMatrix T(3, 3);
  T.insert(0, 0) = 5;
  T.insert(1, 0) = 4;
  T.insert(0, 1) = 2;
  T.insert(0, 2) = -8;
  const Eigen::MatrixXd S = symmetric_lower(T);
  Eigen::Matrix3d expected;
  expected << 5, 0, 0, 3, 0, 0, -4, 0, 0;
  CHECK((S - expected).norm() == 0);
}

}  // namespace tubewright::deformed_frame_test
