// Doubts about sheets: rivets too far apart, too near the edge, of the wrong size; skewed panels.
#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <unordered_map>
#include <unordered_set>

#include "cases/build_model.h"
#include "cases/built_in_materials.h"
#include "cases/findings.h"
#include "cases/lint_parts.h"
#include "cases/sheet_joint_stiffness.h"
#include "solver/shear_panel.h"
#include "solver/sheet_joint.h"

namespace tubewright {
namespace {

constexpr double mm = 1e-3;

std::string in_diameters(double ratio) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", ratio);
  return text;
}

/// EN 1993-1-3 Table 8.1 (from memory): p >= 3 d; a panel that is to carry shear wants rivets no
/// farther apart than 50 mm or 30 t, whichever is more (judgement).
void check_pitch(const Sheet& s, Problems& problems) {
  const RivetJoint& r = *s.rivet;
  if (r.pitch < 3 * r.diameter) {
    add_warning(
        problems, s.place,
        "rivets of sheet " + quoted(s.name) + " stand " + in_diameters(r.pitch / r.diameter) +
            " diameters apart",
        "at least 3 diameters, or the sheet tears from hole to hole (EN 1993-1-3 Table 8.1)");
  }
  const double farthest = std::max(50 * mm, 30 * s.thickness);
  if (r.pitch > farthest * (1 + 1e-9)) {
    add_warning(problems, s.place,
                "rivets of sheet " + quoted(s.name) + " stand " + in_mm(r.pitch) + " apart",
                "at most " + in_mm(farthest) +
                    " for a sheet that is to carry shear (judgement); it gapes between them");
  }
}

/// EN 1993-1-3 Table 8.1 (from memory): 2.6 to 6.4 mm.
void check_diameter(const Sheet& s, Problems& problems) {
  const double d = s.rivet->diameter;
  if (d < 2.6 * mm || d > 6.4 * mm) {
    add_warning(problems, s.place, "sheet " + quoted(s.name) + " has rivets of " + in_mm(d),
                "the rules used here are for blind rivets of 2.6 to 6.4 mm");
  }
  if (s.rivet->stiffness) {
    constexpr double aluminium = 70e9, steel = 210e9;
    // The stiffest there is: a solid steel rivet into a steel plate as thick as two of the sheet.
    const double most =
        1 / solid_rivet_flexibility(d, steel, {s.thickness, aluminium}, {2 * s.thickness, steel});
    if (*s.rivet->stiffness > most) {
      char text[64];
      std::snprintf(text, sizeof text, "%.1f kN/mm", *s.rivet->stiffness * 1e-6);
      char bound[64];
      std::snprintf(bound, sizeof bound, "%.0f kN/mm", most * 1e-6);
      add_warning(problems, s.place,
                  "rivets of sheet " + quoted(s.name) + " have a stiffness of " + text,
                  std::string("even a solid steel rivet has no more than ") + bound +
                      " there (Huth 1986); `stiffness` is that of one rivet, in kN/mm");
    }
  }
}

/// EN 1993-1-3 Table 8.1 (from memory): e >= 1.5 d; 2 d is better practice. The row runs along the
/// middle of the tube's face.
void check_edge_distance(const Frame& frame, const Sheet& s,
                         const std::vector<double>& side_of_member, const Layout& layout,
                         Problems& problems) {
  double narrowest = INFINITY;
  std::string tube;
  std::unordered_map<std::string, int> node;
  for (size_t i = 0; i < frame.nodes.size(); ++i)
    node.emplace(frame.nodes[i].name, static_cast<int>(i));
  for (const PanelEntry& p : frame.panels) {
    if (p.sheet != s.name) continue;
    for (int k = 0; k < 4; ++k) {
      for (const int m :
           members_in_line(frame, layout, node.at(p.corners[k]), node.at(p.corners[(k + 1) % 4]))) {
        if (side_of_member[m] >= narrowest) continue;
        narrowest = side_of_member[m];
        tube = frame.members[m].name;
      }
    }
  }
  const double e = narrowest / 2, d = s.rivet->diameter;
  if (!(e < 2 * d)) return;
  add_warning(problems, s.place,
              "rivets of sheet " + quoted(s.name) + " come " + in_diameters(e / d) +
                  " diameters from the edge on tube " + quoted(tube),
              e < 1.5 * d ? "at least 1.5 diameters (EN 1993-1-3 Table 8.1): take thinner rivets"
                          : "2 diameters are better practice: take thinner rivets or a wider tube");
}

void check_links_and_skew(const Frame& frame, const PanelEntry& p, const Layout& layout,
                          const std::unordered_map<std::string, int>& node, Problems& problems) {
  std::array<Eigen::Vector3d, 4> corners;
  for (int k = 0; k < 4; ++k) corners[k] = layout.at[node.at(p.corners[k])];
  for (int k = 0; k < 4; ++k) {
    for (const int m :
         members_in_line(frame, layout, node.at(p.corners[k]), node.at(p.corners[(k + 1) % 4]))) {
      if (frame.members[m].kind != MemberKind::link) continue;
      add_warning(
          problems, p.place,
          "panel " + quoted(p.name) + " is fixed to the link " + quoted(frame.members[m].name),
          "a link is taken as straight: if the sheet buckles, its pull across the link is not in "
          "the link's stress; make it a beam");
    }
  }
  const Sheet& sheet = find_sheet(frame, p.sheet);
  const Material& material = find_material(frame, sheet.material)->properties;
  constexpr double nearly_square = 1.10;
  const double ratio = ray_field_ratio(corners, material.E / (2 * material.G) - 1);
  if (ratio < nearly_square) return;
  char percent[16];
  std::snprintf(percent, sizeof percent, "%.0f", 100 * (1 - 1 / ratio));
  add_warning(problems, p.place, "panel " + quoted(p.name) + " is far from rectangular",
              std::string("where its edges slip it may be up to ") + percent +
                  " % softer than reckoned; divide it by a tube if that matters");
}

}  // namespace

Problems lint_sheets(const Frame& frame, const Layout& layout) {
  Problems problems;
  if (frame.panels.empty()) return problems;
  const std::vector<double> sides = tube_sides(frame);
  std::unordered_set<std::string> used;
  for (const PanelEntry& p : frame.panels) used.insert(p.sheet);
  for (const Sheet& s : frame.sheets) {
    if (!s.rivet || !used.contains(s.name) || problems.size() >= most_of_a_kind) continue;
    check_pitch(s, problems);
    check_diameter(s, problems);
    check_edge_distance(frame, s, sides, layout, problems);
  }
  std::unordered_map<std::string, int> node;
  for (size_t i = 0; i < frame.nodes.size(); ++i)
    node.emplace(frame.nodes[i].name, static_cast<int>(i));
  for (const PanelEntry& p : frame.panels) {
    if (problems.size() >= most_of_a_kind) break;
    check_links_and_skew(frame, p, layout, node, problems);
  }
  return problems;
}

}  // namespace tubewright
