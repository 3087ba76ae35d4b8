#include "cases/workshop/sheet_blanks.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <unordered_map>
#include <utility>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/layout.h"
#include "cases/frame/wording.h"
#include "cases/model/build_model.h"
#include "cases/model/tube_face.h"
#include "cases/workshop/rivet_rows.h"
#include "solver/elements/shear_panel.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

const double one_plane = std::cos(1 * degree);      // of normals
const double one_line = std::cos(0.5 * degree);     // of directions
const double out_of_plane = std::sin(20 * degree);  // a tube that leaves the sheet's plane
constexpr double flat_face = 5 * degree;            // a tube's face and the sheet on it
constexpr std::size_t names_told = 4;

/// A member along a panel's edge, the way the panel goes round.
struct Side {
  int member = 0;
  int from = 0;
  int to = 0;
};

struct PanelFace {
  Vector3d normal;  ///< right hand round the corners
  double warp = 0;  ///< how far the diagonals pass from each other
  std::vector<Side> sides;
};

std::string some_of(const std::set<std::string>& names) {
  std::vector<std::string> told(names.begin(), names.end());
  const std::size_t more = told.size() > names_told ? told.size() - names_told : 0;
  told.resize(told.size() - more);
  return quoted_list(told) + (more > 0 ? " and " + std::to_string(more) + " more" : "");
}

class BlankCutter {
 public:
  explicit BlankCutter(const Frame& frame)
      : frame_(frame), n_(build_model(frame)), layout_(layout_of(frame)) {
    for (const Panel& panel : n_.model.panels) faces_.push_back(face_of(panel));
    for (std::size_t p = 0; p < faces_.size(); ++p) {
      for (const Side& s : faces_[p].sides) panels_at_[s.member].push_back(static_cast<int>(p));
    }
    for (std::size_t m = 0; m < frame.members.size(); ++m) {
      const std::string& tube = frame.members[m].tube;
      if (!tube.empty()) first_of_tube_.emplace(tube, static_cast<int>(m));
    }
  }

  SheetBlanks all() {
    std::vector<bool> taken(faces_.size());
    for (std::size_t p = 0; p < faces_.size(); ++p) {
      if (taken[p]) continue;
      std::vector<int> group = group_from(static_cast<int>(p), taken);
      if (touches_itself(group)) {
        add_warning(found_.remarks, sheet_of(group.front()).place,
                    "panels of sheet " + quoted(sheet_of(group.front()).name) +
                        " meet at a corner only, or lie on one another",
                    "each of them is drawn as a piece by itself");
        for (const int q : group) cut({q});
      } else {
        cut(group);
      }
    }
    give_names();
    tell_of_laps();
    return std::move(found_);
  }

 private:
  const Sheet& sheet_of(int p) const {
    return find_sheet(frame_, frame_.panels[static_cast<std::size_t>(p)].sheet);
  }
  const SectionEntry& section_of_member(int m) const {
    return find_section(frame_, frame_.members[static_cast<std::size_t>(m)].section);
  }
  const Vector3d& at(int node) const { return layout_.at[static_cast<std::size_t>(node)]; }
  const PanelFace& face(int p) const { return faces_[static_cast<std::size_t>(p)]; }
  TubeFace face_of_tube(int m, const Vector3d& normal) const {
    return tube_face(section_of_member(m), n_, n_.slots[static_cast<std::size_t>(m)], normal);
  }

  PanelFace face_of(const Panel& panel) const {
    PanelFace f;
    f.normal = panel_geometry(n_.model, panel).normal;
    f.warp = std::abs((at(panel.corners[1]) - at(panel.corners[0])).dot(f.normal));
    for (std::size_t k = 0; k < 4; ++k) {
      int node = panel.corners[k];
      for (const EdgePiece& piece : panel.edges[k]) {
        const auto index = static_cast<std::size_t>(piece.index);
        const int m = piece.is_beam ? n_.member_of_beam[index] : n_.member_of_bar[index];
        const int next = layout_.other_end(m, node);
        f.sides.push_back({m, node, next});
        node = next;
      }
    }
    return f;
  }

