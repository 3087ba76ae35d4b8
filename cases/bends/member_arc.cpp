#include "cases/bends/member_arc.h"

#include <algorithm>
#include <cmath>

#include "cases/bends/bent_walls.h"
#include "solver/elements/beam_element.h"
#include "solver/model/angle.h"

namespace tubewright {

bool bends_on(const Member& a, const Member& b) {
  return !a.tube.empty() && a.tube == b.tube && (a.arc || b.arc) &&
         (a.to == b.from || b.to == a.from);
}

double arc_length(const MemberArc& arc, double chord) {
  return 2 * arc.radius * std::asin(std::min(1.0, chord / (2 * arc.radius)));
}

bool centre_along_z(const Arc& arc) {
  return std::abs(std::sin(arc.towards)) > std::abs(std::cos(arc.towards));
}

bool bends_along_faces(const Arc& arc, const SectionEntry& section) {
  if (section.shape == Shape::round_tube || section.shape == Shape::round_bar) return true;
  const double c = std::abs(std::cos(arc.towards)), s = std::abs(std::sin(arc.towards));
  return std::min(c, s) < std::sin(2 * degree);
}

namespace {

/// In the plane a tube bends about the axis across the way to the centre.
std::array<double, 2> about_y_and_z(const Arc& arc, double in_plane, double out_of_plane) {
  if (centre_along_z(arc)) return {in_plane, out_of_plane};
  return {out_of_plane, in_plane};
}

}  // namespace

Arc arc_of(const MemberArc& arc, const Eigen::Vector3d& from, const Eigen::Vector3d& to,
           double roll, const SectionEntry& section) {
  const Eigen::Vector3d inward = member_axes(from, to, roll) * (arc.centre - (from + to) / 2);
  Arc a;
  a.curvature = 1 / arc.radius;
  a.towards = std::atan2(inward.z(), inward.y());
  if (const auto walls = bent_walls(section, arc.radius, centre_along_z(a))) {
    a.bending = about_y_and_z(a, walls->in_plane, walls->out_of_plane);
  }
  return a;
}

std::optional<std::array<double, 2>> moment_factors(const Arc& arc, const SectionEntry& section) {
  const auto walls = bent_walls(section, 1 / arc.curvature, centre_along_z(arc));
  if (!walls) return std::nullopt;
  const double most = std::max(walls->stress_in_plane, walls->stress_out_of_plane);
  if (!bends_along_faces(arc, section)) return {{most, most}};
  return about_y_and_z(arc, walls->stress_in_plane, walls->stress_out_of_plane);
}

}  // namespace tubewright
