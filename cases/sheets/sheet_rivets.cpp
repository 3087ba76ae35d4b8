#include "cases/sheets/sheet_rivets.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <utility>

#include "cases/checks/welded_ends.h"
#include "cases/frame/built_in_materials.h"
#include "cases/sheets/rivet_rows.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

const double one_line = std::cos(0.5 * degree);  // of directions

double outer_area(const CladFrame& f, int m) {
  const SectionEntry& s = section_of_member(f, m);
  return s.width * s.height;
}

/// True if `m` is of another tube that is whole at the node where that of `a` is not: the bigger
/// one, or of equal ones the first in the file.
bool parts(const CladFrame& f, int node, int m, int a) {
  const std::string &tube = f.member(m).tube, &own = f.member(a).tube;
  if (tube.empty() || tube == own) return false;
  const std::vector<int>& here = f.layout.members_at[static_cast<std::size_t>(node)];
  const bool whole = std::any_of(here.begin(), here.end(), [&](int other) {
    return other != m && f.member(other).tube == tube &&
           away_from(f, node, other).dot(away_from(f, node, m)) < -one_line;
  });
  if (!whole) return false;
  const double mine = outer_area(f, a), its = outer_area(f, m);
  if (std::abs(mine - its) > 1e-9 * mine) return its > mine;
  return f.first_of_tube.at(tube) < f.first_of_tube.at(own);
}

/// Two pieces of one tube in a straight line, and nothing cuts the tube or its face there.
bool runs_on(const CladFrame& f, int node, int a, int b, const Vector3d& out, bool sided) {
  if (away_from(f, node, a).dot(away_from(f, node, b)) >= -one_line) return false;
  const std::string& tube = f.member(a).tube;
  if (tube.empty() || tube != f.member(b).tube) return false;
  const std::vector<int>& here = f.layout.members_at[static_cast<std::size_t>(node)];
  return std::none_of(here.begin(), here.end(), [&](int m) {
    return m != a && m != b && (comes_through(f, node, m, out, sided) || parts(f, node, m, a));
  });
}

double throat_of(const CladFrame& f, int m) {
  const SectionEntry& s = section_of_member(f, m);
  return f.member(m).weld_throat.value_or(
      usual_throat(*find_material(f.frame, s.material), s.wall));
}

/// What a joint takes of a row of rivets, m.
struct JointRoom {
  double reach = 0;  ///< of the other tubes, along the row from the node
  double leg = 0;    ///< of the widest weld
  double apart = 0;  ///< from the node, so that two rows that begin there keep their distance
};

/// What another tube at the node takes of a row on a face `own_width` wide.
JointRoom taken_by(const CladFrame& f, const Vector3d& along, double own_width, int node, int m,
                   const Vector3d& out, double least) {
  const SectionEntry& s = section_of_member(f, m);
  JointRoom room;
  room.leg = std::numbers::sqrt2 * throat_of(f, m);
  if (leaves_plane(f, node, m, out)) {
    room.reach = std::max(s.width, s.height) / 2;
    return room;
  }
  const double angle = std::acos(std::clamp(along.dot(away_from(f, node, m)), -1.0, 1.0));
  const double width = face_of_tube(f, m, out).width;
  room.reach = joint_reach(angle, own_width / 2, (std::isnan(width) ? own_width : width) / 2);
  // Far enough from the row of the other, however it begins.
  if (angle < std::numbers::pi / 2) room.apart = least / std::sin(angle);
  return room;
}

/// From the node to the first rivet's middle, along the row on `own`.
double clear_of_joint(const CladFrame& f, int node, int own, const Sheet& sheet,
                      const Vector3d& out) {
  const Vector3d along = away_from(f, node, own);
  const double own_width = face_of_tube(f, own, out).width;
  const double least = least_spacing * (sheet.rivet->diameter + hole_clearance);
  JointRoom most{0, std::numbers::sqrt2 * throat_of(f, own), least};
  for (const int m : f.layout.members_at[static_cast<std::size_t>(node)]) {
    if (m == own || !has_section(f, m)) continue;
    if (std::abs(along.dot(away_from(f, node, m))) > one_line) continue;
    const JointRoom room = taken_by(f, along, own_width, node, m, out, least);
    most.reach = std::max(most.reach, room.reach);
    most.leg = std::max(most.leg, room.leg);
    most.apart = std::max(most.apart, room.apart);
  }
  return std::max(most.reach + most.leg + sheet.rivet->diameter, most.apart);
}

