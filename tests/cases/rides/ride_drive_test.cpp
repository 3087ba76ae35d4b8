#include "cases/rides/ride_drive.h"

#include <cmath>

#include "cases/joint_stiffness/joint_springs.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_drive_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double samples_apart = 5e-4;  // s, at most

}  // namespace

TEST_CASE("steps are a quarter of a millisecond at most and 2 mm of way") {
  CHECK(time_step_of(kerb_ride(0.05, 1)) == 2.5e-4);
  CHECK_THAT(time_step_of(kerb_ride(0.05, 20)), WithinRel(1e-4, 1e-12));
}

TEST_CASE("samples go through the whole ride without gaps, at most half a millisecond apart") {
  const Frame f = rider();
  const RideModel model = answer_of(ride_model(f, jointed_model(f)));
  for (const double speed : {2.0, 30.0}) {
    const RideEntry ride = kerb_ride(0.02, speed);
    std::int64_t next = 0;
    double apart = 0;
    const RideResult r = answer_of(drive_ride(*f.vehicle, model, ride, [&](const RideSamples& s) {
      CHECK(s.first == next);
      next = s.first + s.stride * s.x.cols();
      apart = static_cast<double>(s.stride) * time_step_of(ride);
    }));
    CHECK(apart <= samples_apart * (1 + 1e-12));
    CHECK_THAT(static_cast<double>(next) * r.time_step, WithinAbs(r.duration, 2 * apart));
  }
}

TEST_CASE(
    "on average the wheels carry the weight, and no wheel more in the samples than its peak") {
  const Frame f = sprung_rider();
  const RideModel model = answer_of(ride_model(f, jointed_model(f)));
  RideEntry gravel = kerb_ride(0, 3);
  gravel.ground = Ground::random_road;
  gravel.roughness = 64e-6;
  gravel.duration = 20;
  double sum = 0, count = 0;
  Eigen::VectorXd greatest = Eigen::VectorXd::Zero(4);
  const RideResult r = answer_of(drive_ride(*f.vehicle, model, gravel, [&](const RideSamples& s) {
    for (Eigen::Index w = 0; w < 4; ++w) {
      const auto row = model.system.tyres[static_cast<size_t>(w)].vertical;
      sum += s.x.row(row).sum();
      greatest[w] = std::max(greatest[w], s.x.row(row).maxCoeff());
    }
    count += static_cast<double>(s.x.cols());
  }));
  double weight = 0;
  for (const double load : model.standing) weight += load;
  CHECK_THAT(sum / count, WithinRel(weight, 0.01));
  for (Eigen::Index w = 0; w < 4; ++w) {
    CHECK(greatest[w] <= r.wheels[static_cast<size_t>(w)].peak);
    CHECK(greatest[w] > 0.97 * r.wheels[static_cast<size_t>(w)].peak);
  }
}

TEST_CASE("a ride is doubted where it does not converge, flies, or would lose its speed") {
  RideResult good;
  good.converged = true;
  const RideEntry ride = kerb_ride(0.05, 2);
  CHECK(doubts_of(ride, good).empty());
  RideResult coarse = good;
  coarse.converged = false;
  coarse.change_by_halving = 0.07;
  CHECK_THAT(doubts_of(ride, coarse).at(0), ContainsSubstring("change by 7 %"));
  RideResult flying = good;
  flying.in_the_air = true;
  CHECK_THAT(doubts_of(ride, flying).at(0), ContainsSubstring("in the air"));
  RideResult slowed = good;
  slowed.speed_lost = 1;
  CHECK_THAT(doubts_of(ride, slowed).at(0), ContainsSubstring("50 % of the speed"));
  RideEntry gravel = ride;
  gravel.ground = Ground::random_road;
  CHECK(doubts_of(gravel, slowed).empty());
}

}  // namespace tubewright::ride_drive_test
