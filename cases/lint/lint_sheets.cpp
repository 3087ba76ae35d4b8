// Doubts about sheets: off their tubes, on both sides of one; rivets too far apart, too near the
// edge, of the wrong size; skewed panels.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <unordered_set>
#include <utility>
#include <vector>

#include "cases/frame/wording.h"
#include "cases/joints/panel_result.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/lint_warnings.h"
#include "cases/lint/sheet_contact.h"
#include "cases/model/build_model.h"
#include "cases/model/sheet_pieces.h"
#include "solver/elements/shear_panel.h"
#include "solver/elements/sheet_joint.h"

namespace tubewright {
namespace {

constexpr double mm = 1e-3;

/// EN 1993-1-3 Table 8.1 (from memory): p >= 3 d; a panel that is to carry shear wants rivets no
/// farther apart than 50 mm or 30 t, whichever is more (judgement).
void check_pitch(const Sheet& s, Diagnostics& diagnostics) {
  const RivetJoint& r = *s.rivet;
  if (r.pitch < 3 * r.diameter) {
    add_warning(diagnostics, s.place, rivets_too_close(s.name, r.pitch, r.diameter));
  }
  const double farthest = std::max(50 * mm, 30 * s.thickness);
  if (r.pitch > farthest * (1 + 1e-9)) {
    add_warning(diagnostics, s.place, rivets_too_far_apart(s.name, r.pitch, farthest));
  }
}

/// EN 1993-1-3 Table 8.1 (from memory): 2.6 to 6.4 mm.
void check_diameter(const Sheet& s, Diagnostics& diagnostics) {
  const double d = s.rivet->diameter;
  if (d < 2.6 * mm || d > 6.4 * mm) {
    add_warning(diagnostics, s.place, rivet_size_outside_rules(s.name, d));
  }
  if (s.rivet->stiffness) {
    constexpr double aluminium = 70e9, steel = 210e9;
    // The stiffest there is: a solid steel rivet into a steel plate as thick as two of the sheet.
    const double most =
        1 / solid_rivet_flexibility(d, steel, {s.thickness, aluminium}, {2 * s.thickness, steel});
    if (*s.rivet->stiffness > most) {
      add_warning(diagnostics, s.place, rivets_too_stiff(s.name, *s.rivet->stiffness, most));
    }
  }
}

/// EN 1993-1-3 Table 8.1 (from memory): e >= 1.5 d; 2 d is better practice. The row runs along the
/// middle of the tube's face.
void check_edge_distance(const Frame& frame, const NumberedFrame& n, const Sheet& s,
                         Diagnostics& diagnostics) {
  PanelFacts nearest;
  nearest.edge_distance = INFINITY;
  for (size_t p = 0; p < frame.panels.size(); ++p) {
    if (frame.panels[p].sheet != s.name) continue;
    const PanelFacts facts = panel_facts(frame, n, p);
    if (facts.edge_distance < nearest.edge_distance) nearest = facts;
  }
  const double e = nearest.edge_distance, d = s.rivet->diameter;
  if (!(e < 2 * d)) return;
  add_warning(diagnostics, s.place,
              rivets_near_edge(s.name, frame.members[nearest.narrowest].name, e, d));
}

void check_links(const Frame& frame, const NumberedFrame& n, size_t p, Diagnostics& diagnostics) {
  for (const int m : members_round(n, n.model.panels[p])) {
    if (n.slots[m].is_beam) continue;
    add_warning(diagnostics, frame.panels[p].place,
                panel_on_link(frame.panels[p].name, frame.members[m].name));
  }
}

void check_skew(const Frame& frame, const NumberedFrame& n, size_t p, Diagnostics& diagnostics) {
  std::array<Eigen::Vector3d, 4> corners;
  for (int k = 0; k < 4; ++k) corners[k] = n.model.nodes[n.model.panels[p].corners[k]];
  constexpr double nearly_square = 1.10;
  const double ratio = ray_field_ratio(corners, panel_facts(frame, n, p).nu);
  if (ratio < nearly_square) return;
  add_warning(diagnostics, frame.panels[p].place,
              panel_skewed(frame.panels[p].name, 1 - 1 / ratio));
}

/// Of every sheet the first two panels that would be one piece if they lay on one side. A tube with
/// more of its panels has them above and below.
void check_sides(const Frame& frame, const NumberedFrame& n, Diagnostics& diagnostics) {
  struct Place {
    size_t panel;
    PanelSide side;
  };
  constexpr double back_to_back = -0.9998;  // of normals, within a degree
  const std::vector<PanelFace> faces = panel_faces(frame, n);
  std::map<std::pair<std::string, int>, std::vector<Place>> along;  // by sheet and member
  for (size_t p = 0; p < faces.size(); ++p) {
    for (const PanelSide& s : faces[p].sides) {
      along[{frame.panels[p].sheet, s.member}].push_back({p, s});
    }
  }
  std::unordered_set<std::string> told;
  for (const auto& [key, places] : along) {
    if (places.size() != 2 || told.contains(key.first)) continue;
    const PanelFace &first = faces[places[0].panel], &second = faces[places[1].panel];
    const bool side_by_side = places[0].side.from == places[1].side.from;  // seen from two sides
    if (!side_by_side || !first.sided || first.out.dot(second.out) > back_to_back) continue;
    told.insert(key.first);
    const PanelEntry &a = frame.panels[places[0].panel], &b = frame.panels[places[1].panel];
    add_warning(
        diagnostics, b.place,
        panels_on_opposite_sides(key.first, a.name, b.name, frame.members[key.second].name));
  }
}

}  // namespace

Diagnostics lint_sheets(const Frame& frame) {
  Diagnostics diagnostics;
  if (frame.panels.empty()) return diagnostics;
  append(diagnostics, contact_doubts(frame).warnings);
  const NumberedFrame n = build_model(frame);
  check_sides(frame, n, diagnostics);
  std::unordered_set<std::string> used;
  for (const PanelEntry& p : frame.panels) used.insert(p.sheet);
  for (const Sheet& s : frame.sheets) {
    if (!s.rivet || !used.contains(s.name) || diagnostics.size() >= most_of_a_kind) continue;
    check_pitch(s, diagnostics);
    check_diameter(s, diagnostics);
    check_edge_distance(frame, n, s, diagnostics);
  }
  for (size_t p = 0; p < frame.panels.size() && diagnostics.size() < most_of_a_kind; ++p) {
    check_links(frame, n, p, diagnostics);
    check_skew(frame, n, p, diagnostics);
  }
  return diagnostics;
}

}  // namespace tubewright