/// Sides that one row of rivets runs along.
struct RivetLine {
  std::size_t first = 0, last = 0;  ///< sides
  int begin = 0, end = 0;           ///< nodes
};

int other_node(const PanelSide& s, int node) { return s.from == node ? s.to : s.from; }

/// Each side belongs to one line.
std::vector<RivetLine> rivet_lines(const CladFrame& f, const GroupSides& sides,
                                   const SheetPlane& plane) {
  std::map<int, std::vector<std::size_t>> sides_at;
  for (std::size_t i = 0; i < sides.all.size(); ++i) {
    sides_at[sides.all[i].from].push_back(i);
    sides_at[sides.all[i].to].push_back(i);
  }
  const auto next = [&](std::size_t i, int node) -> std::optional<std::size_t> {
    for (const std::size_t j : sides_at.at(node)) {
      const int a = sides.all[i].member, b = sides.all[j].member;
      if (j != i && runs_on(f, node, a, b, plane.out, plane.sided)) return j;
    }
    return std::nullopt;
  };
  std::vector<RivetLine> lines;
  std::vector<bool> done(sides.all.size());
  for (std::size_t i = 0; i < sides.all.size(); ++i) {
    if (done[i]) continue;
    RivetLine line{i, i, sides.all[i].from, 0};
    while (const auto before = next(line.first, line.begin)) {
      line.first = *before;
      line.begin = other_node(sides.all[line.first], line.begin);
    }
    line.last = line.first;
    line.end = other_node(sides.all[line.first], line.begin);
    done[line.first] = true;
    while (const auto after = next(line.last, line.end)) {
      line.last = *after;
      line.end = other_node(sides.all[line.last], line.end);
      done[line.last] = true;
    }
    lines.push_back(line);
  }
  return lines;
}

/// Holes in squares as wide as their least distance: those near a place are in nine of them.
class HolesByPlace {
 public:
  explicit HolesByPlace(double least) : least_(least) {}

  bool has_room_for(const Vector2d& hole) const {
    const auto [i, j] = square(hole);
    for (long di = -1; di <= 1; ++di) {
      for (long dj = -1; dj <= 1; ++dj) {
        const auto found = holes_.find({i + di, j + dj});
        if (found == holes_.end()) continue;
        for (const Vector2d& p : found->second) {
          if ((p - hole).norm() < least_) return false;
        }
      }
    }
    return true;
  }
  void add(const Vector2d& hole) { holes_[square(hole)].push_back(hole); }

 private:
  std::pair<long, long> square(const Vector2d& p) const {
    return {std::lround(std::floor(p.x() / least_)), std::lround(std::floor(p.y() / least_))};
  }

  double least_;
  std::map<std::pair<long, long>, std::vector<Vector2d>> holes_;
};

}  // namespace

WantedRivets wanted_rivets(const CladFrame& f, const Sheet& sheet, const GroupSides& sides,
                           const SheetPlane& plane) {
  WantedRivets wanted;
  const double least = least_spacing * (sheet.rivet->diameter + hole_clearance);
  for (const RivetLine& line : rivet_lines(f, sides, plane)) {
    const int first = sides.all[line.first].member, last = sides.all[line.last].member;
    const Vector2d from = plane.of(f.at(line.begin)), to = plane.of(f.at(line.end));
    const double length = (to - from).norm();
    const std::vector<double> places = rivet_places(
        length, clear_of_joint(f, line.begin, first, sheet, plane.out),
        clear_of_joint(f, line.end, last, sheet, plane.out), sheet.rivet->pitch, least);
    if (places.empty()) wanted.without.insert(f.member(first).name);
    for (const double x : places) wanted.holes.emplace_back(from + x / length * (to - from));
  }
  return wanted;
}

std::vector<Vector2d> kept_apart(const std::vector<Vector2d>& wanted, const Polygon& outline,
                                 const std::vector<Polygon>& openings, double hole_diameter) {
  constexpr double rounding = 1 - 1e-9;
  HolesByPlace taken(least_spacing * hole_diameter * rounding);
  std::vector<Vector2d> holes;
  for (const Vector2d& hole : wanted) {
    double edge = distance_to(outline, hole);
    for (const Polygon& opening : openings) edge = std::min(edge, distance_to(opening, hole));
    if (edge < least_edge * hole_diameter * rounding || !taken.has_room_for(hole)) continue;
    taken.add(hole);
    holes.push_back(hole);
  }
  return holes;
}

}  // namespace tubewright