  /// The side that the sheet lies on: out of the page as it is drawn.
  Vector3d outside(int p) const {
    return sheet_of(p).offset < 0 ? Vector3d(-face(p).normal) : face(p).normal;
  }

  std::vector<Side> sides_seen_from(int p, const Vector3d& view) const {
    std::vector<Side> sides = face(p).sides;
    if (face(p).normal.dot(view) < 0) {
      std::reverse(sides.begin(), sides.end());
      for (Side& s : sides) std::swap(s.from, s.to);
    }
    return sides;
  }

  // What is one piece
  // -----------------

  bool in_plane_with(int seed, int p) const {
    const Vector3d view = outside(seed);
    const double along = view.dot(outside(p));
    // Without an offset both sides are the same.
    if ((sheet_of(seed).offset == 0 ? std::abs(along) : along) < one_plane) return false;
    const Vector3d& origin = at(face(seed).sides.front().from);
    return face(p).warp <= flat_within &&
           std::all_of(face(p).sides.begin(), face(p).sides.end(), [&](const Side& s) {
             return std::abs((at(s.from) - origin).dot(view)) <= flat_within;
           });
  }

  /// On either side of a tube that both have.
  bool side_by_side(int p, int q, const Vector3d& view) const {
    const std::vector<Side> of_p = sides_seen_from(p, view), of_q = sides_seen_from(q, view);
    return std::any_of(of_p.begin(), of_p.end(), [&](const Side& a) {
      return std::any_of(of_q.begin(), of_q.end(),
                         [&](const Side& b) { return a.member == b.member && a.from == b.to; });
    });
  }

  std::vector<int> group_from(int seed, std::vector<bool>& taken) const {
    std::vector<int> group = {seed};
    taken[static_cast<std::size_t>(seed)] = true;
    if (face(seed).warp > flat_within) return group;
    for (std::size_t i = 0; i < group.size(); ++i) {
      for (const Side& s : face(group[i]).sides) {
        for (const int q : panels_at_.at(s.member)) {
          if (taken[static_cast<std::size_t>(q)] || sheet_of(q).name != sheet_of(seed).name) {
            continue;
          }
          if (!in_plane_with(seed, q) || !side_by_side(group[i], q, outside(seed))) continue;
          taken[static_cast<std::size_t>(q)] = true;
          group.push_back(q);
        }
      }
    }
    std::sort(group.begin(), group.end());
    return group;
  }

