#include "cases/studies/gauge_twist.h"

#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::gauge_twist_test {

namespace {

constexpr Source by_hand = rederived("twist between gauges, worked by hand");

}  // namespace

TEST_CASE("the twist of the held end is taken out of a bench test", "[truth]") {
  // Worked by hand: 20 kg at each end of a beam, couple arm 1.000 m, g = 9.81: 196.2 N m. Gauges
  // 0.9 m apart: front +1.52 and -1.48 mm, rear +0.06 and -0.05 mm.
  const double degree = std::numbers::pi / 180;
  const double couple = 20 * 9.81 * 1.000;
  const GaugePair front{1.52e-3, -1.48e-3, 0.9}, rear{0.06e-3, -0.05e-3, 0.9};
  CHECK_THAT(couple, WithinRel(196.2, 1e-12));
  truth("bench test: twist of the front, degrees", by_hand, twist_angle(front) / degree,
        within_rel(0.19099, 1e-4));
  truth("bench test: twist of the rear, degrees", by_hand, twist_angle(rear) / degree,
        within_rel(0.00700, 1e-3));
  truth("bench test, front gauges alone: N m/deg", by_hand,
        measured_stiffness(couple, front, {0, 0, 0.9}) * degree, within_rel(1027.3, 1e-4));
  truth("bench test, front and rear gauges: N m/deg", by_hand,
        measured_stiffness(couple, front, rear) * degree, within_rel(1066.4, 1e-4));
}

}  // namespace tubewright::gauge_twist_test
