// The outline of a flat sheet that reaches beyond the lines it is fixed along. Plane geometry.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace tubewright {

/// Corners of a closed line; the last is joined to the first.
using Polygon = std::vector<Eigen::Vector2d>;

/// One side of a rim, from its corner to that of the next side; the sheet lies to its left.
struct RimSide {
  Eigen::Vector2d from = Eigen::Vector2d::Zero();
  double beyond = 0;  ///< how far the sheet reaches to the right of the side
};

/// A corner sharper than 60 degrees is cut off square, as far from the corner as one of 60 degrees
/// with both sides alike would reach: twice what the sheet reaches beyond its sides.
constexpr double farthest_tip = 2;

/// The rim moved outward. Sides meet in their corner; where two in line reach out differently the
/// outline steps, square to them. Corners in line are dropped.
Polygon widened(const std::vector<RimSide>& rim);

/// Shoelace formula: positive if the inside is on the left.
double signed_area(const Polygon& polygon);

/// From a point to the nearest point of the line.
double distance_to(const Polygon& polygon, const Eigen::Vector2d& point);

/// True if two sides that are no neighbours meet.
bool crosses_itself(const Polygon& polygon);

}  // namespace tubewright
