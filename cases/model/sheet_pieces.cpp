#include "cases/model/sheet_pieces.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <utility>

#include "cases/frame/find_parts.h"
#include "cases/model/tube_face.h"
#include "solver/elements/shear_panel.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

const double one_plane = std::cos(1 * degree);  // of normals

const Sheet& sheet_of(const Frame& frame, int panel) {
  return find_sheet(frame, frame.panels[static_cast<std::size_t>(panel)].sheet);
}

/// How far the face of a member along a sheet is from its axis; NaN where that is not known.
double face_reach(const Frame& frame, const NumberedFrame& n, int member,
                  const Eigen::Vector3d& normal) {
  const auto m = static_cast<std::size_t>(member);
  const SectionEntry& section = find_section(frame, frame.members[m].section);
  return tube_reach(section, n, n.slots[m], normal).face;
}

/// The way the corners of an edge go: each member with the nodes it runs between.
std::vector<PanelSide> sides_round(const NumberedFrame& n, const Panel& panel) {
  std::vector<PanelSide> sides;
  for (std::size_t k = 0; k < 4; ++k) {
    int node = panel.corners[k];
    for (const EdgePiece& piece : panel.edges[k]) {
      const auto index = static_cast<std::size_t>(piece.index);
      const int member = piece.is_beam ? n.member_of_beam[index] : n.member_of_bar[index];
      const auto [from, to] = piece.is_beam
                                  ? std::pair(n.model.beams[index].from, n.model.beams[index].to)
                                  : std::pair(n.model.bars[index].from, n.model.bars[index].to);
      const int next = from == node ? to : from;
      sides.push_back({member, node, next});
      node = next;
    }
  }
  return sides;
}

/// The side that `side` names, else the one the corners' order points to.
Eigen::Vector3d named_side(const Sheet& sheet, const Eigen::Vector3d& normal) {
  if (sheet.side == SheetSide::by_corners) return normal;
  const bool points_up = normal.z() > 0;
  return points_up == (sheet.side == SheetSide::top) ? normal : Eigen::Vector3d(-normal);
}

/// Fills in `out` and `sided`. A sheet without `offset` on tubes of no known depth stays in the
/// plane of their axes.
void find_side(const Frame& frame, const NumberedFrame& n, const Sheet& sheet, PanelFace& face) {
  face.out = named_side(sheet, face.normal);
  if (sheet.offset) {
    face.sided = *sheet.offset != 0;
    if (*sheet.offset < 0) face.out = -face.out;
    return;
  }
  face.sided = std::any_of(face.sides.begin(), face.sides.end(), [&](const PanelSide& s) {
    return !std::isnan(face_reach(frame, n, s.member, face.normal));
  });
}

using PanelsAtMember = std::unordered_map<int, std::vector<int>>;

PanelsAtMember panels_at_members(const std::vector<PanelFace>& faces) {
  PanelsAtMember at;
  for (std::size_t p = 0; p < faces.size(); ++p) {
    for (const PanelSide& s : faces[p].sides) at[s.member].push_back(static_cast<int>(p));
  }
  return at;
}

/// What the panels that are one piece are found from.
struct Faces {
  const Frame& frame;
  const std::vector<Eigen::Vector3d>& nodes;
  const std::vector<PanelFace>& all;
  PanelsAtMember at_member;

  const PanelFace& face(int p) const { return all[static_cast<std::size_t>(p)]; }
  const Eigen::Vector3d& at(int node) const { return nodes[static_cast<std::size_t>(node)]; }
};

bool in_plane_with(const Faces& f, int seed, int p) {
  const PanelFace &first = f.face(seed), &face = f.face(p);
  const double along = first.out.dot(face.out);
  if ((first.sided ? along : std::abs(along)) < one_plane) return false;
  const Eigen::Vector3d& origin = f.at(first.sides.front().from);
  return face.warp <= flat_within &&
         std::all_of(face.sides.begin(), face.sides.end(), [&](const PanelSide& s) {
           return std::abs((f.at(s.from) - origin).dot(first.out)) <= flat_within;
         });
}

/// On either side of a tube that both have.
bool side_by_side(const PanelFace& p, const PanelFace& q, const Eigen::Vector3d& view) {
  const std::vector<PanelSide> of_p = sides_seen_from(p, view), of_q = sides_seen_from(q, view);
  return std::any_of(of_p.begin(), of_p.end(), [&](const PanelSide& a) {
    return std::any_of(of_q.begin(), of_q.end(),
                       [&](const PanelSide& b) { return a.member == b.member && a.from == b.to; });
  });
}

std::vector<int> group_from(const Faces& f, int seed, std::vector<bool>& taken) {
  std::vector<int> group = {seed};
  taken[static_cast<std::size_t>(seed)] = true;
  if (f.face(seed).warp > flat_within) return group;
  for (std::size_t i = 0; i < group.size(); ++i) {
    for (const PanelSide& s : f.face(group[i]).sides) {
      for (const int q : f.at_member.at(s.member)) {
        if (taken[static_cast<std::size_t>(q)]) continue;
        if (sheet_of(f.frame, q).name != sheet_of(f.frame, seed).name) continue;
        if (!in_plane_with(f, seed, q)) continue;
        if (!side_by_side(f.face(group[i]), f.face(q), f.face(seed).out)) continue;
        taken[static_cast<std::size_t>(q)] = true;
        group.push_back(q);
      }
    }
  }
  std::sort(group.begin(), group.end());
  return group;
}

