#include "cases/studies/gauge_twist.h"

#include <numbers>

#include "tests/catch.h"

namespace tubewright::gauge_twist_test {

TEST_CASE("the twist of the held end is taken out of a bench test") {
  // Worked by hand: 20 kg at each end of a beam, couple arm 1.000 m, g = 9.81: 196.2 N m. Gauges
  // 0.9 m apart: front +1.52 and -1.48 mm, rear +0.06 and -0.05 mm.
  const double degree = std::numbers::pi / 180;
  const double couple = 20 * 9.81 * 1.000;
  const GaugePair front{1.52e-3, -1.48e-3, 0.9}, rear{0.06e-3, -0.05e-3, 0.9};
  CHECK_THAT(couple, WithinRel(196.2, 1e-12));
  CHECK_THAT(twist_angle(front) / degree, WithinRel(0.19099, 1e-4));
  CHECK_THAT(twist_angle(rear) / degree, WithinRel(0.00700, 1e-3));
  CHECK_THAT(measured_stiffness(couple, front, {0, 0, 0.9}) * degree, WithinRel(1027.3, 1e-4));
  CHECK_THAT(measured_stiffness(couple, front, rear) * degree, WithinRel(1066.4, 1e-4));
}

}  // namespace tubewright::gauge_twist_test
