#include "cases/frame/section_of.h"

#include <cmath>

#include "solver/model/section_shapes.h"

namespace tubewright {

namespace {

CornerRadii radii(Corners corners, double wall) {
  switch (corners) {
    case Corners::cold_formed:
      return cold_formed_corners(wall);
    case Corners::hot_finished:
      return hot_finished_corners(wall);
    case Corners::sharp:
      break;
  }
  return {};
}

Section of_shape(const SectionEntry& e, double nu) {
  switch (e.shape) {
    case Shape::square_tube:
    case Shape::rectangular_tube:
      return hollow_rectangle(e.height, e.width, e.wall, radii(e.corners, e.wall), nu);
    case Shape::round_tube:
      return round_tube(e.height, e.wall, nu);
    case Shape::round_bar:
      return round_bar(e.height, nu);
    case Shape::flat_bar:
      return flat_bar(e.height, e.width, nu);
    case Shape::properties:
      break;
  }
  return e.given;
}

}  // namespace

Section section_of(const SectionEntry& entry, const Material& material) {
  Section s = of_shape(entry, poisson_ratio(material));
  if (!entry.shear) s.Ay = s.Az = rigid;
  return s;
}

}  // namespace tubewright
