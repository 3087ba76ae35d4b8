#include "cases/sheets/sheet_blanks.h"

#include <Eigen/Geometry>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/wording.h"
#include "cases/sheets/blank_remarks.h"
#include "cases/sheets/clad_frame.h"
#include "cases/sheets/panel_groups.h"
#include "cases/sheets/rivet_rows.h"
#include "cases/sheets/sheet_rivets.h"
#include "cases/sheets/sheet_warnings.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

constexpr double flat_face = 5 * degree;  // a tube's face and the sheet on it

/// What has been drawn so far.
struct Drawn {
  SheetBlanks found;
  std::vector<PlacedBlank> placed;  ///< as the blanks
};

/// A group of panels and the sheet they are cut from.
struct BlankGroup {
  const Sheet& sheet;
  std::string first;  ///< its first panel
  std::vector<int> panels;
  GroupSides sides;
  std::vector<double> widths = {};    ///< of the tubes' faces, by side
  std::set<std::string> tilted = {};  ///< tubes that turn an edge to the sheet
};

/// Fills in widths and tilted; the name of a tube whose width is not known, if any.
std::optional<std::string> look_at_faces(const CladFrame& f, const Vector3d& out, BlankGroup& g) {
  for (const PanelSide& s : g.sides.all) {
    const std::string& name = f.member(s.member).name;
    const TubeFace tube = face_of_tube(f, s.member, out);
    if (std::isnan(tube.width)) return name;
    if (tube.tilt > flat_face) g.tilted.insert(name);
    g.widths.push_back(tube.width);
  }
  return std::nullopt;
}

/// Along the first side.
SheetPlane plane_of(const CladFrame& f, const PanelSide& side, const Vector3d& out, bool sided) {
  SheetPlane plane;
  plane.out = out;
  plane.origin = f.at(side.from);
  const Vector3d along = f.at(side.to) - plane.origin;
  plane.x = (along - along.dot(out) * out).normalized();
  plane.y = out.cross(plane.x);
  plane.sided = sided;
  return plane;
}

Polygon corners_of(const std::vector<RimSide>& rim) {
  Polygon corners;
  for (const RimSide& s : rim) corners.push_back(s.from);
  return corners;
}

/// The rim moved out over its tubes, into outline and openings; false if it crosses itself.
bool draw_outline(const CladFrame& f, const BlankGroup& g, const SheetPlane& plane,
                  SheetBlank& blank) {
  for (const std::vector<std::size_t>& loop : rim_loops(g.sides)) {
    std::vector<RimSide> rim;
    for (const std::size_t i : loop) {
      rim.push_back({plane.of(f.at(g.sides.all[i].from)), g.widths[i] / 2});
    }
    Polygon outline = widened(rim);
    const bool inside_out = outline.size() < 3 || crosses_itself(outline) ||
                            (signed_area(outline) > 0) != (signed_area(corners_of(rim)) > 0);
    if (inside_out) return false;
    if (signed_area(outline) > 0) {
      blank.outline = std::move(outline);
    } else {
      blank.openings.push_back(std::move(outline));
    }
  }
  return true;
}

/// Along the longest edge of an outline, of equal ones the first.
Vector2d longest_edge(const Polygon& outline) {
  constexpr double as_long = 1e-6;  // m
  Vector2d best = Vector2d::Zero();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vector2d edge = outline[(i + 1) % outline.size()] - outline[i];
    if (edge.norm() > best.norm() + as_long) best = edge;
  }
  return best.normalized();
}

/// Turns the piece until its longest edge lies below, and puts the origin at the lower left.
void lay_down(SheetBlank& blank, SheetPlane& plane) {
  const Vector2d along = longest_edge(blank.outline), up(-along.y(), along.x());
  const auto turn = [&](Polygon& polygon) {
    for (Vector2d& p : polygon) p = Vector2d(along.dot(p), up.dot(p));
  };
  turn(blank.outline);
  for (Polygon& opening : blank.openings) turn(opening);
  Vector2d least = Vector2d::Constant(1e300), most = -least;
  for (const Vector2d& p : blank.outline) {
    least = least.cwiseMin(p);
    most = most.cwiseMax(p);
  }
  const auto shift = [&](Polygon& polygon) {
    for (Vector2d& p : polygon) p -= least;
  };
  shift(blank.outline);
  for (Polygon& opening : blank.openings) shift(opening);
  const Vector3d x = along.x() * plane.x + along.y() * plane.y;
  const Vector3d y = up.x() * plane.x + up.y() * plane.y;
  plane.origin += least.x() * x + least.y() * y;
  plane.x = x;
  plane.y = y;
  blank.width = (most - least).x();
  blank.height = (most - least).y();
  blank.forward = {plane.x.x(), plane.y.x()};
}

void weigh(const CladFrame& f, const Sheet& sheet, SheetBlank& blank) {
  blank.area = signed_area(blank.outline);
  for (const Polygon& opening : blank.openings) blank.area += signed_area(opening);
  blank.mass =
      blank.area * sheet.thickness * find_material(f.frame, sheet.material)->properties.density;
}

/// The nodes along the panels, each looking into the first panel that has it.
std::vector<BlankNode> named_nodes(const CladFrame& f, const std::vector<int>& group,
                                   const SheetPlane& plane) {
  std::map<int, BlankNode> nodes;
  for (const int p : group) {
    const std::vector<PanelSide>& sides = f.face(p).sides;
    Vector2d middle = Vector2d::Zero();
    for (const PanelSide& s : sides) middle += plane.of(f.at(s.from));
    middle /= static_cast<double>(sides.size());
    for (const PanelSide& s : sides) {
      const Vector2d here = plane.of(f.at(s.from));
      nodes.emplace(s.from, BlankNode{f.frame.nodes[static_cast<std::size_t>(s.from)].name, here,
                                      (middle - here).normalized()});
    }
  }
  std::vector<BlankNode> list;
  for (auto& [number, node] : nodes) list.push_back(std::move(node));
  return list;
}

