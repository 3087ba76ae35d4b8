#include "cases/sheets/rivet_rows.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::rivet_rows_test {

namespace {
constexpr double degree = std::numbers::pi / 180;
}

TEST_CASE("rivets are evenly spaced, no farther apart than the pitch, ends kept clear") {
  for (const double length : {0.0901, 0.3, 0.5, 0.777, 1.5}) {
    const auto places = rivet_places(length, 0.020, 0.030, 0.040, 0.009);
    REQUIRE(places.size() >= 2);
    CHECK_THAT(places.front(), WithinAbs(0.020, 1e-12));
    CHECK_THAT(places.back(), WithinAbs(length - 0.030, 1e-12));
    const double space = places[1] - places[0];
    CHECK(space <= 0.040 + 1e-12);
    // One rivet less would be too few.
    if (places.size() > 2) CHECK((length - 0.050) / double(places.size() - 2) > 0.040);
    for (size_t i = 1; i < places.size(); ++i) {
      CHECK_THAT(places[i] - places[i - 1], WithinAbs(space, 1e-12));
    }
  }
}

TEST_CASE("a row that fits exactly has no rivet more than it needs") {
  CHECK(rivet_places(0.44, 0.02, 0.02, 0.04, 0.009).size() == 11);
}

TEST_CASE("a short run has one rivet in the middle, a shorter one none") {
  const auto one = rivet_places(0.045, 0.02, 0.02, 0.04, 0.009);
  REQUIRE(one.size() == 1);
  CHECK_THAT(one[0], WithinAbs(0.0225, 1e-12));
  CHECK(rivet_places(0.039, 0.02, 0.02, 0.04, 0.009).empty());
}

TEST_CASE("no pitch brings rivets nearer to each other than holes may be") {
  const auto places = rivet_places(0.5, 0.02, 0.02, 0.005, 0.009);
  REQUIRE(places.size() > 2);
  CHECK(places[1] - places[0] >= 0.009 - 1e-12);
}

TEST_CASE("a joint reaches along a tube to where the other tube's sides leave it") {
  // Plane geometry by hand: a square corner of 20 mm tubes reaches 10 mm.
  CHECK_THAT(joint_reach(90 * degree, 0.010, 0.010), WithinAbs(0.010, 1e-12));
  CHECK_THAT(joint_reach(90 * degree, 0.010, 0.020), WithinAbs(0.020, 1e-12));
  // At 45 degrees the inner sides of two 20 mm strips meet 10 (1 + cos)/sin = 24.14 mm out.
  CHECK_THAT(joint_reach(45 * degree, 0.010, 0.010), WithinAbs(0.0241421, 1e-7));
  // The corner of a strip's near side on the other's far side: at least its half width over sin.
  for (double angle = 10; angle <= 170; angle += 5) {
    CHECK(joint_reach(angle * degree, 0.010, 0.012) > 0);
  }
  CHECK(joint_reach(179 * degree, 0.010, 0.010) < 0.001);
}

}  // namespace tubewright::rivet_rows_test
