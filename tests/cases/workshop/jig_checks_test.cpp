#include "cases/workshop/jig_checks.h"

#include <cmath>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::jig_checks_test {

using namespace tubewright::testing;

TEST_CASE("the diagonals of a rectangle are equal, by Pythagoras") {
  const std::vector<JigCheck> checks = jig_checks(rectangle());
  REQUIRE(checks.size() == 1);
  CHECK_THAT(checks[0].first, WithinRel(std::hypot(0.6, 0.4), 1e-12));
  CHECK_THAT(checks[0].second, WithinRel(std::hypot(0.6, 0.4), 1e-12));
}

TEST_CASE("a bay is among nodes only with all of its corners") {
  const std::vector<JigCheck> checks = jig_checks(rectangle());
  CHECK(checks_among(checks, {0, 1, 2, 3, 7}).size() == 1);
  CHECK(checks_among(checks, {0, 1, 2}).empty());
}

}  // namespace tubewright::jig_checks_test
