// Parts of polygons against plane geometry, and against points drawn at random.
#include "cases/pieces/convex_polygon.h"

#include <cmath>
#include <numbers>
#include <random>

#include "tests/catch.h"

namespace tubewright::convex_polygon_test {

namespace {

const ConvexPolygon rectangle = {{2, 1}, {-2, 1}, {-2, -1}, {2, -1}};

double from_minus_one(std::mt19937& draw) { return draw() / 2147483647.5 - 1; }

Slope random_slope(std::mt19937& draw) {
  return {from_minus_one(draw), {from_minus_one(draw), from_minus_one(draw)}};
}

}  // namespace

TEST_CASE("a line parts a rectangle into triangle and rest: area and corners by hand") {
  const Slope diagonal{-1, {0.5, 1}};  // 0 from (2, 0) to (0, 1)
  const ConvexPolygon corner = part_above(rectangle, diagonal, 0);
  CHECK_THAT(area_of(corner), WithinRel(1.0, 1e-12));
  CHECK_THAT(area_of(part_above(rectangle, Slope{} - diagonal, 0)), WithinRel(7.0, 1e-12));
  CHECK_THAT(least_in(rectangle, diagonal), WithinRel(-3.0, 1e-12));
}

TEST_CASE("nothing is left beyond the polygon, all of it before") {
  CHECK(part_above(rectangle, {-5, {1, 0}}, 0).empty());
  CHECK(part_above(rectangle, {5, {1, 0}}, 0).size() == 4);
  CHECK(part_above({}, {0, {1, 0}}, 0).empty());
}

TEST_CASE("the two parts of a polygon make the whole, however it is parted") {
  std::mt19937 draw(7);
  for (int trial = 0; trial < 200; ++trial) {
    ConvexPolygon whole = rectangle;
    for (int cut = 0; cut < 3; ++cut) {
      const Slope s = random_slope(draw);
      const ConvexPolygon above = part_above(whole, s, 0),
                          below = part_above(whole, Slope{} - s, 0);
      CHECK_THAT(area_of(above) + area_of(below), WithinAbs(area_of(whole), 1e-12));
      whole = area_of(above) > area_of(below) ? above : below;
    }
  }
}

TEST_CASE("areas agree with the share of points drawn at random") {
  std::mt19937 draw(11);
  for (int trial = 0; trial < 10; ++trial) {
    const Slope a = random_slope(draw), b = random_slope(draw);
    int inside = 0;
    constexpr int points = 20000;
    for (int i = 0; i < points; ++i) {
      const Eigen::Vector2d p(2 * from_minus_one(draw), from_minus_one(draw));
      inside += a.value(p) >= 0 && b.value(p) >= 0;
    }
    const double area = area_of(part_above(part_above(rectangle, a, 0), b, 0));
    // Four standard deviations of a share of 20000 points: 0.0142 of 8.
    CHECK_THAT(8.0 * inside / points, WithinAbs(area, 8 * 0.0142));
  }
}

TEST_CASE("the breadth is the height of a triangle over its longest side, and a strip's width") {
  // Sides 3, 4, 5: the least height is 12/5 (Euclid).
  CHECK_THAT(breadth_of({{0, 0}, {3, 0}, {0, 4}}), WithinRel(2.4, 1e-12));
  CHECK_THAT(breadth_of(rectangle), WithinRel(2.0, 1e-12));
  CHECK(breadth_of({{0, 0}, {1, 1}}) == 0);
  CHECK(breadth_of({{0, 0}}) == 0);
  CHECK(breadth_of({}) == 0);
}

TEST_CASE("the breadth does not depend on where a polygon lies or how it is turned") {
  const double c = std::cos(0.7), s = std::sin(0.7);
  ConvexPolygon turned;
  for (const Eigen::Vector2d& p : rectangle) {
    turned.push_back({c * p.x() - s * p.y() + 3, s * p.x() + c * p.y() - 9});
  }
  CHECK_THAT(breadth_of(turned), WithinRel(2.0, 1e-12));
  CHECK_THAT(area_of(turned), WithinRel(8.0, 1e-12));
}

}  // namespace tubewright::convex_polygon_test