std::vector<BlankTube> drawn_lines(const CladFrame& f, const BlankGroup& g,
                                   const SheetPlane& plane) {
  std::vector<BlankTube> tubes;
  for (std::size_t i = 0; i < g.sides.all.size(); ++i) {
    const PanelSide& s = g.sides.all[i];
    tubes.push_back({f.member(s.member).name, plane.of(f.at(s.from)), plane.of(f.at(s.to)),
                     g.widths[i], static_cast<bool>(g.sides.rim[i])});
  }
  return tubes;
}

void tell_of_shape(const CladFrame& f, const BlankGroup& g, Diagnostics& remarks) {
  const double warp = f.face(g.panels.front()).warp;
  if (warp > flat_within) {
    add_warning(remarks, g.sheet.place, panel_warped(g.first, warp));
  }
  if (!g.tilted.empty()) {
    add_warning(remarks, g.sheet.place, sheet_on_edges(g.sheet.name, g.tilted));
  }
}

void rivet(const CladFrame& f, const BlankGroup& g, const SheetPlane& plane, SheetBlank& blank,
           Diagnostics& remarks) {
  blank.hole_diameter = g.sheet.rivet->diameter + hole_clearance;
  const WantedRivets wanted = wanted_rivets(f, g.sheet, g.sides, plane);
  if (!wanted.without.empty()) {
    add_warning(remarks, g.sheet.place, no_room_for_rivets(g.sheet.name, wanted.without));
  }
  blank.holes = kept_apart(wanted.holes, blank.outline, blank.openings, blank.hole_diameter);
  const std::size_t dropped = wanted.holes.size() - blank.holes.size();
  if (dropped == 0) return;
  add_warning(remarks, g.sheet.place, rivets_left_out(g.sheet.name, blank.name, dropped));
}

/// What a piece has in its way, by the nodes it lies on.
void tell_what_is_in_the_way(const CladFrame& f, const BlankGroup& g, const SheetPlane& plane,
                             SheetBlanks& found) {
  if (!plane.sided) return;  // lint() tells that its side is not known
  std::set<int> nodes;
  for (const PanelSide& s : g.sides.all) nodes.insert({s.from, s.to});
  tell_of_tubes_through(f, g.sheet, nodes, plane.out, found.remarks);
}

/// Draws a piece, or says why not.
void draw(const CladFrame& f, const std::vector<int>& panels, Drawn& drawn) {
  Diagnostics& remarks = drawn.found.remarks;
  BlankGroup g{sheet_of(f, panels.front()), f.panel(panels.front()).name, panels,
               sides_of(f.faces, panels)};
  const Vector3d out = outside(f, panels.front());
  const bool sided = f.face(panels.front()).sided;
  if (const auto unknown = look_at_faces(f, out, g)) {
    add_warning(remarks, g.sheet.place,
                not_drawn_over_unknown_tube(g.sheet.name, g.first, *unknown));
    return;
  }
  SheetPlane plane = plane_of(f, g.sides.all.front(), out, sided);
  SheetBlank blank;
  blank.name = g.first;
  blank.sheet = g.sheet.name;
  blank.sided = sided;
  for (const int p : panels) blank.panels.push_back(f.panel(p).name);
  if (!draw_outline(f, g, plane, blank)) {
    add_warning(remarks, g.sheet.place, not_drawn_across_itself(g.sheet.name, g.first));
    return;
  }
  lay_down(blank, plane);
  weigh(f, g.sheet, blank);
  blank.tubes = drawn_lines(f, g, plane);
  blank.nodes = named_nodes(f, panels, plane);
  tell_of_shape(f, g, remarks);
  tell_what_is_in_the_way(f, g, plane, drawn.found);
  if (g.sheet.rivet) rivet(f, g, plane, blank, remarks);
  drawn.found.blanks.push_back(std::move(blank));
  drawn.placed.push_back({{}, g.sheet.name, out, sided, std::move(g.sides.all)});
}

void give_names(Drawn& drawn) {
  std::map<std::string, int> pieces;
  for (const SheetBlank& b : drawn.found.blanks) ++pieces[b.sheet];
  std::set<std::string> used;
  for (std::size_t i = 0; i < drawn.placed.size(); ++i) {
    SheetBlank& b = drawn.found.blanks[i];
    if (pieces[b.sheet] == 1) b.name = b.sheet;
    while (!used.insert(b.name).second) b.name += "_";
    drawn.placed[i].name = b.name;
  }
}

}  // namespace

SheetBlanks sheet_blanks(const Frame& frame) {
  if (frame.panels.empty()) return {};
  const CladFrame f = clad_frame(frame);
  Drawn drawn;
  for (const std::vector<int>& group : panel_groups(f)) {
    if (!touches_itself(f.faces, group)) {
      draw(f, group, drawn);
      continue;
    }
    const Sheet& sheet = sheet_of(f, group.front());
    add_warning(drawn.found.remarks, sheet.place, panels_drawn_apart(sheet.name));
    for (const int p : group) draw(f, {p}, drawn);
  }
  give_names(drawn);
  tell_of_laps(f, drawn.placed, drawn.found.remarks);
  return std::move(drawn.found);
}

}  // namespace tubewright
