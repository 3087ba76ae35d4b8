#include "cases/sheets/clad_frame.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "cases/frame/find_parts.h"
#include "solver/elements/shear_panel.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

const double out_of_plane = std::sin(20 * degree);

PanelFace face_of(const CladFrame& f, const Panel& panel) {
  PanelFace face;
  face.normal = panel_geometry(f.numbered.model, panel).normal;
  face.warp = std::abs((f.at(panel.corners[1]) - f.at(panel.corners[0])).dot(face.normal));
  for (std::size_t k = 0; k < 4; ++k) {
    int node = panel.corners[k];
    for (const EdgePiece& piece : panel.edges[k]) {
      const auto index = static_cast<std::size_t>(piece.index);
      const int m =
          piece.is_beam ? f.numbered.member_of_beam[index] : f.numbered.member_of_bar[index];
      const int next = f.layout.other_end(m, node);
      face.sides.push_back({m, node, next});
      node = next;
    }
  }
  return face;
}

}  // namespace

CladFrame clad_frame(const Frame& frame) {
  CladFrame f{frame, build_model(frame), layout_of(frame), {}, {}, {}};
  for (const Panel& panel : f.numbered.model.panels) f.faces.push_back(face_of(f, panel));
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
                   double offset) {
  if (!has_section(f, member) || !leaves_plane(f, node, member, out)) return false;
  return offset == 0 || away_from(f, node, member).dot(out) > 0;
}

Eigen::Vector3d outside(const CladFrame& f, int panel) {
  const Eigen::Vector3d& normal = f.face(panel).normal;
  return sheet_of(f, panel).offset < 0 ? Eigen::Vector3d(-normal) : normal;
}

std::vector<PanelSide> sides_seen_from(const CladFrame& f, int panel, const Eigen::Vector3d& view) {
  std::vector<PanelSide> sides = f.face(panel).sides;
  if (f.face(panel).normal.dot(view) < 0) {
    std::reverse(sides.begin(), sides.end());
    for (PanelSide& s : sides) std::swap(s.from, s.to);
  }
  return sides;
}

}  // namespace tubewright