  /// Every side once; `rim` those with the sheet on one side only.
  struct Sides {
    std::vector<Side> all;
    std::vector<bool> rim;
  };
  Sides sides_of(const std::vector<int>& group) const {
    Sides sides;
    std::unordered_map<int, std::size_t> seen;
    for (const int p : group) {
      for (const Side& s : sides_seen_from(p, outside(group.front()))) {
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

  bool touches_itself(const std::vector<int>& group) const {
    const Sides sides = sides_of(group);
    std::unordered_map<int, int> begun, pieces;
    for (std::size_t i = 0; i < sides.all.size(); ++i) {
      if (sides.rim[i] && ++begun[sides.all[i].from] > 1) return true;
    }
    for (const int p : group) {
      for (const Side& s : face(p).sides) {
        if (++pieces[s.member] > 2) return true;
      }
    }
    return false;
  }

  // One piece
  // ---------

  struct Plane {
    Vector3d origin, x, y, out;
    Vector2d of(const Vector3d& p) const { return {(p - origin).dot(x), (p - origin).dot(y)}; }
  };

  /// The rim's closed lines, as indices into the sides.
  std::vector<std::vector<std::size_t>> loops_of(const Sides& sides) const {
    std::unordered_map<int, std::size_t> from;
    for (std::size_t i = 0; i < sides.all.size(); ++i) {
      if (sides.rim[i]) from.emplace(sides.all[i].from, i);
    }
    std::vector<std::vector<std::size_t>> loops;
    std::vector<bool> done(sides.all.size());
    for (std::size_t i = 0; i < sides.all.size(); ++i) {
      if (!sides.rim[i] || done[i]) continue;
      loops.emplace_back();
      for (std::size_t j = i; !done[j]; j = from.at(sides.all[j].to)) {
        done[j] = true;
        loops.back().push_back(j);
      }
    }
    return loops;
  }

  void refuse(const Sheet& sheet, const std::string& piece, std::string why, std::string advice) {
    add_warning(found_.remarks, sheet.place,
                "sheet " + quoted(sheet.name) + " is not drawn at panel " + quoted(piece) + ": " +
                    std::move(why),
                std::move(advice));
  }

  void cut(const std::vector<int>& group) {
    const Sheet& sheet = sheet_of(group.front());
    const std::string& first = frame_.panels[static_cast<std::size_t>(group.front())].name;
    const Sides sides = sides_of(group);
    Plane plane;
    plane.out = outside(group.front());
    std::vector<double> width;
    std::set<std::string> tilted;
    for (const Side& s : sides.all) {
      const std::string& name = frame_.members[static_cast<std::size_t>(s.member)].name;
      const TubeFace tube = face_of_tube(s.member, plane.out);
      if (std::isnan(tube.width)) {
        refuse(sheet, first, quoted(name) + " is known by its properties only",
               "how far the sheet reaches over it is not known; give the tube's sizes");
        return;
      }
      if (tube.tilt > flat_face) tilted.insert(name);
      width.push_back(tube.width);
    }
    plane.origin = at(sides.all.front().from);
    const Vector3d along = at(sides.all.front().to) - plane.origin;
    plane.x = (along - along.dot(plane.out) * plane.out).normalized();
    plane.y = plane.out.cross(plane.x);

    SheetBlank blank;
    blank.name = first;
    blank.sheet = sheet.name;
    for (const int p : group)
      blank.panels.push_back(frame_.panels[static_cast<std::size_t>(p)].name);
    for (const auto& loop : loops_of(sides)) {
      std::vector<RimSide> rim;
      for (const std::size_t i : loop)
        rim.push_back({plane.of(at(sides.all[i].from)), width[i] / 2});
      Polygon outline = widened(rim);
      const bool inside_out = outline.size() < 3 || crosses_itself(outline) ||
                              (signed_area(outline) > 0) != (signed_area(corners_of(rim)) > 0);
      if (inside_out) {
        refuse(sheet, first, "its outline crosses itself",
               "a notch or an opening is narrower than the tubes round it");
        return;
      }
      if (signed_area(outline) > 0) {
        blank.outline = std::move(outline);
      } else {
        blank.openings.push_back(std::move(outline));
      }
    }
    lay_down(blank, plane);
    finish(blank, sheet);
    for (std::size_t i = 0; i < sides.all.size(); ++i) {
      const Side& s = sides.all[i];
      blank.tubes.push_back({frame_.members[static_cast<std::size_t>(s.member)].name,
                             plane.of(at(s.from)), plane.of(at(s.to)), width[i], sides.rim[i]});
    }
    std::set<int> nodes;
    for (const Side& s : sides.all) nodes.insert({s.from, s.to});
    blank.nodes = named(group, plane);
    if (face(group.front()).warp > flat_within) {
      add_warning(found_.remarks, sheet.place,
                  "panel " + quoted(first) + " is warped by " + in_mm(face(group.front()).warp),
                  "it is a piece by itself, drawn on its mean plane; try it on before drilling");
    }
    if (!tilted.empty()) {
      add_warning(
          found_.remarks, sheet.place,
          "sheet " + quoted(sheet.name) + " lies on edges, not faces, of " + some_of(tilted),
          "turn the tube with `roll`, or bend a flange; the outline takes a face's width");
    }
    tell_of_tubes_through(sheet, nodes, plane.out);
    if (sheet.rivet) rivet(blank, sheet, sides, plane);
    found_.blanks.push_back(std::move(blank));
    places_.push_back({plane.out, sheet.offset, sides.all});
  }

  /// The nodes along the panels, each looking into the first panel that has it.
  std::vector<BlankNode> named(const std::vector<int>& group, const Plane& plane) const {
    std::map<int, BlankNode> nodes;
    for (const int p : group) {
      Vector2d middle = Vector2d::Zero();
      for (const Side& s : face(p).sides) middle += plane.of(at(s.from));
      middle /= static_cast<double>(face(p).sides.size());
      for (const Side& s : face(p).sides) {
        const Vector2d here = plane.of(at(s.from));
        nodes.emplace(s.from, BlankNode{frame_.nodes[static_cast<std::size_t>(s.from)].name, here,
                                        (middle - here).normalized()});
      }
    }
    std::vector<BlankNode> list;
    for (auto& [number, node] : nodes) list.push_back(std::move(node));
    return list;
  }

  static Polygon corners_of(const std::vector<RimSide>& rim) {
    Polygon corners;
    for (const RimSide& s : rim) corners.push_back(s.from);
    return corners;
  }

  /// Turns the piece until its longest edge lies below, and puts the origin at the lower left.
  static void lay_down(SheetBlank& blank, Plane& plane) {
    constexpr double as_long = 1e-6;  // m: of equal edges the first
    Vector2d best = Vector2d::Zero();
    for (std::size_t i = 0; i < blank.outline.size(); ++i) {
      const Vector2d edge = blank.outline[(i + 1) % blank.outline.size()] - blank.outline[i];
      if (edge.norm() > best.norm() + as_long) best = edge;
    }
    best.normalize();
    const Vector2d up(-best.y(), best.x());
    Vector2d least = Vector2d::Constant(1e300), most = -least;
    const auto turn = [&](Polygon& polygon) {
      for (Vector2d& p : polygon) p = Vector2d(best.dot(p), up.dot(p));
    };
    turn(blank.outline);
    for (const Vector2d& p : blank.outline) {
      least = least.cwiseMin(p);
      most = most.cwiseMax(p);
    }
    for (Polygon& opening : blank.openings) turn(opening);
    const auto shift = [&](Polygon& polygon) {
      for (Vector2d& p : polygon) p -= least;
    };
    shift(blank.outline);
    for (Polygon& opening : blank.openings) shift(opening);
    const Vector3d x = best.x() * plane.x + best.y() * plane.y;
    const Vector3d y = up.x() * plane.x + up.y() * plane.y;
    plane.origin += least.x() * x + least.y() * y;
    plane.x = x;
    plane.y = y;
    blank.width = (most - least).x();
    blank.height = (most - least).y();
    blank.forward = {plane.x.x(), plane.y.x()};
  }

  void finish(SheetBlank& blank, const Sheet& sheet) const {
    blank.area = signed_area(blank.outline);
    for (const Polygon& opening : blank.openings) blank.area += signed_area(opening);
    blank.mass =
        blank.area * sheet.thickness * find_material(frame_, sheet.material)->properties.density;
    if (sheet.rivet) blank.hole_diameter = sheet.rivet->diameter + hole_clearance;
  }

  // What stands in the way
  // ----------------------

  bool has_section(int m) const {
    return !frame_.members[static_cast<std::size_t>(m)].section.empty();
  }
  Vector3d away_from(int node, int m) const {
    return (at(layout_.other_end(m, node)) - at(node)).normalized();
  }
  /// A tube at the node that comes out on the sheet's side; on any side where that is not known.
  bool comes_through(int node, int m, const Vector3d& out, double offset) const {
    const double rise = away_from(node, m).dot(out);
    return has_section(m) && (offset == 0 ? std::abs(rise) : rise) > out_of_plane;
  }

  void tell_of_tubes_through(const Sheet& sheet, const std::set<int>& nodes, const Vector3d& out) {
    if (sheet.offset == 0) {
      if (unsided_.insert(sheet.name).second) {
        add_warning(found_.remarks, sheet.place,
                    "sheet " + quoted(sheet.name) + " lies in the plane of the tubes' axes",
                    "with `offset: " + in_mm(half_tube(nodes, out) + sheet.thickness / 2) +
                        "` (or minus that) it would be known on which side it lies and what "
                        "stands in its way there");
      }
      return;
    }
    std::set<std::string> through;
    for (const int node : nodes) {
      for (const int m : layout_.members_at[static_cast<std::size_t>(node)]) {
        if (comes_through(node, m, out, sheet.offset)) {
          through.insert(frame_.members[static_cast<std::size_t>(m)].name);
        }
      }
    }
    if (through.empty()) return;
    add_warning(found_.remarks, sheet.place,
                "sheet " + quoted(sheet.name) + " is in the way of " + some_of(through),
                "they come out on its side: notch the sheet round them, or put it on the other "
                "side (`offset` with the other sign); the outline has no notches");
  }

  double half_tube(const std::set<int>& nodes, const Vector3d& out) const {
    const int node = *nodes.begin();
    for (const int m : layout_.members_at[static_cast<std::size_t>(node)]) {
      if (!has_section(m) || std::abs(away_from(node, m).dot(out)) > out_of_plane) continue;
      const double width = face_of_tube(m, out.cross(away_from(node, m)).normalized()).width;
      if (!std::isnan(width)) return width / 2;
    }
    return 0;
  }

  // Rivets
  // ------

  double outer_area(int m) const {
    const SectionEntry& s = section_of_member(m);
    return s.width * s.height;
  }

  /// Two pieces of one tube in a straight line, and nothing cuts the tube or its face there.
  bool passes(int node, int a, int b, const Vector3d& out, double offset) const {
    const std::string& tube = frame_.members[static_cast<std::size_t>(a)].tube;
    if (tube.empty() || tube != frame_.members[static_cast<std::size_t>(b)].tube) return false;
    const std::vector<int>& here = layout_.members_at[static_cast<std::size_t>(node)];
    return std::none_of(here.begin(), here.end(), [&](int m) {
      return m != a && m != b && (comes_through(node, m, out, offset) || cuts(node, m, a));
    });
  }

  /// True if `m` is of another tube that is whole at the node where that of `a` is not: the bigger
  /// one, or of equal ones the first in the file.
  bool cuts(int node, int m, int a) const {
    const std::string& tube = frame_.members[static_cast<std::size_t>(m)].tube;
    const std::string& own = frame_.members[static_cast<std::size_t>(a)].tube;
    if (tube.empty() || tube == own) return false;
    const std::vector<int>& here = layout_.members_at[static_cast<std::size_t>(node)];
    const bool whole = std::any_of(here.begin(), here.end(), [&](int other) {
      return other != m && frame_.members[static_cast<std::size_t>(other)].tube == tube &&
             away_from(node, other).dot(away_from(node, m)) < -one_line;
    });
    if (!whole) return false;
    const double mine = outer_area(a), its = outer_area(m);
    if (std::abs(mine - its) > 1e-9 * mine) return its > mine;
    return first_of_tube_.at(tube) < first_of_tube_.at(own);
  }

  /// From the node to the first rivet's middle.
  double clear_of_joint(int node, int own, const Sheet& sheet, const Vector3d& out) const {
    const Vector3d along = away_from(node, own);
    const auto throat = [&](int m) {
      const Member& member = frame_.members[static_cast<std::size_t>(m)];
      return member.weld_throat.value_or(section_of_member(m).wall);
    };
    const double own_width = face_of_tube(own, out).width;
    const double hole = sheet.rivet->diameter + hole_clearance;
    double reach = 0, leg = std::numbers::sqrt2 * throat(own), apart = least_spacing * hole;
    for (const int m : layout_.members_at[static_cast<std::size_t>(node)]) {
      if (m == own || !has_section(m)) continue;
      const Vector3d other = away_from(node, m);
      const double angle = std::acos(std::clamp(along.dot(other), -1.0, 1.0));
      if (along.dot(other) < -one_line || along.dot(other) > one_line) continue;
      leg = std::max(leg, std::numbers::sqrt2 * throat(m));
      const SectionEntry& s = section_of_member(m);
      if (std::abs(other.dot(out)) > out_of_plane) {
        reach = std::max(reach, std::max(s.width, s.height) / 2);
        continue;
      }
      const double width = face_of_tube(m, out).width;
      reach = std::max(
          reach, joint_reach(angle, own_width / 2, (std::isnan(width) ? own_width : width) / 2));
      // Far enough from the row of the other, however it begins.
      if (angle < std::numbers::pi / 2) {
        apart = std::max(apart, least_spacing * hole / std::sin(angle));
      }
    }
    return std::max(reach + leg + sheet.rivet->diameter, apart);
  }

  void rivet(SheetBlank& blank, const Sheet& sheet, const Sides& sides, const Plane& plane) {
    std::map<int, std::vector<std::size_t>> sides_at;
    for (std::size_t i = 0; i < sides.all.size(); ++i) {
      sides_at[sides.all[i].from].push_back(i);
      sides_at[sides.all[i].to].push_back(i);
    }
    const auto next = [&](std::size_t i, int node) -> std::optional<std::size_t> {
      for (const std::size_t j : sides_at.at(node)) {
        const int a = sides.all[i].member, b = sides.all[j].member;
        if (j != i && away_from(node, a).dot(away_from(node, b)) < -one_line &&
            passes(node, a, b, plane.out, sheet.offset)) {
          return j;
        }
      }
      return std::nullopt;
    };
    const auto other = [&](std::size_t i, int node) {
      return sides.all[i].from == node ? sides.all[i].to : sides.all[i].from;
    };
    std::vector<bool> done(sides.all.size());
    std::set<std::string> without;
    std::vector<Vector2d> wanted;
    for (std::size_t i = 0; i < sides.all.size(); ++i) {
      if (done[i]) continue;
      std::size_t first = i;
      int begin = sides.all[i].from;
      while (const auto before = next(first, begin)) {
        first = *before;
        begin = other(first, begin);
      }
      std::size_t last = first;
      int end = other(first, begin);
      done[first] = true;
      while (const auto after = next(last, end)) {
        last = *after;
        done[last] = true;
        end = other(last, end);
      }
      const Vector2d from = plane.of(at(begin)), to = plane.of(at(end));
      const double length = (to - from).norm();
      const std::vector<double> places =
          rivet_places(length, clear_of_joint(begin, sides.all[first].member, sheet, plane.out),
                       clear_of_joint(end, sides.all[last].member, sheet, plane.out),
                       sheet.rivet->pitch, least_spacing * blank.hole_diameter);
      if (places.empty()) {
        without.insert(frame_.members[static_cast<std::size_t>(sides.all[first].member)].name);
      }
      for (const double x : places) wanted.push_back(from + x / length * (to - from));
    }
    if (!without.empty()) {
      add_warning(found_.remarks, sheet.place,
                  "sheet " + quoted(sheet.name) + " has no room for a rivet on " + some_of(without),
                  "their joints take all of it");
    }
    keep_apart(blank, sheet, wanted);
  }

  /// Takes over the holes that are far enough from every edge and from those before them.
  void keep_apart(SheetBlank& blank, const Sheet& sheet, const std::vector<Vector2d>& wanted) {
    const double least = least_spacing * blank.hole_diameter * (1 - 1e-9);
    std::map<std::pair<long, long>, std::vector<Vector2d>> near;
    const auto cell = [&](const Vector2d& p) {
      return std::pair{std::lround(std::floor(p.x() / least)),
                       std::lround(std::floor(p.y() / least))};
    };
    std::size_t dropped = 0;
    for (const Vector2d& hole : wanted) {
      const auto [i, j] = cell(hole);
      double edge = distance_to(blank.outline, hole);
      for (const Polygon& opening : blank.openings) {
        edge = std::min(edge, distance_to(opening, hole));
      }
      bool fits = edge >= least_edge * blank.hole_diameter * (1 - 1e-9);
      for (long di = -1; di <= 1 && fits; ++di) {
        for (long dj = -1; dj <= 1 && fits; ++dj) {
          const auto found = near.find({i + di, j + dj});
          if (found == near.end()) continue;
          fits = std::none_of(found->second.begin(), found->second.end(),
                              [&](const Vector2d& p) { return (p - hole).norm() < least; });
        }
      }
      if (!fits) {
        ++dropped;
        continue;
      }
      near[{i, j}].push_back(hole);
      blank.holes.push_back(hole);
    }
    if (dropped == 0) return;
    add_warning(found_.remarks, sheet.place,
                "of sheet " + quoted(sheet.name) + " " + std::to_string(dropped) +
                    (dropped == 1 ? " rivet is" : " rivets are") + " left out at panel " +
                    quoted(blank.name),
                "nearer than 2.2 hole diameters to another, or than 1.2 to an edge (EN 1993-1-8 "
                "Table 3.3): take thinner rivets or wider tubes");
  }

  // All pieces together
  // -------------------

  void give_names() {
    std::map<std::string, int> pieces;
    for (const SheetBlank& b : found_.blanks) ++pieces[b.sheet];
    std::set<std::string> used;
    for (SheetBlank& b : found_.blanks) {
      std::string name = pieces[b.sheet] == 1 ? b.sheet : b.name;
      while (!used.insert(name).second) name += "_";
      b.name = name;
    }
  }

  void tell_of_laps() {
    std::map<int, std::vector<std::size_t>> on_member;
    for (std::size_t b = 0; b < places_.size(); ++b) {
      for (const Side& s : places_[b].sides) on_member[s.member].push_back(b);
    }
    std::map<std::pair<std::size_t, std::size_t>, std::set<std::string>> laps;
    for (const auto& [member, blanks] : on_member) {
      for (std::size_t i = 0; i < blanks.size(); ++i) {
        for (std::size_t j = i + 1; j < blanks.size(); ++j) {
          const Placed &a = places_[blanks[i]], &b = places_[blanks[j]];
          const double along = a.out.dot(b.out);
          const bool same_face = a.offset == 0 || b.offset == 0
                                     ? std::abs(along) > std::cos(20 * degree)
                                     : along > std::cos(20 * degree);
          if (!same_face) continue;
          laps[{blanks[i], blanks[j]}].insert(
              frame_.members[static_cast<std::size_t>(member)].name);
        }
      }
    }
    for (const auto& [pair, members] : laps) {
      const SheetBlank &a = found_.blanks[pair.first], &b = found_.blanks[pair.second];
      add_warning(found_.remarks, find_sheet(frame_, a.sheet).place,
                  "the pieces of sheet " + quoted(a.name) + " and " + quoted(b.name) +
                      " both reach over " + some_of(members),
                  "lap them and drill both at once, or cut one back; the drawings do not");
    }
  }

  /// Where each piece lies, for laps.
  struct Placed {
    Vector3d out;
    double offset = 0;
    std::vector<Side> sides;
  };

  const Frame& frame_;
  NumberedFrame n_;
  Layout layout_;
  std::vector<PanelFace> faces_;
  std::unordered_map<int, std::vector<int>> panels_at_;
  std::map<std::string, int> first_of_tube_;
  std::set<std::string> unsided_;
  std::vector<Placed> places_;
  SheetBlanks found_;
};

}  // namespace

SheetBlanks sheet_blanks(const Frame& frame) {
  if (frame.panels.empty()) return {};
  return BlankCutter(frame).all();
}

}  // namespace tubewright
