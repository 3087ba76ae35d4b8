// The sparse stiffness of a frame against the sum of its elements as a full matrix, with rigid
// bodies as a matrix of constraints (any textbook on finite elements), and loads against statics.
#include "solver/statics/assembly.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::assembly_test {

using namespace tubewright::test;

namespace {

/// Beams, one hinged, two bars, a body of three nodes, a support and a node joined to nothing.
struct Frame : ModelBuilder {
  std::vector<bool> slack = {false, true};

  Frame() {
    const int s =
        section(hollow_rectangle(0.04, 0.03, 0.002, cold_formed_corners(0.002), 0.3), 210e9, 81e9);
    const int a = node(0, 0, 0), b = node(1, 0.1, 0), c = node(1, 1, 0.2), d = node(0.1, 1, 0);
    node(5, 5, 5);
    const int e = node(1.3, 0, 0.3), f = node(1.1, -0.2, -0.4), top = node(0.5, 0.4, 1.2);
    beam(a, b, s);
    beam(b, c, s, 0.3);
    beam(c, d, s);
    model.beams.back().connection_to[4] = 0;
    model.beams.back().connection_from[5] = 3e4;
    beam(e, top, s);
    bar(f, d, 5e6);
    bar(a, c, 7e6, true);
    model.bodies.push_back({{b, e, f}});
    fix(a);
    hold(d, {z, rx});
  }

  /// K of the elements on all nodes, restrained DOFs included.
  Eigen::MatrixXd full() const {
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(dof_count(model), dof_count(model));
    for_each_element(model, slack, [&](std::span<const int> nodes, const auto& Ke) {
      for (size_t i = 0; i < nodes.size(); ++i) {
        for (size_t j = 0; j < nodes.size(); ++j) {
          K.template block<6, 6>(6 * nodes[i], 6 * nodes[j]) +=
              Ke.template block<6, 6>(6 * i, 6 * j);
        }
      }
    });
    return K;
  }

  /// All DOFs by the free ones: u = C q.
  Eigen::MatrixXd constraints(const FreeDofs& free) const {
    Eigen::MatrixXd C = Eigen::MatrixXd::Identity(dof_count(model), dof_count(model));
    for (const RigidBody& body : model.bodies) {
      const int m = body.nodes[0];
      for (const int n : body.nodes) {
        if (n == m) continue;
        const Eigen::Vector3d r = model.nodes[n] - model.nodes[m];
        C.middleRows<6>(6 * n).setZero();
        C.block<6, 6>(6 * n, 6 * m).setIdentity();
        for (int d = 0; d < 3; ++d) {
          C.block<3, 1>(6 * n, 6 * m + 3 + d) = Eigen::Vector3d::Unit(d).cross(r);
        }
      }
    }
    return C(Eigen::all, free.unknown);
  }
};

Eigen::VectorXd some(Eigen::Index n) {
  return Eigen::VectorXd::NullaryExpr(
      n, [](Eigen::Index i) { return std::sin(1.0 + 7 * static_cast<double>(i)); });
}

}  // namespace

TEST_CASE("free DOFs are those of joined nodes that neither a support nor a master takes") {
  const Frame f;
  const FreeDofs free = number_free_dofs(f.model);
  CHECK(free.masters == std::vector<int>{0, 1, 2, 3, 4, 1, 1, 7});
  std::vector<int> expected;
  for (const int node : {1, 2, 3, 7}) {
    for (int d = 0; d < 6; ++d) {
      if (node != 3 || (d != 2 && d != 3)) expected.push_back(6 * node + d);
    }
  }
  CHECK(free.unknown == expected);
  for (int i = 0; i < static_cast<int>(expected.size()); ++i) {
    CHECK(free.number[expected[i]] == i);
    CHECK(free.node_of[i] == expected[i] / 6);
  }
  CHECK(std::count(free.number.begin(), free.number.end(), -1) ==
        static_cast<long>(free.number.size() - expected.size()));
}

