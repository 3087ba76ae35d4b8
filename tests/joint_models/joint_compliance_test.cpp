// The compliances of a joint: of its beams in closed form, of its solids by laws.
#include "tests/joint_models/joint_compliance.h"

#include <cmath>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/joint_models/grid_mesh.h"

namespace tubewright::joint_compliance_test {

namespace {

using test::joined;
using test::steps;

constexpr IsotropicSolid steel = {210000, 0.3};
constexpr double side = 20, wall = 2, half_chord = 40, brace_end = 40;

/// Two square tubes of sharp corners, the brace on the chord's face; a half of each direction at
/// will.
SolidMesh sharp_tee(bool halved_x, bool halved_y) {
  constexpr double a = side / 2, i = a - wall;
  const auto half = joined(steps(0, i, 2), steps(i, a, 1));
  auto whole = joined(joined(steps(-a, -i, 1), steps(-i, i, 4)), steps(i, a, 1));
  auto x = joined(half, steps(a, half_chord, 6));
  if (!halved_x) x = joined(joined(steps(-half_chord, -a, 6), whole), steps(a, half_chord, 6));
  const auto z = joined(whole, steps(a, brace_end, 6));
  return test::grid_mesh({x, halved_y ? half : whole, z}, [=](const Eigen::Vector3d& p) {
    const double in_chord = std::max(std::abs(p.y()), std::abs(p.z()));
    const double in_brace = std::max(std::abs(p.x()), std::abs(p.y()));
    return (in_chord < a && in_chord > i) || (p.z() > a && in_brace < a && in_brace > i);
  });
}

JointModel tee(bool halved_x, bool halved_y) {
  JointModel j;
  j.chord_width = j.chord_depth = j.brace_width = j.brace_along = side;
  j.chord_wall = j.brace_wall = wall;
  j.chord_start = -half_chord;
  j.chord_end = half_chord;
  j.brace_end = brace_end;
  j.halved_x = halved_x;
  j.halved_y = halved_y;
  return j;
}

JointCompliance compliance(bool halved_x, bool halved_y) {
  return joint_compliance(tee(halved_x, halved_y), sharp_tee(halved_x, halved_y), steel);
}

}  // namespace

TEST_CASE("The beams of a tee give what closed forms say") {
  const JointCompliance c = compliance(true, true);
  const Section s = hollow_rectangle(side, side, wall, {2 * wall, wall}, steel.nu);
  const double E = steel.E, G = E / (2 * (1 + steel.nu)), L = half_chord;
  const double phi = 12 * E * s.Iy / (G * s.Az * L * L);
  CHECK_THAT(c.beams[0], WithinRel(brace_end / (E * s.Iy) + L / (2 * G * s.It), 1e-9));
  CHECK_THAT(c.beams[1],
             WithinRel(brace_end / (E * s.Iy) + L * (1 + phi) / (2 * E * s.Iy * (4 + phi)), 1e-9));
  CHECK_THAT(c.beams[2],
             WithinRel(brace_end / (E * s.A) + L * L * L * (1 + phi) / (24 * E * s.Iy), 1e-9));
  CHECK_THAT(c.beams[3],
             WithinRel(brace_end / (G * s.It) + L * (1 + phi) / (2 * E * s.Iy * (4 + phi)), 1e-9));
}

TEST_CASE("A quarter and a half of a symmetric joint give as much as the whole") {
  const JointCompliance whole = compliance(false, false);
  for (const auto& [x, y] : {std::pair{true, true}, {true, false}, {false, true}}) {
    const JointCompliance part = compliance(x, y);
    INFO("halved " << x << " " << y);
    // The mesh of the whole is not a mirror image of itself.
    for (int k = 0; k < tip_loads; ++k) {
      CHECK_THAT(part.solid[k], WithinRel(whole.solid[k], 0.01));
    }
    CHECK_THAT(part.face, WithinAbs(whole.face, 0.01 * whole.solid[2]));
  }
}

TEST_CASE("A joint whose tip or clamp is not in the mesh is refused") {
  JointModel j = tee(true, true);
  const SolidMesh mesh = sharp_tee(true, true);
  j.brace_end += 1;
  CHECK_THROWS_AS(joint_compliance(j, mesh, steel), std::runtime_error);
  j = tee(true, true);
  j.chord_start -= 1;
  j.chord_end += 1;
  CHECK_THROWS_AS(joint_compliance(j, mesh, steel), std::runtime_error);
}

}  // namespace tubewright::joint_compliance_test
