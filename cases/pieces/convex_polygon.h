// A convex polygon and what is left of it on one side of a line. Plane geometry.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace tubewright {

/// Corners of a convex polygon in order, either way round; empty: nothing is left.
using ConvexPolygon = std::vector<Eigen::Vector2d>;

/// at + slope . p, over the plane.
struct Slope {
  double at = 0;
  Eigen::Vector2d slope = Eigen::Vector2d::Zero();

  double value(const Eigen::Vector2d& p) const { return at + slope.dot(p); }
};

Slope operator-(const Slope& a, const Slope& b);

/// The part where a slope is `least` or more (Sutherland and Hodgman, Communications of the ACM 17
/// (1974) 32-42, for one line). A part without area may keep corners.
ConvexPolygon part_above(const ConvexPolygon& polygon, const Slope& slope, double least);

double area_of(const ConvexPolygon& polygon);

/// Between the nearest two parallel lines that hold the polygon between them; 0 without area. One
/// of them lies along a side (Houle and Toussaint, IEEE Transactions on Pattern Analysis and
/// Machine Intelligence 10 (1988) 761-765; from memory).
double breadth_of(const ConvexPolygon& polygon);

/// The least value anywhere in it, which is that of a corner. Requires: not empty.
double least_in(const ConvexPolygon& polygon, const Slope& slope);

}  // namespace tubewright
