// Arcs of one flat bend; lengths and directions by hand.
#include "cases/bends/member_arc.h"

#include <numbers>

#include "tests/cases/small_frames.h"

namespace tubewright::member_arc_test {

namespace {

using namespace tubewright::testing;

constexpr double pi = std::numbers::pi;

/// An eighth of a circle of 100 mm round the vertical through (0.4, 0.1).
const MemberArc eighth = {0.1, {0.4, 0.1, 0}, "corner"};
const Eigen::Vector3d start(0.4, 0, 0),
    stop(0.4 + 0.1 * std::sin(pi / 4), 0.1 - 0.1 * std::cos(pi / 4), 0);

Arc arc(double roll, const SectionEntry& section) {
  return arc_of(eighth, start, stop, roll, section);
}

}  // namespace

TEST_CASE("an arc is longer than its chord, by R theta") {
  CHECK_THAT(arc_length(eighth, (stop - start).norm()), WithinRel(0.1 * pi / 4, 1e-12));
}

TEST_CASE(
    "the centre lies to the left of a left turn, on y if the tube lies flat, on z on its side") {
  const SectionEntry tube = empty_frame().sections[0];
  const Arc flat = arc(0, tube), on_side = arc(pi / 2, tube);
  CHECK_THAT(flat.curvature, WithinRel(10.0, 1e-12));
  CHECK_THAT(flat.towards, WithinAbs(0, 1e-12));
  CHECK(!centre_along_z(flat));
  CHECK(centre_along_z(on_side));
  // Soft in the plane of the bend: about z, or turned on its side about y.
  CHECK(flat.bending[0] == 1);
  CHECK(flat.bending[1] < 1);
  CHECK(on_side.bending[0] < 1);
  CHECK(on_side.bending[1] == 1);
}

TEST_CASE("a tube goes on into an arc of its own, not into a neighbour nor over a mitre") {
  Member a, b;
  a.tube = b.tube = "hoop";
  a.from = "w";
  a.to = b.from = "x";
  b.to = "z";
  CHECK(!bends_on(a, b));
  b.arc = eighth;
  CHECK(bends_on(a, b));
  CHECK(bends_on(b, a));
  b.from = "y";
  CHECK(!bends_on(a, b));
  b.from = "x";
  b.tube = "rail";
  CHECK(!bends_on(a, b));
}

TEST_CASE("a bend over the corners of a square tube is seen, and counts for both axes") {
  SectionEntry tube = empty_frame().sections[0];
  for (const double roll : {0.0, pi / 4}) {
    const Arc a = arc(roll, tube);
    CHECK(bends_along_faces(a, tube) == (roll == 0));
    const auto factors = moment_factors(a, tube);
    REQUIRE(factors);
    CHECK((*factors)[1] > 1);  // flat bend, z up: bending about z is in its plane
    CHECK(((*factors)[0] == 1) == (roll == 0));
  }
  tube.shape = Shape::properties;
  CHECK(!moment_factors(arc(0, tube), tube));
  tube.shape = Shape::round_tube;
  CHECK(bends_along_faces(arc(0.5, tube), tube));
}

}  // namespace tubewright::member_arc_test