TEST_CASE("the assembled triangle is that of the full matrix under its constraints") {
  const Frame f;
  const FreeDofs free = number_free_dofs(f.model);
  const Eigen::MatrixXd C = f.constraints(free), expected = C.transpose() * f.full() * C;
  const SparseMatrix K = assemble_stiffness(f.model, free, f.slack);
  CHECK(Eigen::MatrixXd(K).isLowerTriangular(0));
  const Eigen::MatrixXd full = SparseMatrix(K.selfadjointView<Eigen::Lower>());
  CHECK((full - expected).norm() < 1e-13 * expected.norm());
  const SparseMatrix parts = assemble_parts(f.model, free, [&](const ElementVisitor& visit) {
    for_each_element(f.model, f.slack, visit);
  });
  CHECK((Eigen::MatrixXd(parts) - Eigen::MatrixXd(K)).norm() < 1e-13 * expected.norm());
}

TEST_CASE("a slack cable is no element, a taut one is") {
  Frame f;
  int elements = 0;
  const auto count = [&](std::span<const int>, const auto&) { ++elements; };
  for_each_element(f.model, f.slack, count);
  CHECK(elements == 5);
  const Eigen::MatrixXd without = f.full();
  f.slack = {false, false};
  const Eigen::MatrixXd difference = f.full() - without;
  // k n n' between the nodes 0 and 2 and nothing else.
  const Eigen::Vector3d n = (f.model.nodes[2] - f.model.nodes[0]).normalized();
  const double k = f.model.bars[1].stiffness;
  CHECK((difference.block<3, 3>(0, 12) + k * n * n.transpose()).norm() < 1e-9 * k);
  CHECK_THAT(difference.norm(), WithinRel(2 * k, 1e-9));
}

TEST_CASE("the stiffness applied to displacements is the full matrix times them") {
  const Frame f;
  const Eigen::VectorXd u = some(dof_count(f.model)), expected = f.full() * u;
  CHECK((apply_stiffness(f.model, f.slack, u) - expected).norm() < 1e-13 * expected.norm());
}

TEST_CASE("joint loads have the resultant of what acts, hinges or not") {
  const Frame f;
  Actions a = f.actions();
  a.nodal = some(a.nodal.size());
  a.beams[1].line = {5, -7, 3};
  a.beams[2].couple = {1, 2, -4};
  a.beams[2].line = {-3, 1, 2};
  a.beams[3].points.push_back({0.3, {20, 8, -9}, {3, 1, 4}});
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = force;
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& F,
                       const Eigen::Vector3d& M) {
    force += F;
    moment += M + at.cross(F);
  };
  const Eigen::VectorXd joints = joint_loads(f.model, a);
  for (size_t n = 0; n < f.model.nodes.size(); ++n) {
    const Eigen::VectorXd d = joints.segment<6>(6 * n) - a.nodal.segment<6>(6 * n);
    add(f.model.nodes[n], -d.head<3>(), -d.tail<3>());
  }
  for (size_t b = 0; b < f.model.beams.size(); ++b) {
    const Eigen::Vector3d from = f.model.nodes[f.model.beams[b].from];
    const Eigen::Vector3d along = f.model.nodes[f.model.beams[b].to] - from;
    add(from + along / 2, a.beams[b].line * along.norm(), a.beams[b].couple * along.norm());
    for (const PointAction& p : a.beams[b].points) add(from + p.at * along, p.force, p.moment);
  }
  CHECK(force.norm() < 1e-12);
  CHECK(moment.norm() < 1e-12);
  CHECK(joints[6 * 3 + 4] == a.nodal[6 * 3 + 4]);  // a hinge about y hands its joint no moment
}

