// Rotations that nothing resists: found by what the joints say, and restrained so that nothing else
// changes, against the least-norm solution of the singular system.
#include "solver/statics/zero_stiffness_dofs.h"

#include <Eigen/Dense>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::zero_stiffness_dofs_test {

using namespace tubewright::test;

namespace {

const Section tube = round_tube(0.03, 0.002, 0.3);

/// A cantilever whose far end carries a strut of three links with a free joint.
struct Strutted : ModelBuilder {
  int tip, joint;

  Strutted() {
    const int s = section(tube, 210e9, 81e9);
    const int root = node(0, 0, 0);
    tip = node(1, 0, 0);
    beam(root, tip, s);
    joint = node(0.6, 0.5, 0.9);
    bar(tip, joint, 1e6);
    bar(root, joint, 2e6);
    bar(node(0.4, 1, 0), joint, 3e6);
    fix(root);
    fix(3);
  }
};

Eigen::MatrixXd full(const SparseMatrix& lower) {
  return SparseMatrix(lower.selfadjointView<Eigen::Lower>());
}

}  // namespace

TEST_CASE("a joint of links alone may turn three ways, and restraining it moves nothing else") {
  const Strutted f;
  const FreeDofs free = number_free_dofs(f.model);
  SparseMatrix K = assemble_stiffness(f.model, free, {false, false, false});
  const Eigen::MatrixXd singular = full(K);
  const std::vector<ZeroStiffnessDof> found = restrain_zero_stiffness_dofs(K, free);
  REQUIRE(found.size() == 3);
  Eigen::Matrix3d axes;
  for (int i = 0; i < 3; ++i) {
    CHECK(found[i].node == f.joint);
    axes.col(i) = found[i].axis;
  }
  CHECK((axes.transpose() * axes - Eigen::Matrix3d::Identity()).norm() < 1e-12);
  const Eigen::MatrixXd sound = full(K);
  CHECK(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(sound).eigenvalues().minCoeff() > 0);
  Eigen::VectorXd load = Eigen::VectorXd::Zero(sound.rows());
  for (const int d : {0, 1, 2}) load[free.number[6 * f.joint + d]] = 100 * (d + 1);
  load[free.number[6 * f.tip + 4]] = 20;
  const Eigen::VectorXd u = sound.ldlt().solve(load);
  const Eigen::VectorXd least = singular.completeOrthogonalDecomposition().solve(load);
  CHECK((u - least).norm() < 1e-8 * u.norm());
}

TEST_CASE("a pin turns freely about its own axis only, whichever way it points") {
  // The member's release is about its local y, which is level and square to it.
  for (const Eigen::Vector3d& to :
       {Eigen::Vector3d(1, 0, 0), Eigen::Vector3d(0.6, 0.8, 0), Eigen::Vector3d(0.5, -0.4, 0.7)}) {
    ModelBuilder b;
    const int s = b.section(tube, 210e9, 81e9);
    const int root = b.node(0, 0, 0), tip = b.node(to.x(), to.y(), to.z());
    b.beam(root, tip, s);
    b.model.beams[0].connection_to[4] = 0;
    b.fix(root);
    b.hold(tip, {z});
    const FreeDofs free = number_free_dofs(b.model);
    SparseMatrix K = assemble_stiffness(b.model, free, {});
    const std::vector<ZeroStiffnessDof> found = restrain_zero_stiffness_dofs(K, free);
    REQUIRE(found.size() == 1);
    CHECK(found[0].node == tip);
    const Eigen::Vector3d level = Eigen::Vector3d::UnitZ().cross(to).normalized();
    CHECK_THAT(std::abs(found[0].axis.dot(level)), WithinRel(1.0, 1e-9));
  }
}

TEST_CASE("a sound joint, a soft spring and a held rotation are left as they are") {
  const auto found = [](double spring, bool held) {
    ModelBuilder b;
    const int s = b.section(tube, 210e9, 81e9);
    const int root = b.node(0, 0, 0), tip = b.node(1, 0, 0);
    b.beam(root, tip, s);
    b.model.beams[0].connection_to[4] = spring;
    b.fix(root);
    if (held) b.hold(tip, {ry});
    const FreeDofs free = number_free_dofs(b.model);
    SparseMatrix K = assemble_stiffness(b.model, free, {});
    const Eigen::MatrixXd before = K;
    const size_t count = restrain_zero_stiffness_dofs(K, free).size();
    CHECK(((Eigen::MatrixXd(K) - before).norm() > 0) == (count > 0));
    return count;
  };
  CHECK(found(rigid, false) == 0);
  CHECK(found(1.0, false) == 0);  // 1 N m/rad: soft, and a spring all the same
  CHECK(found(0, false) == 1);
  CHECK(found(0, true) == 0);
}

}  // namespace tubewright::zero_stiffness_dofs_test
