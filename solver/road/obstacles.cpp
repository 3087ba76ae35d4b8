#include "solver/road/obstacles.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace tubewright {

namespace {

/// height * shape(x/L) on even pieces.
template <class Shape>
GroundProfile bump(double length, double spacing, const Shape& shape) {
  assert(length > 0 && spacing > 0 && length / spacing < 1e6);
  const int pieces = std::max(2, static_cast<int>(std::ceil(length / spacing)));
  GroundProfile p;
  for (int i = 0; i <= pieces; ++i) {
    const double share = static_cast<double>(i) / pieces;
    p.x.push_back(share * length);
    p.z.push_back(i == 0 || i == pieces ? 0 : shape(share));
  }
  return p;
}

}  // namespace

GroundProfile edge(double height) { return {{0, 0}, {0, height}}; }

GroundProfile half_sine(double height, double length, double spacing) {
  return bump(length, spacing,
              [&](double share) { return height * std::sin(std::numbers::pi * share); });
}

GroundProfile versed_sine(double height, double length, double spacing) {
  return bump(length, spacing, [&](double share) {
    return height / 2 * (1 - std::cos(2 * std::numbers::pi * share));
  });
}

GroundProfile pothole(double depth, double length) {
  assert(length > 0);
  return {{0, 0, length, length}, {0, -depth, -depth, 0}};
}

}  // namespace tubewright
