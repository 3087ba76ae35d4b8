// 10-node solids: patch, rigid body, tubes against beam theory, a twisted beam.
#include "tests/joint_models/solid10.h"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <random>

#include "solver/model/section_shapes.h"
#include "tests/joint_models/grid_mesh.h"
#include "tests/truth.h"

namespace tubewright::solid10_test {

namespace {

using Eigen::Vector3d;
using test::grid_mesh;
using test::joined;
using test::steps;

constexpr double E = 210000, nu = 0.3;  // MPa

bool everywhere(const Vector3d&) { return true; }

ElementNodes columns(const SolidMesh& mesh, int element) {
  ElementNodes x;
  for (int n = 0; n < 10; ++n) x.col(n) = mesh.nodes[mesh.elements[element][n]];
  return x;
}

/// A cube of 27 cells whose inner corners are moved about.
SolidMesh distorted_cube() {
  std::mt19937 draw(7);
  const auto jitter = [&] { return 0.15 * (draw() / 4294967296.0 - 0.5); };
  std::map<std::array<long, 3>, Vector3d> moved;
  SolidMesh mesh = grid_mesh({steps(0, 1, 3), steps(0, 1, 3), steps(0, 1, 3)}, everywhere);
  const auto inside = [](double v) { return v > 1e-9 && v < 1 - 1e-9; };
  std::vector<bool> is_moved(mesh.nodes.size());
  for (const auto& e : mesh.elements) {
    for (int c = 0; c < 4; ++c) {
      Vector3d& p = mesh.nodes[e[c]];
      if (is_moved[e[c]] || !inside(p.x()) || !inside(p.y()) || !inside(p.z())) continue;
      is_moved[e[c]] = true;
      p += Vector3d(jitter(), jitter(), jitter());
    }
  }
  constexpr std::array<std::array<int, 3>, 6> edges = {
      {{0, 1, 4}, {1, 2, 5}, {0, 2, 6}, {0, 3, 7}, {2, 3, 8}, {1, 3, 9}}};
  for (const auto& e : mesh.elements) {
    for (const auto& [a, b, middle] : edges) {
      mesh.nodes[e[middle]] = (mesh.nodes[e[a]] + mesh.nodes[e[b]]) / 2;
    }
  }
  return mesh;
}

/// A square tube with sharp corners along x from 0 to `length`, n cells to a wall.
SolidMesh sharp_tube(double side, double wall, double length, int n, int along) {
  const double a = side / 2;
  const auto across =
      joined(joined(steps(-a, -a + wall, 1), steps(-a + wall, a - wall, n)), steps(a - wall, a, 1));
  return grid_mesh({steps(0, length, along), across, across}, [=](const Vector3d& p) {
    return std::max(std::abs(p.y()), std::abs(p.z())) > a - wall;
  });
}

/// Restrained where `at` holds.
std::vector<bool> clamp_where(const SolidMesh& mesh,
                              const std::function<bool(const Vector3d&)>& at) {
  std::vector<bool> restrained;
  for (const Vector3d& p : mesh.nodes) restrained.insert(restrained.end(), 3, at(p));
  return restrained;
}

/// A bar clamped at x = 0 and loaded at its other end.
struct ClampedBar {
  SolidMesh mesh;
  std::vector<SolidFace> end;
  SolidSolver solver;

  ClampedBar(SolidMesh made, double length)
      : mesh(std::move(made)),
        end(faces_where(mesh, [=](const Vector3d& p) { return std::abs(p.x() - length) < 1e-9; })),
        solver(solid_matrix(mesh, {E, nu}),
               clamp_where(mesh, [](const Vector3d& p) { return p.x() < 1e-9; })) {}