// A tension field pulls its edges inward: on a rectangle the pulls of opposite edges are equal.
TEST_CASE("the pull of a buckled sheet becomes inward line loads and balances") {
  ModelBuilder b;
  const int s = b.section(round_tube(0.03, 0.002, 0.3), 210e9, 81e9);
  for (const auto& [px, py] : {std::pair{0.0, 0.0}, {0.8, 0.0}, {0.8, 0.5}, {0.0, 0.5}}) {
    b.node(px, py, 0);
  }
  Panel panel;
  panel.corners = {0, 1, 2, 3};
  panel.thickness = 1e-3;
  panel.G = 26e9;
  for (int k = 0; k < 4; ++k) panel.edges[k] = {{true, b.beam(k, (k + 1) % 4, s)}};
  b.model.panels.push_back(panel);
  Actions a = b.actions();
  a.tension_fields = {900};
  const Actions all = with_tension_fields(b.model, a);
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  const Eigen::Vector3d middle(0.4, 0.25, 0);
  for (int k = 0; k < 4; ++k) {
    const Eigen::Vector3d from = b.model.nodes[k], to = b.model.nodes[(k + 1) % 4];
    const Eigen::Vector3d inward = Eigen::Vector3d::UnitZ().cross(to - from).normalized();
    CHECK_THAT(all.beams[k].line.dot(inward), WithinRel(900.0, 1e-9));
    CHECK(inward.dot(middle - from) > 0);
    sum += all.beams[k].line * (to - from).norm();
  }
  CHECK(sum.norm() < 1e-9);
  CHECK(a.beams[0].empty());
  a.tension_fields = {0};
  CHECK(with_tension_fields(b.model, a).beams[0].empty());
}

TEST_CASE("with the flows of the panels taken out of it the stiffness is the frame's") {
  ModelBuilder b;
  const int s = b.section(round_tube(0.03, 0.002, 0.3), 210e9, 81e9);
  constexpr int bays = 3;
  for (int i = 0; i <= bays; ++i) {
    b.node(0.3 * i, 0, 0.01 * i);
    b.node(0.3 * i, 0.4, 0.01 * i);
  }
  const int aside = b.node(0.1, 0.2, 0.5);
  std::array<int, bays + 1> cross{};
  for (int i = 0; i <= bays; ++i) cross[static_cast<size_t>(i)] = b.beam(2 * i, 2 * i + 1, s);
  for (int i = 0; i < bays; ++i) {
    const int near = b.beam(2 * i, 2 * i + 2, s), far = b.beam(2 * i + 1, 2 * i + 3, s);
    Panel panel;
    panel.corners = {2 * i, 2 * i + 2, 2 * i + 3, 2 * i + 1};
    panel.thickness = 1e-3;
    panel.G = 26e9;
    panel.joint = 4e7;
    panel.offset = 0.015;
    panel.edges = {{{{true, near}},
                    {{true, cross[static_cast<size_t>(i) + 1]}},
                    {{true, far}},
                    {{true, cross[static_cast<size_t>(i)]}}}};
    b.model.panels.push_back(panel);
  }
  b.beam(aside, 4, s);
  b.model.bodies.push_back({{aside, 5}});
  b.fix(0);
  const FreeDofs free = number_free_dofs(b.model);
  const SparseMatrix K = assemble_stiffness(b.model, free, {});
  const SparseMatrix both = stiffness_with_flows(b.model, free, {});
  const auto full = [](const SparseMatrix& lower) {
    return Eigen::MatrixXd(Eigen::MatrixXd(lower).selfadjointView<Eigen::Lower>());
  };
  const Eigen::MatrixXd M = full(both);
  const Eigen::Index n = K.rows();
  REQUIRE(M.rows() == n + bays);
  const Eigen::MatrixXd P = M.topRightCorner(n, bays);
  const Eigen::MatrixXd schur =
      M.topLeftCorner(n, n) - P * M.bottomRightCorner(bays, bays).inverse() * P.transpose();
  CHECK((schur - full(K)).norm() <= 1e-12 * K.norm());
  CHECK(P.norm() > 0);
}

}  // namespace tubewright::assembly_test
