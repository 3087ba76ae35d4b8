// What is and what is no system that can ride.
#include "solver/dynamics/ride_system.h"

#include <limits>

#include "tests/solver/dynamics/ride_models.h"

namespace tubewright::ride_system_test {

using namespace tubewright::test;

TEST_CASE("a system with sizes, indices and numbers in order can ride") {
  const RideSystem good = quarter_car(40, 6, 12e3, 500, 120e3, 100);
  REQUIRE(is_ride_system(good));
  const auto refused = [&](auto&& spoil) {
    RideSystem bad = good;
    spoil(bad);
    CHECK_FALSE(is_ride_system(bad));
  };
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  refused([](RideSystem& r) { r.tyres[0].vertical = 2; });
  refused([](RideSystem& r) { r.tyres[0].vertical = -1; });
  refused([](RideSystem& r) { r.tyres[0].longitudinal = -2; });
  refused([](RideSystem& r) { r.tyres[0].stiffness = 0; });
  refused([](RideSystem& r) { r.tyres[0].damping = -1; });
  refused([](RideSystem& r) { r.dampers[0].coordinate = 5; });
  refused([](RideSystem& r) { r.dampers[0].damping = nan; });
  refused([](RideSystem& r) { r.circular_frequency[0] = -1; });
  refused([](RideSystem& r) { r.damping_ratio.resize(1); });
  refused([](RideSystem& r) { r.modes(0, 0) = nan; });
  refused([](RideSystem& r) { r.residual_flexibility.resize(1, 1); });
  refused([](RideSystem& r) { r.weight_modal.resize(1); });
  refused([](RideSystem& r) { r.weight_displacement[0] = nan; });
  refused([](RideSystem& r) { r.tyres.assign(most_tyres + 1, r.tyres[0]); });
}

}  // namespace tubewright::ride_system_test