  /// Work of a traction on the end: the compliance if it is a unit load.
  double work(const std::function<Vector3d(const Vector3d&)>& traction) const {
    const Eigen::VectorXd f = traction_loads(mesh, end, traction);
    return f.dot(solver.solve(f).col(0));
  }
};

}  // namespace

TEST_CASE("A distorted patch of solids carries a uniform strain exactly") {
  const SolidMesh mesh = distorted_cube();
  Eigen::Matrix3d gradient;
  gradient << 1e-3, 4e-4, -2e-4, 3e-4, -7e-4, 5e-4, 6e-4, -1e-4, 2e-4;
  Eigen::VectorXd u(3 * mesh.nodes.size());
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    u.segment<3>(3 * n) = gradient * mesh.nodes[n];
  }
  const SparseMatrix lower = solid_matrix(mesh, {E, nu});
  const Eigen::VectorXd force = lower.selfadjointView<Eigen::Lower>() * u;
  double greatest = 0;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const Vector3d& p = mesh.nodes[n];
    if (p.minCoeff() > 1e-9 && p.maxCoeff() < 1 - 1e-9) {
      greatest = std::max(greatest, force.segment<3>(3 * n).norm());
    }
  }
  CHECK(force.norm() > 1);
  CHECK(greatest < 1e-10 * force.norm());

  const double lambda = E * nu / ((1 + nu) * (1 - 2 * nu)), G = E / (2 * (1 + nu));
  const Eigen::Matrix3d strain = (gradient + gradient.transpose()) / 2;
  const Eigen::Matrix3d stress =
      lambda * strain.trace() * Eigen::Matrix3d::Identity() + 2 * G * strain;
  const ElementNodes x = columns(mesh, 80);
  const Stress found = solid_stress(x, gradient * x, {E, nu}, {0.2, 0.3, 0.1});
  CHECK_THAT(found[0], WithinRel(stress(0, 0), 1e-10));
  CHECK_THAT(found[2], WithinRel(stress(2, 2), 1e-10));
  CHECK_THAT(found[3], WithinRel(stress(0, 1), 1e-10));
  CHECK_THAT(found[4], WithinRel(stress(1, 2), 1e-10));
  CHECK_THAT(found[5], WithinRel(stress(0, 2), 1e-10));
}

TEST_CASE("A curved solid resists all but six motions, and these are rigid ones") {
  ElementNodes x =
      columns(grid_mesh({steps(0, 2, 1), steps(0, 1, 1), steps(0, 3, 1)}, everywhere), 2);
  x.col(5) += Vector3d(0.05, -0.04, 0.03);
  x.col(8) += Vector3d(-0.02, 0.06, 0.01);
  const ElementStiffness K = solid_stiffness(x, {E, nu});
  const Eigen::VectorXd values = Eigen::SelfAdjointEigenSolver<ElementStiffness>(K).eigenvalues();
  // Four points of six strains each are 24 = 30 - 6: nothing else is soft.
  CHECK(values[5] < 1e-10 * values[29]);
  CHECK(values[6] > 1e-6 * values[29]);
  Eigen::Matrix<double, 3, 10> turned;
  for (int n = 0; n < 10; ++n) turned.col(n) = Vector3d(0.3, -0.2, 0.5).cross(x.col(n));
  const Eigen::Map<const Eigen::Matrix<double, 30, 1>> u(turned.data());
  CHECK((K * u).norm() < 1e-10 * K.norm() * u.norm());
}

TEST_CASE("An element that is turned inside out is refused") {
  ElementNodes x =
      columns(grid_mesh({steps(0, 1, 1), steps(0, 1, 1), steps(0, 1, 1)}, everywhere), 0);
  x.col(0).swap(x.col(1));
  x.col(5).swap(x.col(6));
  x.col(7).swap(x.col(9));
  CHECK_THROWS_AS(solid_stiffness(x, {E, nu}), std::domain_error);
}

TEST_CASE("A solid that nothing holds is refused") {
  const SolidMesh mesh = grid_mesh({steps(0, 1, 1), steps(0, 1, 1), steps(0, 1, 1)}, everywhere);
  CHECK_THROWS_AS(
      SolidSolver(solid_matrix(mesh, {E, nu}), std::vector<bool>(3 * mesh.nodes.size())),
      std::domain_error);
}

