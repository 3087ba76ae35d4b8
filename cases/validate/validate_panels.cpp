// Sheets and the panels cut from them: joints, corners, edges.
#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "cases/frame/layout.h"
#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"
#include "solver/model/angle.h"

namespace tubewright {
namespace {

// A corner this far from the plane of the others, as a fraction of the panel's size: sheet is drawn
// down onto tubes that far without complaint (common practice, no source).
constexpr double out_of_plane = 0.01;

// Least sine of a corner's angle; flatter corners make no quadrilateral.
constexpr double flattest_corner = 0.02;

void check_joint(const Sheet& s, const std::string& subject, Diagnostics& diagnostics) {
  const auto check = [&](double value, const Range& range, const char* what) {
    check_range(value, range, subject, what, s.place, diagnostics);
  };
  if (s.rivet) {
    check(s.rivet->diameter, sensible::size, "rivet.diameter");
    check(s.rivet->pitch, sensible::size, "rivet.pitch");
    if (s.rivet->stiffness) check(*s.rivet->stiffness, sensible::stiffness, "rivet.stiffness");
    if (s.rivet->shear_strength) {
      check(*s.rivet->shear_strength, sensible::target, "rivet.shear_strength");
    }
    if (s.rivet->pitch > 0 && s.rivet->pitch <= s.rivet->diameter) {
      add_error(diagnostics, s.place, rivets_overlap(s.name));
    }
  }
  if (s.bond) {
    check(s.bond->width, sensible::size, "bond.width");
    check(s.bond->thickness, sensible::size, "bond.thickness");
    check(s.bond->shear_modulus, sensible::elasticity, "bond.shear_modulus");
    if (s.bond->shear_strength) {
      check(*s.bond->shear_strength, sensible::strength, "bond.shear_strength");
    }
  }
}

/// Corners are four known, different nodes; else empty and a report.
std::vector<int> corner_nodes(const PanelEntry& p, const FrameNames& names,
                              const std::string& subject, Diagnostics& diagnostics) {
  std::vector<int> corners;
  for (const std::string& corner : p.corners) {
    const int node = names.nodes.find(corner, subject, p.place, diagnostics);
    if (node >= 0) corners.push_back(node);
  }
  if (p.corners.size() != 4) {
    add_error(diagnostics, p.place, not_four_corners(p.name, p.corners.size()));
    return {};
  }
  if (std::set(p.corners.begin(), p.corners.end()).size() != 4) {
    add_error(diagnostics, p.place, corner_used_twice(p.name));
    return {};
  }
  return corners.size() == 4 ? corners : std::vector<int>{};
}

bool check_shape(const PanelEntry& p, const std::array<Eigen::Vector3d, 4>& x,
                 Diagnostics& diagnostics) {
  // The diagonals' cross product is normal to the mean plane, twice the area in length.
  const Eigen::Vector3d area = (x[2] - x[0]).cross(x[3] - x[1]);
  const double size = std::max((x[2] - x[0]).norm(), (x[3] - x[1]).norm());
  if (!(area.norm() > 1e-9 * size * size)) {
    add_error(diagnostics, p.place, panel_without_area(p.name));
    return false;
  }
  const Eigen::Vector3d normal = area.normalized();
  for (int k = 0; k < 4; ++k) {
    const Eigen::Vector3d in = x[k] - x[(k + 3) % 4], out = x[(k + 1) % 4] - x[k];
    if (in.cross(out).dot(normal) > flattest_corner * in.norm() * out.norm()) continue;
    add_error(diagnostics, p.place, corner_not_outward(p.name, p.corners[k]));
    return false;
  }
  // The two diagonals lie this far above and below the mean plane.
  const double warp = std::abs((x[1] - x[0]).dot(normal));
  if (warp > out_of_plane * size) {
    add_error(diagnostics, p.place, panel_not_flat(p.name, warp));
    return false;
  }
  return true;
}

/// A panel nearer upright than this has no upper side that a drawing would show (judgement).
const double nearly_upright = 10 * degree;

void check_side(const Frame& frame, const PanelEntry& p, const std::array<Eigen::Vector3d, 4>& x,
                Diagnostics& diagnostics) {
  const auto sheet = std::find_if(frame.sheets.begin(), frame.sheets.end(),
                                  [&](const Sheet& s) { return s.name == p.sheet; });
  if (sheet == frame.sheets.end() || sheet->side == SheetSide::by_corners) return;
  const Eigen::Vector3d normal = (x[2] - x[0]).cross(x[3] - x[1]).normalized();
  if (std::abs(normal.z()) > std::sin(nearly_upright)) return;
  add_error(diagnostics, p.place, panel_has_no_top(p.name, sheet->name));
}

void check_edges(const Frame& frame, const Layout& layout, const PanelEntry& p,
                 const std::vector<int>& corners, Diagnostics& diagnostics) {
  for (int k = 0; k < 4; ++k) {
    const int a = corners[k], b = corners[(k + 1) % 4];
    if (!members_in_line(frame, layout, a, b).empty()) continue;
    add_error(diagnostics, p.place,
              edge_without_tube(p.name, frame.nodes[a].name, frame.nodes[b].name));
  }
}

}  // namespace

void validate_sheets(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  for (const Sheet& s : frame.sheets) {
    const std::string subject = "sheet " + quoted(s.name);
    names.materials.find(s.material, subject, s.place, diagnostics);
    check_range(s.thickness, sensible::size, subject, "thickness", s.place, diagnostics);
    if (s.offset) {
      check_range(*s.offset, sensible::displacement, subject, "offset", s.place, diagnostics);
      if (*s.offset < 0 && s.side != SheetSide::by_corners) {
        add_error(diagnostics, s.place, offset_away_from_side(s.name));
      }
    }
    check_joint(s, subject, diagnostics);
  }
}

void validate_panels(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  if (frame.panels.empty()) return;
  const Layout layout = layout_of(frame);
  for (const PanelEntry& p : frame.panels) {
    const std::string subject = "panel " + quoted(p.name);
    names.sheets.find(p.sheet, subject, p.place, diagnostics);
    const std::vector<int> corners = corner_nodes(p, names, subject, diagnostics);
    if (corners.empty()) continue;
    std::array<Eigen::Vector3d, 4> x;
    for (int k = 0; k < 4; ++k) x[k] = layout.at[corners[k]];
    if (!check_shape(p, x, diagnostics)) continue;
    check_side(frame, p, x, diagnostics);
    check_edges(frame, layout, p, corners, diagnostics);
  }
}

}  // namespace tubewright
