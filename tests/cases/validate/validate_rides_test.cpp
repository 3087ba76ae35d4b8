#include "cases/validate/validate.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::validate_rides_test {

using namespace tubewright::testing;

namespace {

Frame rider() {
  Frame f = box_vehicle();
  f.vehicle->tyre_rate = 90e3;
  for (Wheel& w : f.vehicle->wheels) w.radius = 0.2;
  RideEntry ride;
  ride.name = "kerb";
  ride.height = 0.05;
  ride.speed = 3;
  f.rides = {ride};
  return f;
}

std::string faults(const Frame& f) { return text_of(validate(f)); }

}  // namespace

TEST_CASE("a ride on wheels with tyres and radii is sound") { CHECK(faults(rider()).empty()); }

TEST_CASE("a wheel without radius or tyre is told, a wheel that needs no radius is not") {
  Frame f = rider();
  f.vehicle->wheels[1].radius.reset();
  CHECK_THAT(faults(f), ContainsSubstring("`front_right` has no `radius`"));
  f.rides[0].follower = Follower::patch;
  f.rides[0].patch = 0.1;
  CHECK(faults(f).empty());
  f.vehicle->tyre_rate.reset();
  f.vehicle->wheels[0].tyre_rate = 60e3;
  CHECK_THAT(faults(f), ContainsSubstring("`rear_left` has no tyre in ride `kerb`"));
  CHECK_THAT(faults(f), !ContainsSubstring("`front_left` has no tyre"));
}

TEST_CASE("an edge as high as the wheel's radius cannot be climbed") {
  Frame f = rider();
  f.rides[0].height = 0.2;
  CHECK_THAT(faults(f), ContainsSubstring("cannot climb"));
  f.rides[0].height = -0.2;  // down it goes
  CHECK(faults(f).empty());
  f.rides[0].ground = Ground::profile;
  f.rides[0].height = 0;
  f.rides[0].profile = {{0, 0, 0}, {1, 0, 0}, {1, 0.21, 0}, {2, 0.21, 0}};
  CHECK_THAT(faults(f), ContainsSubstring("cannot climb"));
}

TEST_CASE("a ride that ends before its obstacle does is told how long it takes") {
  Frame f = rider();
  f.rides[0].ground = Ground::half_sine;
  f.rides[0].length = 2;
  f.rides[0].duration = 1;
  CHECK_THAT(faults(f), ContainsSubstring("before all wheels are over"));
  CHECK_THAT(faults(f), ContainsSubstring("at least 1.23 s"));  // (0.3 + 2 + 1.2 + 0.2)/3
}

TEST_CASE("impossible speeds, lengths and roughnesses are told, once") {
  Frame f = rider();
  f.rides[0].speed = 0;
  CHECK_THAT(faults(f), ContainsSubstring("speed"));
  f.rides[0].speed = 3;
  f.rides[0].ground = Ground::random_road;
  f.rides[0].roughness = 2;
  CHECK_THAT(faults(f), ContainsSubstring("Gd"));
  f.vehicle.reset();
  f.rides[0].roughness = 1e-4;
  CHECK_THAT(faults(f), ContainsSubstring("has no wheels to ride on"));
}

}  // namespace tubewright::validate_rides_test
