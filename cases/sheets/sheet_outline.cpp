#include "cases/sheets/sheet_outline.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tubewright {

namespace {

using Eigen::Vector2d;

constexpr double no_corner = 1e-4;   // rad: no corner to be seen
constexpr double same_width = 1e-6;  // m

double cross(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

Vector2d right_of(const Vector2d& direction) { return {direction.y(), -direction.x()}; }

/// What stands at a corner between a side that comes in direction `d0` and one that goes on in
/// `d1`, measured from the corner.
Polygon corner(const Vector2d& d0, double beyond0, const Vector2d& d1, double beyond1) {
  const Vector2d out0 = right_of(d0), out1 = right_of(d1);
  const double turn = std::atan2(cross(d0, d1), d0.dot(d1));
  if (std::abs(turn) < no_corner) {
    if (std::abs(beyond0 - beyond1) < same_width) return {};
    return {beyond0 * out0, beyond1 * out1};
  }
  // Where the two moved lines meet: out0 . q = beyond0, out1 . q = beyond1.
  const double det = cross(out0, out1);
  const Vector2d q((beyond0 * out1.y() - beyond1 * out0.y()) / det,
                   (beyond1 * out0.x() - beyond0 * out1.x()) / det);
  const double farthest = farthest_tip * std::max(beyond0, beyond1);
  if (q.norm() <= farthest * (1 + 1e-9)) return {q};
  constexpr double nearly_straight = 0.5;  // rad: lines far apart that meet far away
  if (std::abs(turn) < nearly_straight) return {beyond0 * out0, beyond1 * out1};
  if (turn < 0) return {q};  // a notch: as deep as its tubes leave it
  const Vector2d tip = (d0 - d1).normalized();
  return {beyond0 * out0 + (farthest - beyond0 * tip.dot(out0)) / tip.dot(d0) * d0,
          beyond1 * out1 + (farthest - beyond1 * tip.dot(out1)) / tip.dot(d1) * d1};
}

double distance_to_side(const Vector2d& a, const Vector2d& b, const Vector2d& p) {
  const Vector2d side = b - a;
  const double along = std::clamp((p - a).dot(side) / side.squaredNorm(), 0.0, 1.0);
  return (p - a - along * side).norm();
}

bool meet(const Vector2d& a, const Vector2d& b, const Vector2d& c, const Vector2d& d) {
  const auto apart = [](const Vector2d& p, const Vector2d& q, const Vector2d& r,
                        const Vector2d& s) {
    return cross(q - p, r - p) * cross(q - p, s - p) > 0;
  };
  const bool boxes = (a.cwiseMin(b).array() <= c.cwiseMax(d).array()).all() &&
                     (c.cwiseMin(d).array() <= a.cwiseMax(b).array()).all();
  return boxes && !apart(a, b, c, d) && !apart(c, d, a, b);
}

}  // namespace

Polygon widened(const std::vector<RimSide>& rim) {
  const std::size_t n = rim.size();
  const auto direction = [&](std::size_t i) {
    return Vector2d((rim[(i + 1) % n].from - rim[i % n].from).normalized());
  };
  Polygon outline;
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t before = (i + n - 1) % n;
    for (const Vector2d& q :
         corner(direction(before), rim[before].beyond, direction(i), rim[i].beyond)) {
      outline.push_back(rim[i].from + q);
    }
  }
  return outline;
}

double signed_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    // From the first corner, so that nothing is lost far from the origin.
    twice += cross(polygon[i] - polygon[0], polygon[(i + 1) % polygon.size()] - polygon[0]);
  }
  return twice / 2;
}

double distance_to(const Polygon& polygon, const Vector2d& point) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    least = std::min(least, distance_to_side(polygon[i], polygon[(i + 1) % polygon.size()], point));
  }
  return least;
}

bool crosses_itself(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue;
      if (meet(polygon[i], polygon[i + 1], polygon[j], polygon[(j + 1) % n])) return true;
    }
  }
  return false;
}

}  // namespace tubewright
