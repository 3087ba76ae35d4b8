#include "cases/rides/ride_study.h"

#include <cmath>

#include "cases/rides/ride_model.h"
#include "tests/cases/idle_processors.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_study_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

RideStudy driven(Frame f, RideEntry ride) {
  f.rides = {std::move(ride)};
  return answer_of(ride_study(f));
}

}  // namespace

TEST_CASE("on level ground nothing happens: every wheel keeps its load, nothing is worn") {
  RideEntry level = kerb_ride(0, 3);
  level.ground = Ground::profile;
  level.profile = {{0, 0, 0}, {1, 0, 0}};
  const RideStudy study = driven(sprung_rider(), level);
  const RideResult& r = study.rides.front();
  CHECK(r.converged);
  for (const RideWheel& w : r.wheels) {
    CHECK_THAT(w.factor, WithinRel(1.0, 1e-6));
    CHECK(w.off_ground == 0);
  }
  CHECK_THAT(r.masses.front().rms, WithinAbs(0, 1e-6));
  for (const RideDamage& d : r.damage) CHECK(d.per_ride == 0);
  CHECK_THAT(r.speed_lost, WithinAbs(0, 1e-9));
}

TEST_CASE("a mirrored vehicle over a mirrored road has the mirrored answer") {
  const Frame f = sprung_rider();
  const RideStudy left = driven(f, kerb_ride(0.04, 3, RideSide::left)),
                  right = driven(mirrored(f), kerb_ride(0.04, 3, RideSide::right));
  const RideResult &a = left.rides.front(), &b = right.rides.front();
  for (size_t w = 0; w < 4; ++w) CHECK_THAT(a.wheels[w].peak, WithinRel(b.wheels[w].peak, 1e-6));
  for (size_t m = 0; m < a.members.size(); ++m) {
    CHECK_THAT(a.members[m].utilisation.value_or(0),
               WithinRel(b.members[m].utilisation.value_or(0), 1e-4));
  }
}

TEST_CASE("springs with dampers under the load take much of what a kerb does to the wheels") {
  const RideStudy stiff = driven(rider(), kerb_ride(0.05, 2.78)),
                  sprung = driven(sprung_rider(), kerb_ride(0.05, 2.78));
  CHECK(sprung.rides.front().wheels.front().factor < stiff.rides.front().wheels.front().factor);
  CHECK(sprung.rides.front().masses.front().peak < stiff.rides.front().masses.front().peak);
  CHECK(stiff.rides.front().wheels.front().off_ground > 0);
}

TEST_CASE("the worst instants are checked as load cases are, and what is worst is among them") {
  const RideStudy study = driven(rider(), kerb_ride(0.03, 2));
  const RideResult& r = study.rides.front();
  REQUIRE(r.worst);
  CHECK(r.instants.cases.size() == r.instant_times.size());
  CHECK(r.members.size() == study.frame.members.size());
  double greatest = 0;
  for (const RideWorst& m : r.members) greatest = std::max(greatest, m.utilisation.value_or(0));
  CHECK_THAT(*r.worst->utilisation, WithinRel(greatest, 1e-12));
  for (const CaseResult& c : r.instants.cases) CHECK(c.solution.residual.force < 1e-6);
  CHECK(r.speed_lost > 0);  // a step up pushes back
}

TEST_CASE("a ride that happens more often wears more, and rides add up") {
  Frame f = rider();
  RideEntry often = kerb_ride(0.05, 3), once = often;
  often.name = "often";
  often.repeat = 1000;
  f.rides = {once, often};
  const RideStudy study = answer_of(ride_study(f));
  const std::vector<RideDamage>& damage = study.rides.front().damage;
  REQUIRE_FALSE(damage.empty());
  for (const RideDamage& d : damage) {
    CHECK_THAT(study.life_damage[static_cast<size_t>(d.member)].value(),
               WithinRel(1001 * d.per_ride, 1e-12) || WithinAbs(0, 1e-30));
  }
}

TEST_CASE(
    "a random road has the same answer on any number of processors, and another seed another") {
  Frame f = rider();
  RideEntry gravel = kerb_ride(0, 3);
  gravel.ground = Ground::random_road;
  gravel.roughness = 64e-6;
  gravel.duration = 4;
  RideEntry other = gravel;
  other.name = "other";
  other.seed = 2;
  f.rides = {gravel, other};
  const RideStudy many = answer_of(ride_study(f));
  const IdleProcessors none(0);
  const RideStudy one = answer_of(ride_study(f));
  for (size_t i = 0; i < 2; ++i) {
    CHECK(one.rides[i].wheels[2].peak == many.rides[i].wheels[2].peak);
    CHECK(one.rides[i].worst->utilisation == many.rides[i].worst->utilisation);
  }
  CHECK(many.rides[0].wheels[0].peak != many.rides[1].wheels[0].peak);
}

TEST_CASE("a frame without rides is told so") {
  const Result<RideStudy> study = ride_study(rider());
  REQUIRE(study.error() != nullptr);
  CHECK_THAT(study.error()->front().message, ContainsSubstring("describes no ride"));
}

}  // namespace tubewright::ride_study_test
