#include "cases/bends/bending.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <utility>

#include "cases/bends/bent_walls.h"
#include "cases/bends/member_arc.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"

namespace tubewright {

BentUnderLoad before_springback(double angle, double radius, double yield, double W_pl, double E,
                                double I) {
  const double curvature = 1 / radius + yield * W_pl / (E * I);
  return {angle * radius * curvature, 1 / curvature};
}

namespace {

struct Ends {
  Eigen::Vector3d from, to;
};

/// The bend that begins with this arc, without its place, its angle and its turn.
TubeBend bend_of(const Frame& frame, const Member& m, const Ends& ends) {
  const SectionEntry& entry = find_section(frame, m.section);
  const Material& material = find_material(frame, entry.material)->properties;
  const Section s = section_of(entry, material);
  const Arc arc = arc_of(*m.arc, ends.from, ends.to, m.roll, entry);
  const bool along_z = centre_along_z(arc);
  const double half_depth = (along_z ? entry.height : entry.width) / 2;
  TubeBend b;
  b.node = m.arc->corner;
  b.radius = m.arc->radius;
  b.towards = arc.towards;
  b.outer_wall = entry.wall * b.radius / (b.radius + half_depth);
  b.inner_wall = entry.wall * b.radius / (b.radius - half_depth);
  b.elongation = half_depth / b.radius;
  const BentUnderLoad of_a_radian = before_springback(
      1, b.radius, material.yield, along_z ? s.Wply : s.Wplz, material.E, along_z ? s.Iy : s.Iz);
  b.die_radius = of_a_radian.radius;
  b.bent_to = of_a_radian.angle;
  return b;
}

/// Normal of the plane that an arc lies in, so that it turns about it by the right hand.
Eigen::Vector3d plane_of(const MemberArc& arc, const Ends& ends) {
  return (ends.from - arc.centre).cross(ends.to - ends.from).normalized();
}

/// From one plane to the next, about the tangent at the second arc's beginning.
double turn_between(const Eigen::Vector3d& before, const Eigen::Vector3d& plane,
                    const MemberArc& arc, const Ends& ends) {
  const Eigen::Vector3d tangent = plane.cross(ends.from - arc.centre).normalized();
  return std::atan2(before.cross(plane).dot(tangent), before.dot(plane));
}

}  // namespace

std::vector<TubeBend> bends_of(const Frame& frame, const std::vector<int>& members) {
  std::unordered_map<std::string, Eigen::Vector3d> at;
  for (const Node& n : frame.nodes) at.emplace(n.name, n.at);
  std::vector<TubeBend> bends;
  Eigen::Vector3d plane = Eigen::Vector3d::Zero();  // of the last bend
  double along = 0;
  for (const int i : members) {
    const Member& m = frame.members[static_cast<std::size_t>(i)];
    const Ends ends{at.at(m.from), at.at(m.to)};
    const double chord = (ends.to - ends.from).norm();
    if (!m.arc) {
      along += chord;
      continue;
    }
    if (bends.empty() || bends.back().node != m.arc->corner) {
      TubeBend b = bend_of(frame, m, ends);
      b.at = along;
      const Eigen::Vector3d before = std::exchange(plane, plane_of(*m.arc, ends));
      if (!bends.empty()) b.turn = turn_between(before, plane, *m.arc, ends);
      bends.push_back(std::move(b));
    }
    const double length = arc_length(*m.arc, chord);
    bends.back().angle += length / m.arc->radius;
    along += length;
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
