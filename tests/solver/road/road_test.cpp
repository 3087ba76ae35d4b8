// The window of a road against the road, and its size.
#include "solver/road/road.h"

#include "solver/road/obstacles.h"
#include "tests/catch.h"

namespace tubewright::road_test {

namespace {

RandomRoad two_tracks() {
  RandomRoadOptions o;
  o.tracks = {-0.4, 0.4};
  o.lines = 60;
  RoadSpectrum s;
  s.level = *class_level('C');
  return random_road(s, o);
}

}  // namespace

TEST_CASE("given tracks are there all the time") {
  Road road({edge(0.05), GroundProfile{}});
  CHECK(road.tracks() == 2);
  road.cover(-1e6, 1e6);
  CHECK(height(road.window(0), 1) == 0.05);
  CHECK(height(road.window(1), 1) == 0);
}

TEST_CASE("a window holds the sum's heights at its vertices, beyond both of its ends") {
  const RandomRoad sum = two_tracks();
  Road road(sum, 0.01);
  REQUIRE(road.tracks() == 2);
  for (double from = -7; from < 60; from += 3.7) {
    const double to = from + 2.5;
    road.cover(from, to);
    for (int t = 0; t < 2; ++t) {
      const GroundProfile& w = road.window(t);
      REQUIRE(is_ground_profile(w));
      CHECK(w.x.front() <= from);
      CHECK(w.x.back() >= to);
      for (double x = std::ceil(from * 100) / 100; x < to; x += 0.37) {
        CHECK_THAT(height(w, std::round(x * 100) / 100),
                   WithinAbs(height(sum, t, std::round(x * 100) / 100), 1e-9));
      }
    }
  }
}

TEST_CASE("a window does not grow with the way, whatever the steps") {
  Road road(two_tracks(), 0.01);
  const double blocks = 4 * RoadSampler::block;
  for (double from = 0; from < 3000; from += 0.71) {
    road.cover(from, from + 2);
    REQUIRE(static_cast<double>(road.window(0).x.size()) < blocks);
  }
  road.cover(1e5, 1e5 + 1);  // far ahead
  CHECK(road.window(1).x.front() <= 1e5);
  CHECK(road.window(1).x.front() > 9e4);
  CHECK(road.window(1).x.back() >= 1e5 + 1);
}

TEST_CASE("the ground is the same bits for any windows") {
  Road one(two_tracks(), 0.01), other(two_tracks(), 0.01);
  one.cover(0, 100);
  for (double from = 0; from < 90; from += 9) other.cover(from, from + 10);
  for (double x = 89; x < 91; x += 0.003) {
    CHECK(height(one.window(0), x) == height(other.window(0), x));
  }
}

}  // namespace tubewright::road_test
