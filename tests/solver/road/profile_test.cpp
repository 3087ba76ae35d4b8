// Heights along a polyline against what is drawn.
#include "solver/road/profile.h"

#include <limits>

#include "tests/catch.h"

namespace tubewright::profile_test {

namespace {

// Level, up a slope, a vertical edge down, level.
const GroundProfile bank{{0, 2, 2, 3}, {1, 2, 0.5, 0.5}};

}  // namespace

TEST_CASE("a profile is interpolated, level beyond its ends, behind an edge at its x") {
  CHECK(height(bank, -5) == 1);
  CHECK(height(bank, 0) == 1);
  CHECK(height(bank, 1) == 1.5);
  CHECK(height(bank, 2) == 0.5);
  CHECK_THAT(height(bank, std::nextafter(2, 0)), WithinAbs(2, 1e-12));
  CHECK(height(bank, 9) == 0.5);
  CHECK(slope(bank, -1) == 0);
  CHECK(slope(bank, 0) == 0.5);
  CHECK(slope(bank, 2) == 0);
  CHECK(slope(bank, 9) == 0);
}

TEST_CASE("without vertices the ground is level at 0, with one at its height") {
  CHECK(height(GroundProfile{}, 3) == 0);
  CHECK(slope(GroundProfile{}, 3) == 0);
  CHECK(height(GroundProfile{{1}, {0.2}}, 0) == 0.2);
  CHECK(height(GroundProfile{{1}, {0.2}}, 2) == 0.2);
}

TEST_CASE("a shifted profile is the same farther on") {
  const GroundProfile far = shifted(bank, 10);
  for (const double x : {-1.0, 0.3, 1.9, 2.0, 2.5, 4.0}) {
    CHECK_THAT(height(far, x + 10), WithinAbs(height(bank, x), 1e-12));
  }
}

TEST_CASE("what is no profile is told") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(is_ground_profile({}));
  CHECK(is_ground_profile(bank));
  CHECK_FALSE(is_ground_profile({{0, 1}, {0}}));
  CHECK_FALSE(is_ground_profile({{1, 0}, {0, 0}}));
  CHECK_FALSE(is_ground_profile({{0, nan}, {0, 0}}));
  CHECK_FALSE(is_ground_profile({{0, 1}, {nan, 0}}));
  CHECK_FALSE(is_ground_profile({{0, std::numeric_limits<double>::infinity()}, {0, 0}}));
}

}  // namespace tubewright::profile_test
