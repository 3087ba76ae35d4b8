// Stress at toes: in fields of stress that are known.
#include "tests/joint_models/hot_spot.h"

#include <cmath>
#include <stdexcept>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/joint_models/grid_mesh.h"

namespace tubewright::hot_spot_test {

namespace {

using test::steps;

constexpr IsotropicSolid steel = {210000, 0.3};

JointModel tee() {
  JointModel j;
  j.chord_width = j.chord_depth = 20;
  j.chord_wall = j.brace_wall = 1.5;
  j.brace_width = j.brace_along = 12;
  return j;
}
constexpr double leg = 2;

/// A block that holds the toes of the tee.
SolidMesh block() {
  return test::grid_mesh({steps(-1, 14, 5), steps(-1, 14, 4), steps(4, 17, 4)},
                         [](const Eigen::Vector3d&) { return true; });
}

/// Of stress s + c z along z and none else: quadratic, so the elements have it exactly.
Eigen::VectorXd stretched(const SolidMesh& mesh, double s, double c) {
  Eigen::VectorXd u(3 * mesh.nodes.size());
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const Eigen::Vector3d& p = mesh.nodes[n];
    const double stress = s + c * p.z();
    u.segment<3>(3 * n) = Eigen::Vector3d(-steel.nu * stress * p.x(), -steel.nu * stress * p.y(),
                                          s * p.z() + c * p.z() * p.z() / 2) /
                          steel.E;
  }
  return u;
}

}  // namespace

TEST_CASE("Stress along a direction is that of the element the point lies in") {
  const SolidMesh mesh = block();
  const Eigen::VectorXd u = stretched(mesh, 5, 2);
  const Eigen::Vector3d point(3.3, 2.1, 9.7);
  const double stress = 5 + 2 * point.z();
  CHECK_THAT(stress_along(mesh, u, steel, point, Eigen::Vector3d::UnitZ()),
             WithinRel(stress, 1e-9));
  CHECK_THAT(stress_along(mesh, u, steel, point, Eigen::Vector3d::UnitX()),
             WithinAbs(0, 1e-9 * stress));
  // A gradient brings shear, G du_x/dz = -nu c x/(2 (1 + nu)).
  const double shear = -steel.nu * 2 * point.x() / (2 * (1 + steel.nu));
  CHECK_THAT(stress_along(mesh, u, steel, point, Eigen::Vector3d(0.6, 0, 0.8)),
             WithinRel(0.64 * stress + 2 * 0.48 * shear, 1e-9));
  CHECK_THROWS_AS(stress_along(mesh, u, steel, {0, 0, 99}, Eigen::Vector3d::UnitZ()),
                  std::runtime_error);
}

TEST_CASE("A stress that changes linearly is extrapolated to the toe exactly") {
  const JointModel j = tee();
  const SolidMesh mesh = block();
  const Section s =
      hollow_rectangle(j.brace_along, j.brace_width, j.brace_wall, {3, 1.5}, steel.nu);
  const double toe = j.chord_depth / 2 + leg;
  const HotSpots pulled = hot_spots(j, leg, mesh, stretched(mesh, 3, -0.7), steel, TipLoad::axial);
  CHECK_THAT(pulled.brace, WithinRel(std::abs(3 - 0.7 * toe) * s.A, 1e-9));
  const HotSpots bent = hot_spots(j, leg, mesh, stretched(mesh, 1, 0), steel, TipLoad::in_plane);
  CHECK_THAT(bent.brace, WithinRel(s.Wy, 1e-9));
}

TEST_CASE("Stress across the chord's face does not come from a pull on the brace's axis alone") {
  // On the flat part of the face there is none along it; round the corner its share grows.
  const JointModel j = tee();
  const SolidMesh mesh = block();
  const HotSpots pulled = hot_spots(j, leg, mesh, stretched(mesh, 1, 0), steel, TipLoad::axial);
  CHECK(pulled.chord < 0.5 * pulled.brace);
}

}  // namespace tubewright::hot_spot_test
