#include "cases/rides/ride_road.h"

#include "cases/wheels/rolling.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_road_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;

namespace {

/// Heights of the four wheels at a time, s.
Eigen::VectorXd heights(const Frame& f, const RideEntry& ride, double time) {
  constexpr double step = 1e-3;
  WheelPathStream paths = ride_paths(*f.vehicle, ride, step);
  Eigen::MatrixXd height(4, 1), slope(4, 1);
  paths(std::llround(time / step), height, slope);
  return height.col(0);
}

}  // namespace

TEST_CASE("the front axle starts 300 mm before a step, the rear comes a wheelbase later") {
  const Frame f = rider();
  RideEntry ride = kerb_ride(0.05, 1);
  ride.follower = Follower::point;
  CHECK(heights(f, ride, 0.299).isZero(0));
  CHECK_THAT(heights(f, ride, 0.301)[0], WithinAbs(0.05, 1e-12));
  CHECK_THAT(heights(f, ride, 0.301)[1], WithinAbs(0.05, 1e-12));
  CHECK_THAT(heights(f, ride, 1.499)[2], WithinAbs(0, 1e-12));
  CHECK_THAT(heights(f, ride, 1.501)[3], WithinAbs(0.05, 1e-12));
}

TEST_CASE("a step on the left is met by the left wheels only") {
  const Frame f = rider();
  RideEntry ride = kerb_ride(0.05, 1, RideSide::left);
  const Eigen::VectorXd z = heights(f, ride, 3);
  CHECK_THAT(z[0], WithinAbs(0.05, 1e-12));
  CHECK_THAT(z[1], WithinAbs(0, 1e-12));
  CHECK_THAT(z[2], WithinAbs(0.05, 1e-12));
  CHECK_THAT(z[3], WithinAbs(0, 1e-12));
}

TEST_CASE("a rigid circle meets a step before it stands on it") {
  // Contact begins sqrt(2 R h - h2) = 132.3 mm before the edge: R 0.2, h 0.05 (road study 2.6).
  const Frame f = rider();
  const RideEntry ride = kerb_ride(0.05, 1);
  CHECK(heights(f, ride, 0.16)[0] == 0);
  CHECK(heights(f, ride, 0.18)[0] > 0);
  CHECK(heights(f, ride, 0.25)[0] < 0.05);
}

TEST_CASE("a measured profile has a left and a right track, and their mean in the middle") {
  Frame f = rider();
  f.vehicle->wheels[2].contact.y() = 0;
  RideEntry ride = kerb_ride(0, 1);
  ride.ground = Ground::profile;
  ride.follower = Follower::point;
  ride.profile = {{5, 0.01, 0.03}, {9, 0.01, 0.03}};
  const Eigen::VectorXd z = heights(f, ride, 2);
  CHECK_THAT(z[0], WithinAbs(0.01, 1e-12));
  CHECK_THAT(z[1], WithinAbs(0.03, 1e-12));
  CHECK_THAT(z[2], WithinAbs(0.02, 1e-12));
}

TEST_CASE("on a random road rear wheels follow in the track of the front ones") {
  const Frame f = rider();
  RideEntry ride = kerb_ride(0, 2);
  ride.ground = Ground::random_road;
  ride.roughness = 256e-6;
  const Eigen::VectorXd front = heights(f, ride, 10), rear = heights(f, ride, 10.6);
  CHECK_THAT(rear[2], WithinAbs(front[0], 1e-9));
  CHECK_THAT(rear[3], WithinAbs(front[1], 1e-9));
  CHECK(std::abs(front[0] - front[1]) > 1e-6);
}

}  // namespace tubewright::ride_road_test
