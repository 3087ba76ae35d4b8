#include "cases/bends/bending.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "cases/bends/bent_walls.h"
#include "cases/bends/expand_bends.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"
#include "solver/elements/beam_element.h"

namespace tubewright {

BentUnderLoad before_springback(double angle, double radius, double yield, double W_pl, double E,
                                double I) {
  const double curvature = 1 / radius + yield * W_pl / (E * I);
  return {angle * radius * curvature, 1 / curvature};
}

std::vector<TubeBend> bends_of(const Frame& frame, const std::vector<int>& members) {
  std::unordered_map<std::string, Eigen::Vector3d> at;
  for (const Node& n : frame.nodes) at.emplace(n.name, n.at);
  std::vector<TubeBend> bends;
  double along = 0;
  const MemberArc* open = nullptr;  // the bend that the last member was of
  Eigen::Vector3d plane_before = Eigen::Vector3d::Zero();
  for (const int i : members) {
    const Member& m = frame.members[static_cast<std::size_t>(i)];
    const Eigen::Vector3d &from = at.at(m.from), &to = at.at(m.to);
    const double chord = (to - from).norm();
    if (!m.arc) {
      open = nullptr;
      along += chord;
      continue;
    }
    const double length = arc_length(*m.arc, chord);
    if (open == nullptr || open->centre != m.arc->centre) {
      const SectionEntry& entry = find_section(frame, m.section);
      const Material& material = find_material(frame, entry.material)->properties;
      const Section s = section_of(entry, material);
      const Arc arc = arc_of(*m.arc, from, to, m.roll, entry);
      const bool inward_z = std::abs(std::sin(arc.towards)) > std::abs(std::cos(arc.towards));
      const double depth = inward_z ? entry.height : entry.width;
      TubeBend b;
      b.at = along;
      b.radius = m.arc->radius;
      b.towards = arc.towards;
      // The first arc begins along the tangent to the centre's side.
      const Eigen::Vector3d out = from - m.arc->centre;
      const Eigen::Vector3d plane = out.cross(to - from).normalized();
      if (!bends.empty()) {
        const Eigen::Vector3d tangent = plane.cross(out).normalized();
        b.turn = std::atan2(plane_before.cross(plane).dot(tangent), plane_before.dot(plane));
      }
      plane_before = plane;
      b.outer_wall = entry.wall * b.radius / (b.radius + depth / 2);
      b.inner_wall = entry.wall * b.radius / (b.radius - depth / 2);
      b.elongation = depth / 2 / b.radius;
      const BentUnderLoad loaded =
          before_springback(1, b.radius, material.yield, inward_z ? s.Wply : s.Wplz, material.E,
                            inward_z ? s.Iy : s.Iz);
      b.die_radius = loaded.radius;
      b.bent_to = loaded.angle;  // times the angle, below
      bends.push_back(b);
      open = &*m.arc;
    }
    bends.back().angle += length / m.arc->radius;
    along += length;
    // The node in the middle has the name of the corner: the arcs are called by it.
    const std::size_t dot = m.name.rfind('.');
    bends.back().node = m.name.substr(m.tube.size() + 1, dot - m.tube.size() - 1);
  }
  for (TubeBend& b : bends) b.bent_to *= b.angle;
  return bends;
}

double usual_least_radius(const SectionEntry& section) {
  const bool round = section.shape == Shape::round_tube || section.shape == Shape::round_bar;
  return (round ? 2 : 3) * std::max(section.height, section.width);
}

double greatest_wall_bending(const Frame& frame) {
  double greatest = 0;
  for (const Member& m : frame.members) {
    if (!m.arc) continue;
    for (const bool inward_z : {true, false}) {
      const auto walls = bent_walls(find_section(frame, m.section), m.arc->radius, inward_z);
      if (walls) greatest = std::max(greatest, walls->across);
    }
  }
  return greatest;
}

}  // namespace tubewright
