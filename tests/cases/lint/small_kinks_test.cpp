// Turns of a path, by the angle they were drawn with.
#include "cases/lint/small_kinks.h"

#include <cmath>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::small_kinks_test {

using namespace tubewright::testing;

namespace {

/// From A by B to C, turning by `angle` at B; one tube, or two.
Frame bent(double angle, const std::string& second = "rail") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 0.5 + 0.5 * std::cos(angle), 0.5 * std::sin(angle), 0);
  add_member(f, "rail.1", "A", "B").tube = "rail";
  add_member(f, "rail.2", "B", "C").tube = second;
  return f;
}

std::vector<SmallKink> kinks(const Frame& f) { return small_kinks(f, layout_of(f)); }

}  // namespace

TEST_CASE("a kink below 30 degrees has its node and its angle") {
  for (const double degrees : {0.1, 1.0, 10.0, 29.9}) {
    const std::vector<SmallKink> found = kinks(bent(degrees * degree));
    REQUIRE(found.size() == 1);
    CHECK(found[0].after == 1);
    CHECK(found[0].node == "B");
    CHECK_THAT(found[0].angle, WithinAbs(degrees * degree, 1e-12));
  }
}

TEST_CASE("a straight tube, a clear corner and two tubes have none") {
  for (const double degrees : {0.0, 0.01, 30.1, 90.0, 170.0}) {
    CHECK(kinks(bent(degrees * degree)).empty());
  }
  CHECK(kinks(bent(10 * degree, "other")).empty());
}

}  // namespace tubewright::small_kinks_test
