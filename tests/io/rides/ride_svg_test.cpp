#include "io/rides/ride_svg.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::ride_svg_test {

namespace {

RideResult two_wheels() {
  RideResult r;
  r.name = "kerb & more";
  r.duration = 3;
  RideWheel left, right;
  left.name = "left";
  left.standing = 100;
  left.peak = 300;
  left.factor = 3;
  left.standard_factor = 2.5;
  right = left;
  right.name = "right";
  right.standard_factor = 0;
  r.wheels = {left, right};
  r.trace.time = {0.5, 1.5, 2.5};
  r.trace.least = {{90, INFINITY, 0}, {95, INFINITY, 99}};
  r.trace.greatest = {{110, -INFINITY, 300}, {105, -INFINITY, 200}};
  return r;
}

size_t count(const std::string& text, const std::string& part) {
  size_t times = 0;
  for (size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++times;
  return times;
}

}  // namespace

TEST_CASE("every wheel has a band, a line at rest, and one where the standard set counts it") {
  const std::string svg = ride_svg(two_wheels());
  CHECK(count(svg, "class=\"force\"") == 2);
  CHECK(count(svg, "class=\"rest\"") == 2);
  CHECK(count(svg, "class=\"standard\"") == 1);
  CHECK(count(svg, "Ride kerb &amp; more") == 1);
  CHECK(count(svg, "inf") == 0);
  CHECK(count(svg, "nan") == 0);
  CHECK(svg.ends_with("</svg>\n"));
}

}  // namespace tubewright::ride_svg_test
