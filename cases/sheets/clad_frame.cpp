#include "cases/sheets/clad_frame.h"

#include <cmath>

#include "cases/frame/find_parts.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

const double out_of_plane = std::sin(20 * degree);

}  // namespace

CladFrame clad_frame(const Frame& frame) {
  CladFrame f{frame, build_model(frame), layout_of(frame), {}, {}, {}};
  f.faces = panel_faces(frame, f.numbered);
  for (std::size_t p = 0; p < f.faces.size(); ++p) {
    for (const PanelSide& s : f.faces[p].sides) {
      f.panels_at[s.member].push_back(static_cast<int>(p));
    }
  }
  for (std::size_t m = 0; m < frame.members.size(); ++m) {
    const std::string& tube = frame.members[m].tube;
    if (!tube.empty()) f.first_of_tube.emplace(tube, static_cast<int>(m));
  }
  return f;
}

const Sheet& sheet_of(const CladFrame& f, int panel) {
  return find_sheet(f.frame, f.panel(panel).sheet);
}

const SectionEntry& section_of_member(const CladFrame& f, int member) {
  return find_section(f.frame, f.member(member).section);
}

bool has_section(const CladFrame& f, int member) { return !f.member(member).section.empty(); }

TubeFace face_of_tube(const CladFrame& f, int member, const Eigen::Vector3d& normal) {
  return tube_face(section_of_member(f, member), f.numbered,
                   f.numbered.slots[static_cast<std::size_t>(member)], normal);
}

Eigen::Vector3d away_from(const CladFrame& f, int node, int member) {
  return (f.at(f.layout.other_end(member, node)) - f.at(node)).normalized();
}

bool leaves_plane(const CladFrame& f, int node, int member, const Eigen::Vector3d& normal) {
  return std::abs(away_from(f, node, member).dot(normal)) > out_of_plane;
}

bool comes_through(const CladFrame& f, int node, int member, const Eigen::Vector3d& out,
                   bool sided) {
  if (!has_section(f, member) || !leaves_plane(f, node, member, out)) return false;
  return !sided || away_from(f, node, member).dot(out) > 0;
}

Eigen::Vector3d outside(const CladFrame& f, int panel) { return f.face(panel).out; }

}  // namespace tubewright