TEST_CASE("A clamped square tube of solids gives what beam theory says", "[truth]") {
  constexpr double side = 20, wall = 1.5, length = 200;  // mm
  const ClampedBar bar(sharp_tube(side, wall, length, 3, 24), length);
  const Section s = hollow_rectangle(side, side, wall, {0, 0}, nu);
  CHECK_THAT(solid_volume(bar.mesh), WithinRel(s.A * length, 1e-12));
  const Source theory = rederived("closed form, Timoshenko beam with sharp corners");
  const double G = E / (2 * (1 + nu));
  const double turn = bar.work([](const Vector3d& p) { return Vector3d(p.z(), 0, 0); });
  truth("solids, tube 20 x 20 x 1.5 x 200 clamped: turn under an end moment, 1e-6 rad/(N mm)",
        theory, 1e6 * turn / (s.Iy * s.Iy), within_rel(1e6 * length / (E * s.Iy), 0.01));
  const double pull = bar.work([](const Vector3d&) { return Vector3d(1, 0, 0); });
  truth("the same: extension under a pull, 1e-6 mm/N", theory, 1e6 * pull / (s.A * s.A),
        within_rel(1e6 * length / (E * s.A), 0.01));
  const double sideways = bar.work([](const Vector3d&) { return Vector3d(0, 0, 1); });
  truth("the same: deflection under a force, 1e-3 mm/N", theory, 1e3 * sideways / (s.A * s.A),
        within_rel(1e3 * (std::pow(length, 3) / (3 * E * s.Iy) + length / (G * s.Az)), 0.01));
}

TEST_CASE("A round tube of curved solids twists as theory says", "[truth]") {
  constexpr double diameter = 20, wall = 1.5, length = 100;
  // Squares of the grid become circles.
  const auto rounded = [](const Vector3d& p) {
    const double radius = std::max(std::abs(p.y()), std::abs(p.z()));
    const double stretch = radius / std::hypot(p.y(), p.z());
    return Vector3d(p.x(), p.y() * stretch, p.z() * stretch);
  };
  const double a = diameter / 2;
  const auto across =
      joined(joined(steps(-a, -a + wall, 1), steps(-a + wall, a - wall, 4)), steps(a - wall, a, 1));
  const SolidMesh mesh = grid_mesh(
      {steps(0, length, 12), across, across},
      [=](const Vector3d& p) { return std::max(std::abs(p.y()), std::abs(p.z())) > a - wall; },
      rounded);
  const ClampedBar bar(mesh, length);
  const Section s = round_tube(diameter, wall, nu);
  const double twist = bar.work([](const Vector3d& p) { return Vector3d(0, -p.z(), p.y()); });
  truth("solids, round tube 20 x 1.5 x 100 clamped: twist under an end torque, 1e-6 rad/(N mm)",
        rederived("closed form"), 1e6 * twist / (s.It * s.It),
        within_rel(1e6 * length * 2 * (1 + nu) / (E * s.It), 0.01));
}

TEST_CASE("A beam twisted by a quarter turn deflects as in MacNeal's test", "[truth]") {
  constexpr double length = 12, width = 1.1, thick = 0.32, E_twisted = 29e6, nu_twisted = 0.22;
  const auto twist = [](const Vector3d& p) {
    const double turn = std::numbers::pi / 2 * p.x() / length;
    return Vector3d(p.x(), std::cos(turn) * p.y() - std::sin(turn) * p.z(),
                    std::sin(turn) * p.y() + std::cos(turn) * p.z());
  };
  const SolidMesh mesh = grid_mesh(
      {steps(0, length, 24), steps(-width / 2, width / 2, 4), steps(-thick / 2, thick / 2, 2)},
      everywhere, twist);
  const auto end =
      faces_where(mesh, [](const Vector3d& p) { return std::abs(p.x() - length) < 1e-9; });
  const SolidSolver solver(solid_matrix(mesh, {E_twisted, nu_twisted}),
                           clamp_where(mesh, [](const Vector3d& p) { return p.x() < 1e-9; }));
  const double area = face_integral(mesh, end, [](const Vector3d&) { return 1.0; });
  const auto moved = [&](int direction) {
    const Eigen::VectorXd f = traction_loads(
        mesh, end, [&](const Vector3d&) -> Vector3d { return Vector3d::Unit(direction) / area; });
    return f.dot(solver.solve(f).col(0));
  };
  const Source macneal = from_memory("MacNeal & Harder 1985, twisted beam");
  // The width has turned from y to z at the end: along z the load lies in the end's plane.
  truth("solids, twisted beam 12 x 1.1 x 0.32: deflection under a force along the end's width",
        macneal, moved(2), within_rel(0.005424, 0.01));
  truth("the same: across the end's width", macneal, moved(1), within_rel(0.001754, 0.01));
}

}  // namespace tubewright::solid10_test
