#include "cases/wheels/rolling.h"

#include <cmath>

#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::rolling_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinRel;

namespace {

RideEntry kerb() {
  RideEntry ride;
  ride.name = "kerb";
  ride.height = 0.05;
  ride.speed = 2;
  return ride;
}

}  // namespace

TEST_CASE("a wheel in the middle is on both sides, the others on their own") {
  Frame f = box_vehicle();
  f.vehicle->wheels[2].contact.y() = 0;
  CHECK(wheels_on_side(*f.vehicle, RideSide::both).size() == 4);
  CHECK(wheels_on_side(*f.vehicle, RideSide::left).size() == 2);
  CHECK(wheels_on_side(*f.vehicle, RideSide::right).size() == 3);
}

TEST_CASE("a ride lasts until the last wheel is over and two seconds more") {
  const Frame f = box_vehicle();
  RideEntry ride = kerb();
  CHECK_THAT(wheelbase(*f.vehicle), WithinRel(1.2, 1e-12));
  CHECK_THAT(time_until_over(*f.vehicle, ride), WithinRel((run_up + 1.2) / 2, 1e-12));
  CHECK_THAT(duration_of(*f.vehicle, ride), WithinRel((run_up + 1.2) / 2 + 2, 1e-12));
  ride.ground = Ground::profile;
  ride.profile = {{1, 0, 0}, {4, 0.01, 0}};
  CHECK_THAT(time_until_over(*f.vehicle, ride), WithinRel((run_up + 1.2 + 3) / 2, 1e-12));
  ride.ground = Ground::random_road;
  CHECK(duration_of(*f.vehicle, ride) == 60);
  ride.duration = 7;
  CHECK(duration_of(*f.vehicle, ride) == 7);
}

TEST_CASE("a wheel's own tyre comes before that of the vehicle") {
  Frame f = box_vehicle();
  Vehicle& v = *f.vehicle;
  CHECK_FALSE(has_tyre_rates(v));
  v.wheels[0].tyre_rate = 60e3;
  CHECK_FALSE(has_tyre_rates(v));
  v.tyre_rate = 90e3;
  CHECK(has_tyre_rates(v));
  CHECK(tyre_rate(v, v.wheels[0]) == 60e3);
  CHECK(tyre_rate(v, v.wheels[1]) == 90e3);
  v.tyre_damping_ratio = 0.1;
  CHECK_THAT(tyre_damping(v, v.wheels[1], 40), WithinRel(0.2 * std::sqrt(90e3 * 40), 1e-12));
  v.tyre_damping = 300;
  v.wheels[0].tyre_damping = 200;
  CHECK(tyre_damping(v, v.wheels[0], 40) == 200);
  CHECK(tyre_damping(v, v.wheels[1], 40) == 300);
}

}  // namespace tubewright::rolling_test
