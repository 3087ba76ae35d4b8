#include "cases/pieces/convex_polygon.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tubewright {

namespace {

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
  return a.x() * b.y() - a.y() * b.x();
}

}  // namespace

Slope operator-(const Slope& a, const Slope& b) { return {a.at - b.at, a.slope - b.slope}; }

ConvexPolygon part_above(const ConvexPolygon& polygon, const Slope& slope, double least) {
  ConvexPolygon part;
  for (size_t i = 0; i < polygon.size(); ++i) {
    const Eigen::Vector2d &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    const double at_a = slope.value(a) - least, at_b = slope.value(b) - least;
    if (at_a >= 0) part.push_back(a);
    if ((at_a < 0 && at_b > 0) || (at_a > 0 && at_b < 0)) {
      part.push_back(a + at_a / (at_a - at_b) * (b - a));
    }
  }
  return part;
}

double area_of(const ConvexPolygon& polygon) {
  double twice = 0;
  for (size_t i = 2; i < polygon.size(); ++i) {
    twice += cross(polygon[i - 1] - polygon[0], polygon[i] - polygon[0]);
  }
  return std::abs(twice) / 2;
}

double breadth_of(const ConvexPolygon& polygon) {
  constexpr double no_side = 1e-12;  // m: two corners in one place
  double least = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i < polygon.size(); ++i) {
    const Eigen::Vector2d side = polygon[(i + 1) % polygon.size()] - polygon[i];
    if (side.norm() < no_side) continue;
    double farthest = 0;
    for (const Eigen::Vector2d& p : polygon) {
      farthest = std::max(farthest, std::abs(cross(side, p - polygon[i])) / side.norm());
    }
    least = std::min(least, farthest);
  }
  return std::isfinite(least) ? least : 0;
}

double least_in(const ConvexPolygon& polygon, const Slope& slope) {
  double least = std::numeric_limits<double>::infinity();
  for (const Eigen::Vector2d& p : polygon) least = std::min(least, slope.value(p));
  return least;
}

}  // namespace tubewright
