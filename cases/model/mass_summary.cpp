#include "cases/model/mass_summary.h"

#include <Eigen/Geometry>

#include "cases/attachments/gusset_plate.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"

namespace tubewright {

double mass_per_length(const Frame& frame, const Member& member) {
  if (member.kind == MemberKind::spring) return 0;
  const SectionEntry& section = find_section(frame, member.section);
  const Material& material = find_material(frame, section.material)->properties;
  return material.density * section_of(section, material).A;
}

// Two triangles with a common corner; exact for a flat quadrilateral.
PanelMass panel_mass(const Frame& frame, const NumberedFrame& numbered, std::size_t index) {
  const PanelEntry& panel = frame.panels[index];
  const Sheet& sheet = find_sheet(frame, panel.sheet);
  const double per_area =
      sheet.thickness * find_material(frame, sheet.material)->properties.density;
  const auto corner = [&](int i) -> const Eigen::Vector3d& {
    return numbered.model.nodes[numbered.node.at(panel.corners[i])];
  };
  PanelMass p;
  Eigen::Matrix3d second = Eigen::Matrix3d::Zero();  // integral of r r' dm about the first corner
  for (const int i : {1, 2}) {
    const Eigen::Vector3d& a = corner(0);
    const Eigen::Vector3d& b = corner(i);
    const Eigen::Vector3d& c = corner(i + 1);
    const double mass = per_area * (b - a).cross(c - a).norm() / 2;
    p.mass += mass;
    p.centre += mass * (a + b + c) / 3;
    const Eigen::Vector3d u = b - a, v = c - a;
    second += mass / 12 * (u * u.transpose() + v * v.transpose() + (u + v) * (u + v).transpose());
  }
  if (p.mass > 0) p.centre /= p.mass;
  const Eigen::Vector3d r = p.centre - corner(0);
  second -= p.mass * r * r.transpose();
  p.inertia = second.trace() * Eigen::Matrix3d::Identity() - second;
  // The sheet lies off the plane of the tubes' axes, on the side of the corners' right-hand normal.
  p.centre += numbered.model.panels[index].offset *
              (corner(2) - corner(0)).cross(corner(3) - corner(1)).stableNormalized();
  return p;
}

MassSummary mass_summary(const Frame& frame, const NumberedFrame& numbered) {
  MassSummary s;
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();
  for (const Member& m : frame.members) {
    const double mass = mass_per_length(frame, m) * member_length(numbered, m);
    s.tubes += mass;
    moment += mass / 2 *
              (numbered.model.nodes[numbered.node.at(m.from)] +
               numbered.model.nodes[numbered.node.at(m.to)]);
  }
  for (const Gusset& g : frame.gussets) {
    const GussetPlate plate = gusset_plate(frame, g);
    s.tubes += plate.mass;
    moment += plate.mass * (numbered.model.nodes[numbered.node.at(g.node)] + plate.centroid);
  }
  for (std::size_t i = 0; i < frame.panels.size(); ++i) {
    const PanelMass p = panel_mass(frame, numbered, i);
    s.panels += p.mass;
    moment += p.mass * p.centre;
  }
  for (const CarriedMass& m : frame.masses) {
    s.carried += m.mass;
    moment += m.mass * m.at;
  }
  s.total = s.tubes + s.panels + s.carried;
  if (s.total > 0) s.centre = moment / s.total;
  return s;
}

}  // namespace tubewright