/// From the plane of the axes to the middle of the sheet, on the deepest of the piece's tubes; 0 if
/// the depth of none is known.
double touching_distance(const Frame& frame, const NumberedFrame& n,
                         const std::vector<PanelFace>& faces, const std::vector<int>& piece) {
  const PanelFace& first = faces[static_cast<std::size_t>(piece.front())];
  if (!first.sided) return 0;
  double deepest = 0;
  for (const int p : piece) {
    for (const PanelSide& s : faces[static_cast<std::size_t>(p)].sides) {
      deepest = std::fmax(deepest, face_reach(frame, n, s.member, first.normal));  // NaN: ignored
    }
  }
  return deepest + sheet_of(frame, piece.front()).thickness / 2;
}

void lay_piece(const Frame& frame, NumberedFrame& n, const std::vector<PanelFace>& faces,
               const std::vector<int>& piece, int number) {
  const Sheet& sheet = sheet_of(frame, piece.front());
  const double distance =
      sheet.offset ? std::abs(*sheet.offset) : touching_distance(frame, n, faces, piece);
  for (const int p : piece) {
    const PanelFace& face = faces[static_cast<std::size_t>(p)];
    Panel& panel = n.model.panels[static_cast<std::size_t>(p)];
    panel.piece = number;
    panel.offset = face.out.dot(face.normal) > 0 ? distance : -distance;
  }
}

}  // namespace

std::vector<PanelFace> panel_faces(const Frame& frame, const NumberedFrame& n) {
  std::vector<PanelFace> faces;
  for (std::size_t p = 0; p < n.model.panels.size(); ++p) {
    const Panel& panel = n.model.panels[p];
    const auto at = [&](std::size_t k) -> const Eigen::Vector3d& {
      return n.model.nodes[static_cast<std::size_t>(panel.corners[k])];
    };
    PanelFace face;
    face.normal = panel_geometry(n.model, panel).normal;
    face.warp = std::abs((at(1) - at(0)).dot(face.normal));
    face.sides = sides_round(n, panel);
    find_side(frame, n, sheet_of(frame, static_cast<int>(p)), face);
    faces.push_back(std::move(face));
  }
  return faces;
}

std::vector<PanelSide> sides_seen_from(const PanelFace& face, const Eigen::Vector3d& view) {
  std::vector<PanelSide> sides = face.sides;
  if (face.normal.dot(view) < 0) {
    std::reverse(sides.begin(), sides.end());
    for (PanelSide& s : sides) std::swap(s.from, s.to);
  }
  return sides;
}

std::vector<std::vector<int>> sheet_groups(const Frame& frame, const NumberedFrame& n,
                                           const std::vector<PanelFace>& faces) {
  const Faces f{frame, n.model.nodes, faces, panels_at_members(faces)};
  std::vector<std::vector<int>> groups;
  std::vector<bool> taken(faces.size());
  for (std::size_t p = 0; p < faces.size(); ++p) {
    if (!taken[p]) groups.push_back(group_from(f, static_cast<int>(p), taken));
  }
  return groups;
}

GroupSides sides_of(const std::vector<PanelFace>& faces, const std::vector<int>& group) {
  GroupSides sides;
  std::unordered_map<int, std::size_t> seen;
  const Eigen::Vector3d& view = faces[static_cast<std::size_t>(group.front())].out;
  for (const int p : group) {
    for (const PanelSide& s : sides_seen_from(faces[static_cast<std::size_t>(p)], view)) {
      const auto [known, fresh] = seen.emplace(s.member, sides.all.size());
      if (fresh) {
        sides.all.push_back(s);
        sides.rim.push_back(true);
      } else {
        sides.rim[known->second] = false;
      }
    }
  }
  return sides;
}

bool touches_itself(const std::vector<PanelFace>& faces, const std::vector<int>& group) {
  const GroupSides sides = sides_of(faces, group);
  std::unordered_map<int, int> begun, pieces;
  for (std::size_t i = 0; i < sides.all.size(); ++i) {
    if (sides.rim[i] && ++begun[sides.all[i].from] > 1) return true;
  }
  for (const int p : group) {
    for (const PanelSide& s : faces[static_cast<std::size_t>(p)].sides) {
      if (++pieces[s.member] > 2) return true;
    }
  }
  return false;
}

void lay_sheets(const Frame& frame, NumberedFrame& n) {
  const std::vector<PanelFace> faces = panel_faces(frame, n);
  int number = 0;
  for (const std::vector<int>& group : sheet_groups(frame, n, faces)) {
    if (!touches_itself(faces, group)) {
      lay_piece(frame, n, faces, group, number++);
      continue;
    }
    for (const int p : group) lay_piece(frame, n, faces, {p}, number++);
  }
}

}  // namespace tubewright
