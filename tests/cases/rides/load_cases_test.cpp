#include "cases/rides/load_cases.h"

#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::load_cases_test {

using namespace tubewright::testing;

TEST_CASE("a frame that is not a vehicle keeps its cases, also none") {
  Frame f = rider();
  f.vehicle.reset();
  CHECK(answer_of(with_load_cases(f)).cases.empty());
  add_case(f, "own", CaseKind::fixed_supports);
  CHECK(answer_of(with_load_cases(f)).cases.size() == 1);
}

TEST_CASE("a vehicle without cases gets the standard set, once") {
  const Frame once = answer_of(with_load_cases(rider()));
  CHECK(once.cases.size() > 10);
  const Frame twice = answer_of(with_load_cases(once));
  REQUIRE(twice.cases.size() == once.cases.size());
  for (size_t i = 0; i < once.cases.size(); ++i) CHECK(twice.cases[i].note == once.cases[i].note);
}

TEST_CASE("a vehicle with cases of its own gets its rides' instants in their place and no others") {
  Frame f = rider();
  f.rides = {kerb_ride(0.02, 2)};
  add_drive(f, "first");
  add_case(f, "over", CaseKind::ride).ride = "kerb";
  add_drive(f, "last");
  const Frame complete = answer_of(with_load_cases(f));
  REQUIRE(complete.cases.size() > 3);
  CHECK(complete.cases.front().name == "first");
  CHECK(complete.cases.back().name == "last");
  for (size_t i = 1; i + 1 < complete.cases.size(); ++i) CHECK(complete.cases[i].part_of == "over");
}

}  // namespace tubewright::load_cases_test
