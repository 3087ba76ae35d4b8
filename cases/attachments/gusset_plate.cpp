#include "cases/attachments/gusset_plate.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/attachments/face_stiffness.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"

namespace tubewright {
namespace {

std::array<double, 2> depths_of(const Frame& frame, const Gusset& g) {
  return {leg_face_depth(find_section(frame, g.legs[0].section), g.legs[0]),
          leg_face_depth(find_section(frame, g.legs[1].section), g.legs[1])};
}

/// How far a face gives way under a push off it by the leg, m/N.
double give_of_face(const Frame& frame, const GussetLeg& leg) {
  const SectionEntry& tube = find_section(frame, leg.section);
  const Material& wall = find_material(frame, tube.material)->properties;
  const TubeWall face{leg_face_width(tube, leg), tube.wall, wall.E, poisson_ratio(wall)};
  return 1 / push_stiffness(face, tab_push_coefficient(leg.length / clear_width(face)));
}

}  // namespace

double leg_face_width(const SectionEntry& tube, const GussetLeg& leg) {
  return leg.on_side ? tube.height : tube.width;
}

double leg_face_depth(const SectionEntry& tube, const GussetLeg& leg) {
  return leg.on_side ? tube.width : tube.height;
}

std::array<double, 2> leg_starts(const std::array<double, 2>& depths, double cos_angle) {
  const double sine = std::sqrt(1 - cos_angle * cos_angle);
  return {(depths[1] + depths[0] * cos_angle) / (2 * sine),
          (depths[0] + depths[1] * cos_angle) / (2 * sine)};
}

std::vector<double> plate_offsets(const Frame& frame, const Gusset& g) {
  if (!g.at_sides) return {0};
  double narrowest = leg_face_width(find_section(frame, g.legs[0].section), g.legs[0]);
  narrowest =
      std::min(narrowest, leg_face_width(find_section(frame, g.legs[1].section), g.legs[1]));
  const double off = (narrowest - g.thickness) / 2;
  return {-off, off};
}

GussetPlate gusset_plate(const Frame& frame, const Gusset& g) {
  const Eigen::Vector3d &a = g.legs[0].along, &b = g.legs[1].along;
  const double cosine = a.dot(b), sine = a.cross(b).norm();
  const std::array<double, 2> depths = depths_of(frame, g);
  const double la = g.legs[0].length, lb = g.legs[1].length;
  GussetPlate p;
  p.plates = g.at_sides ? 2 : 1;
  p.starts = leg_starts(depths, cosine);
  p.inner = {(b - cosine * a) / sine, (a - cosine * b) / sine};
  p.corner = p.starts[0] * a + depths[0] / 2 * p.inner[0];
  p.free_edge = (lb * b - la * a).norm();
  p.height = la * lb * sine / p.free_edge;
  p.area = la * lb * sine / 2;
  const Material& steel = find_material(frame, g.material)->properties;
  p.mass = p.plates * p.area * g.thickness * steel.density;
  p.centroid = p.corner + (la * a + lb * b) / 3;
  const Eigen::Vector3d from = (p.starts[0] + la) * a, to = (p.starts[1] + lb) * b;
  p.bar = (to - from).normalized();
  const Eigen::Vector3d off = p.corner - from;
  p.bar_off = (off - off.dot(p.bar) * p.bar).norm();
  p.stiffness = p.plates * steel.E * g.thickness * p.height / p.free_edge;
  for (std::size_t k = 0; k < 2; ++k) {
    p.push[k] = std::abs(p.bar.dot(p.inner[k]));
    p.shear[k] = std::abs(p.bar.dot(g.legs[k].along));
    const double to_face = depths[k] / 2 * (k == 0 ? -p.bar.dot(a) : p.bar.dot(b)) / p.push[k];
    p.lever[k] = g.legs[k].length / 2 - to_face;
    if (!g.at_sides) p.face_give += p.push[k] * p.push[k] * give_of_face(frame, g.legs[k]);
  }
  return p;
}

void move_to_leg_ends(Frame& frame, const Gusset& g) {
  const auto starts = leg_starts(depths_of(frame, g), g.legs[0].along.dot(g.legs[1].along));
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  for (const Node& node : frame.nodes) {
    if (node.name == g.node) at = node.at;
  }
  for (Node& node : frame.nodes) {
    for (std::size_t k = 0; k < 2; ++k) {
      if (node.name != g.legs[k].axis_node) continue;
      node.at = at + (starts[k] + g.legs[k].length) * g.legs[k].along;
    }
  }
}

}  // namespace tubewright
