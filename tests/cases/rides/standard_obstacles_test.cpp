#include "cases/rides/standard_obstacles.h"

#include <algorithm>

#include "cases/joint_stiffness/joint_springs.h"
#include "cases/rides/load_cases.h"
#include "cases/rides/ride_study.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::standard_obstacles_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinRel;

namespace {

std::optional<DrivenFactors> factors_of(const Frame& f) {
  return driven_factors(f, jointed_model(f));
}

const Case& named(const Frame& f, const std::string& name) {
  return *std::find_if(f.cases.begin(), f.cases.end(),
                       [&](const Case& c) { return c.name == name; });
}

}  // namespace

TEST_CASE("a vehicle is driven over the standard set's obstacles if every wheel can roll") {
  Frame f = rider();
  CHECK(factors_of(f));
  f.vehicle->wheels.back().radius.reset();
  CHECK_FALSE(factors_of(f));
  f = rider();
  f.vehicle->tyre_rate.reset();
  CHECK_FALSE(factors_of(f));
}

TEST_CASE("the factor of a wheel is the peak of a ride of the file over the same step") {
  Frame f = rider();
  const DrivenFactors factors = factors_of(f).value();
  f.rides = {kerb_ride(0.05, 10 / 3.6, RideSide::left)};
  const RideStudy study = answer_of(ride_study(f));
  for (const size_t left : {size_t{0}, size_t{2}}) {
    CHECK_THAT(factors.step[left], WithinRel(study.rides.front().wheels[left].factor, 1e-9));
  }
  CHECK(factors.doubts.empty());
  CHECK(factors.step_words == "a step of 50 mm at 10 km/h on its side");
}

TEST_CASE("the mirrored vehicle has the factors of the other side") {
  const Frame f = rider();
  const DrivenFactors a = factors_of(f).value(), b = factors_of(mirrored(f)).value();
  for (size_t w = 0; w < 4; ++w) {
    CHECK_THAT(a.step[w], WithinRel(b.step[w], 1e-6));
    CHECK_THAT(a.bump[w], WithinRel(b.bump[w], 1e-6));
    CHECK_THAT(a.axle_bump[w], WithinRel(b.axle_bump[w], 1e-6));
  }
}

TEST_CASE("without springs the larger of the usual factor and the driven one counts") {
  const Frame f = rider();
  const DrivenFactors factors = factors_of(f).value();
  const Frame complete = answer_of(with_load_cases(f));
  CHECK(named(complete, "step_front_left").step->factor == std::max(4.5, factors.step[0]));
  CHECK(factors.step[0] > 4.5);  // 90 N/mm, 50 mm
  CHECK(named(complete, "bump_rear_right").bump.front().factor == std::max(5.0, factors.bump[3]));
  const Case& axle = named(complete, "bump_rear_axle");
  for (size_t k = 0; k < 2; ++k) {
    CHECK(axle.bump[k].factor == std::max(5.0, factors.axle_bump[2 + k]));
  }
  CHECK_THAT(named(complete, "step_front_left").note,
             ContainsSubstring("driven over a step of 50 mm at 10 km/h"));
}

TEST_CASE("with springs the usual factor counts and the driven one is told") {
  const Frame complete = answer_of(with_load_cases(sprung_rider()));
  const Case& c = named(complete, "step_front_left");
  CHECK(c.step->factor == 4.5);
  CHECK_THAT(c.note, ContainsSubstring("driven over a step of 50 mm at 10 km/h"));
}

TEST_CASE("what the file says of a factor counts before either") {
  Frame f = rider();
  f.vehicle->standard.step = 2;
  f.vehicle->standard.step_height = 0.03;
  const Frame complete = answer_of(with_load_cases(f));
  const Case& c = named(complete, "step_front_left");
  CHECK(c.step->factor == 2);
  CHECK_THAT(c.note, ContainsSubstring("driven over a step of 30 mm at 10 km/h"));
}

}  // namespace tubewright::standard_obstacles_test
