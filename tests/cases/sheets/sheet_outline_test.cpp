#include "cases/sheets/sheet_outline.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::sheet_outline_test {

using Eigen::Vector2d;

namespace {

std::vector<RimSide> rim(const Polygon& corners, double beyond) {
  std::vector<RimSide> sides;
  for (const Vector2d& p : corners) sides.push_back({p, beyond});
  return sides;
}

/// An isosceles triangle with that angle at the origin, its sides 1 m long.
Polygon wedge(double angle) { return {{0, 0}, {1, 0}, {std::cos(angle), std::sin(angle)}}; }

constexpr double degree = std::numbers::pi / 180;

}  // namespace

TEST_CASE("a convex outline grows by its perimeter and by its corners") {
  // Steiner's formula for mitred corners: A + P w + w^2 sum of tan(turn/2).
  for (const double angle : {60.0, 75.0, 90.0, 120.0}) {
    const Polygon corners = wedge(angle * degree);
    const double w = 0.010, base = 2 * std::sin(angle * degree / 2);
    const double turns[] = {180 - angle, 90 + angle / 2, 90 + angle / 2};
    double tips = 0;
    bool sharp = false;  // the angles at the base fall below 60 degrees with a blunt one on top
    for (const double turn : turns) {
      tips += std::tan(turn * degree / 2);
      sharp = sharp || turn > 120 + 1e-6;
    }
    const double whole = signed_area(corners) + w * (2 + base) + w * w * tips;
    const double area = signed_area(widened(rim(corners, w)));
    INFO(angle);
    if (sharp) {
      CHECK(area < whole);
    } else {
      CHECK_THAT(area, WithinAbs(whole, 1e-12));
    }
  }
}

TEST_CASE("a corner sharper than 60 degrees is cut off at twice the width beyond its sides") {
  const Polygon outline = widened(rim(wedge(30 * degree), 0.010));
  double farthest = 0;
  const Vector2d out(-std::cos(15 * degree), -std::sin(15 * degree));
  for (const Vector2d& p : outline) farthest = std::max(farthest, p.dot(out));
  CHECK(outline.size() == 4);
  CHECK_THAT(farthest, WithinAbs(0.020, 1e-12));
}

TEST_CASE("in a concave corner the sheet reaches into the notch to the tubes' outer faces") {
  // An L: 2 x 2 less its upper right quarter.
  const Polygon outline = widened(rim({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}, 0.1));
  REQUIRE(outline.size() == 6);
  CHECK((outline[3] - Vector2d(1.1, 1.1)).norm() < 1e-12);
  CHECK((outline[0] - Vector2d(-0.1, -0.1)).norm() < 1e-12);
  // By hand: a 2.2 by 2.2 square less a 1.0 by 1.0 one.
  CHECK_THAT(signed_area(outline), WithinAbs(2.2 * 2.2 - 1.0, 1e-12));
}

TEST_CASE("the outline steps where tubes in line differ in width, and runs on where they do not") {
  std::vector<RimSide> sides = rim({{0, 0}, {1, 0}, {2, 0}, {2, 1}, {0, 1}}, 0.01);
  CHECK(widened(sides).size() == 4);
  sides[1].beyond = 0.02;
  const Polygon outline = widened(sides);
  REQUIRE(outline.size() == 6);
  CHECK((outline[1] - Vector2d(1, -0.01)).norm() < 1e-12);
  CHECK((outline[2] - Vector2d(1, -0.02)).norm() < 1e-12);
}

TEST_CASE("a hole gets smaller by what the sheet reaches into it, and may close") {
  // Inside on the left: clockwise round the hole.
  const Polygon hole = {{0, 0}, {0, 1}, {1, 1}, {1, 0}};
  CHECK_THAT(signed_area(widened(rim(hole, 0.1))), WithinAbs(-0.8 * 0.8, 1e-12));
  CHECK(signed_area(widened(rim(hole, 0.6))) < 0);  // turned through itself on both axes
  CHECK(crosses_itself(Polygon{{0, 0}, {1, 1}, {1, 0}, {0, 1}}));
  CHECK_FALSE(crosses_itself(hole));
}

TEST_CASE("area and distance do not depend on where the origin is") {
  Polygon near = wedge(50 * degree), far = near;
  for (Vector2d& p : far) p += Vector2d(1000, -2000);
  CHECK_THAT(signed_area(far), WithinAbs(signed_area(near), 1e-9));
  CHECK_THAT(distance_to(far, Vector2d(1000.5, -2000.25)),
             WithinAbs(distance_to(near, Vector2d(0.5, -0.25)), 1e-9));
  CHECK_THAT(distance_to(near, Vector2d(0.5, -0.25)), WithinAbs(0.25, 1e-12));
}

}  // namespace tubewright::sheet_outline_test
