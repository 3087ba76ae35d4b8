// Bending shapes against what they must solve: the equations of the unloaded Timoshenko beam,
// E I theta''' = 0 and G A_s (v' - theta) = -E I theta'', with the values of its ends (S. P.
// Timoshenko, Phil. Mag. 41 (1921) 744), and the cubic of Hermite without shear.
#include "solver/elements/beam_shapes.h"

#include "tests/catch.h"

namespace tubewright::beam_shapes_test {

namespace {

constexpr double L = 1.7;

double phi() { return GENERATE(0.0, 0.3, 40.0); }

}  // namespace

TEST_CASE("each bending shape has one end value of one and the others zero") {
  const double ratio = phi();
  const BendingShapes from = bending_shapes(0, L, ratio), to = bending_shapes(1, L, ratio);
  CHECK((from.deflection - Eigen::Vector4d(1, 0, 0, 0)).norm() < 1e-14);
  CHECK((from.rotation - Eigen::Vector4d(0, 1, 0, 0)).norm() < 1e-14);
  CHECK((to.deflection - Eigen::Vector4d(0, 0, 1, 0)).norm() < 1e-14);
  CHECK((to.rotation - Eigen::Vector4d(0, 0, 0, 1)).norm() < 1e-14);
}

TEST_CASE("bending shapes hold every rigid motion exactly") {
  const double ratio = phi();
  const Eigen::Vector4d shift(1, 0, 1, 0), turn(0, 1, L, 1);
  for (const double s : {0.0, 0.2, 0.5, 0.9}) {
    const BendingShapes n = bending_shapes(s, L, ratio);
    CHECK_THAT(n.deflection.dot(shift), WithinRel(1.0, 1e-14));
    CHECK_THAT(n.rotation.dot(shift), WithinAbs(0, 1e-14));
    CHECK_THAT(n.slope.dot(shift), WithinAbs(0, 1e-14));
    CHECK_THAT(n.deflection.dot(turn), WithinAbs(s * L, 1e-14));
    CHECK_THAT(n.rotation.dot(turn), WithinRel(1.0, 1e-14));
    CHECK_THAT(n.slope.dot(turn), WithinRel(1.0, 1e-14));
  }
}

TEST_CASE("bending shapes solve the equations of the unloaded Timoshenko beam") {
  const double ratio = phi();
  constexpr double h = 1e-3;  // differences of polynomials of degree 3: error of h^2 at most
  for (const double s : {0.1, 0.35, 0.8}) {
    const BendingShapes before = bending_shapes(s - h, L, ratio), n = bending_shapes(s, L, ratio),
                        after = bending_shapes(s + h, L, ratio);
    const double dx = h * L;
    CHECK(((after.deflection - before.deflection) / (2 * dx) - n.slope).norm() < 1e-5);
    // Constant shear force: v' - theta = -Phi L^2/12 theta'', theta quadratic.
    const Eigen::Vector4d curving = (after.rotation - 2 * n.rotation + before.rotation) / (dx * dx);
    CHECK((n.slope - n.rotation + ratio * L * L / 12 * curving).norm() < 1e-7 * (1 + ratio));
  }
}

TEST_CASE(
    "without shear the middle deflects by half of an end's and an eighth of L times its turn") {
  // Hermite's cubic at s = 1/2, any textbook on finite elements; from memory.
  const BendingShapes n = bending_shapes(0.5, L, 0);
  CHECK((n.deflection - Eigen::Vector4d(0.5, L / 8, 0.5, -L / 8)).norm() < 1e-14);
  CHECK((n.slope - Eigen::Vector4d(-1.5 / L, -0.25, 1.5 / L, -0.25)).norm() < 1e-14);
  CHECK((n.rotation - n.slope).norm() < 1e-14);
}

TEST_CASE("a beam soft in shear shears along a straight line between its ends") {
  const BendingShapes n = bending_shapes(0.25, L, 1e9);
  CHECK((n.deflection - Eigen::Vector4d(0.75, L * 0.09375, 0.25, -L * 0.09375)).norm() < 1e-8);
  CHECK((n.rotation - Eigen::Vector4d(0, 0.75, 0, 0.25)).norm() < 1e-8);
}

}  // namespace tubewright::beam_shapes_test
