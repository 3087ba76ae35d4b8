#include "cases/bends/bent_walls.h"

#include <algorithm>
#include <cmath>

namespace tubewright {
namespace {

constexpr double nu = 0.3;

/// b (3 (1 - nu^2))^(1/4)/sqrt(R t): the wall's width against the length over which it gives way.
double curved_wall_number(double width, double wall, double radius) {
  return width * std::pow(3 * (1 - nu * nu), 0.25) / std::sqrt(radius * wall);
}

}  // namespace

BentWalls bent_round_tube(double diameter, double wall, double radius) {
  const double r = (diameter - wall) / 2;
  const double h = wall * radius / (r * r);
  // Von Karman's first term, or the law of small h where that has more.
  const double softer = std::max((10 + 12 * h * h) / (1 + 12 * h * h), 1.65 / h);
  BentWalls w;
  w.in_plane = w.out_of_plane = 1 / softer;
  w.stress_in_plane = w.stress_out_of_plane = std::max(1.0, 0.9 / std::pow(h, 2.0 / 3));
  return w;
}

BentWalls bent_box(double depth_in_plane, double width, double wall, double radius) {
  const double b = width - wall, h = depth_in_plane - wall;
  const double x = curved_wall_number(b, wall, radius);
  const double sum = std::sinh(x) + std::sin(x);
  const double share = 2 / x * (std::cosh(x) - std::cos(x)) / sum;
  // b h^2/2 of the two curved walls and h^3/6 of the flat ones, each times the wall.
  const double of_curved = 3 * b / (3 * b + h);
  BentWalls w;
  w.in_plane = 1 - of_curved * (1 - share);
  w.stress_in_plane = 1 / w.in_plane;
  w.across = std::sqrt(3 / (1 - nu * nu)) * (std::sinh(x) - std::sin(x)) / sum;
  return w;
}

std::optional<BentWalls> bent_walls(const SectionEntry& section, double radius, bool inward_z) {
  switch (section.shape) {
    case Shape::square_tube:
    case Shape::rectangular_tube:
      return inward_z ? bent_box(section.height, section.width, section.wall, radius)
                      : bent_box(section.width, section.height, section.wall, radius);
    case Shape::round_tube:
      return bent_round_tube(section.height, section.wall, radius);
    case Shape::round_bar:
    case Shape::flat_bar:
      return BentWalls{};
    case Shape::properties:
      break;
  }
  return std::nullopt;
}

}  // namespace tubewright
