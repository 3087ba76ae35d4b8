#include "cases/frame/bays.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>

namespace tubewright {
namespace {

constexpr double in_plane = 0.05;      // rad out of the plane of the face's first corner
constexpr double in_line = 0.05;       // rad; a smaller turn is no corner
constexpr double least_corner = 0.15;  // rad between two sides
// Where more members meet than this, no single bay stands out, and the work grows with the cube.
constexpr std::size_t most_at_a_corner = 24;

/// One member as it leaves a node.
struct Way {
  int member;
  int to;
  Eigen::Vector3d direction;  ///< unit vector
};

using Ways = std::vector<std::vector<Way>>;  // of each node

Ways ways_of(const Frame& frame, const Layout& layout) {
  Ways ways(layout.at.size());
  for (int node = 0; node < static_cast<int>(ways.size()); ++node) {
    for (const int member : layout.members_at[node]) {
      if (frame.members[member].kind == MemberKind::spring) continue;
      const int to = layout.other_end(member, node);
      ways[node].push_back({member, to, (layout.at[to] - layout.at[node]).normalized()});
    }
  }
  return ways;
}

/// Angle from `a` to `b` about `normal`, -pi..pi.
double angle(const Eigen::Vector3d& a, const Eigen::Vector3d& b, const Eigen::Vector3d& normal) {
  return std::atan2(a.cross(b).dot(normal), a.dot(b));
}

/// True if no other member leaves the node between two of its ways, in their plane.
bool neighbours(const std::vector<Way>& ways, const Way& first, const Way& second,
                const Eigen::Vector3d& normal) {
  const double opening = angle(first.direction, second.direction, normal);
  return std::none_of(ways.begin(), ways.end(), [&](const Way& other) {
    if (std::abs(other.direction.dot(normal)) > in_plane) return false;
    const double at = angle(first.direction, other.direction, normal);
    return at > in_line && at < opening - in_line;
  });
}

/// The way on that turns most to the left, in the plane; nullptr at a dead end.
const Way* leftmost(const std::vector<Way>& ways, const Way& came, const Eigen::Vector3d& normal) {
  const Way* best = nullptr;
  double best_turn = 0;
  for (const Way& way : ways) {
    if (std::abs(way.direction.dot(normal)) > in_plane) continue;
    const double turn = angle(came.direction, way.direction, normal);
    const bool back = std::abs(turn) > EIGEN_PI - in_line;
    if (back || (best != nullptr && turn <= best_turn)) continue;
    best = &way;
    best_turn = turn;
  }
  return best;
}

/// Goes round the face that lies to the left of `first` and ends with `last`, two ways from
/// `start`. Nothing if it does not close with four convex corners, if one of its sides is a cable,
/// or if `start` is not the first of its corners (the face is then met again from there).
std::optional<Bay> bay_between(const Frame& frame, const Ways& ways, int start, const Way& first,
                               const Way& last, const Eigen::Vector3d& normal) {
  Bay bay;
  bay.corners[0] = start;
  bay.boundary = {start};
  bay.normal = normal;
  std::size_t found = 1;
  const Way* way = &first;
  while (bay.boundary.size() <= ways.size()) {
    if (frame.members[way->member].kind == MemberKind::cable) return std::nullopt;
    if (way->to == start) break;
    bay.boundary.push_back(way->to);
    if (ways[way->to].size() > most_at_a_corner) return std::nullopt;
    const Way* next = leftmost(ways[way->to], *way, normal);
    if (next == nullptr) return std::nullopt;
    const double turn = angle(way->direction, next->direction, normal);
    if (turn < -in_line) return std::nullopt;
    if (turn > in_line) {
      if (found == 4 || way->to < start) return std::nullopt;
      bay.corners[found++] = way->to;
    }
    way = next;
  }
  if (found != 4 || way->to != start || way->member != last.member) return std::nullopt;
  if (bay.corners[1] > bay.corners[3]) std::swap(bay.corners[1], bay.corners[3]);
  return bay;
}

double area_of(const Bay& bay, const Layout& layout) {
  const auto& [a, b, c, d] = bay.corners;
  return (layout.at[c] - layout.at[a]).cross(layout.at[d] - layout.at[b]).norm() / 2;
}

}  // namespace

std::vector<Bay> four_sided_bays(const Frame& frame, const Layout& layout) {
  std::vector<Bay> bays;
  const Ways ways = ways_of(frame, layout);
  for (int node = 0; node < static_cast<int>(ways.size()); ++node) {
    const std::vector<Way>& here = ways[node];
    if (here.size() > most_at_a_corner) continue;
    for (std::size_t i = 0; i < here.size(); ++i) {
      for (std::size_t j = i + 1; j < here.size(); ++j) {
        const Eigen::Vector3d across = here[i].direction.cross(here[j].direction);
        if (across.norm() < least_corner) continue;
        const Eigen::Vector3d normal = across.normalized();
        if (!neighbours(here, here[i], here[j], normal)) continue;
        auto bay = bay_between(frame, ways, node, here[i], here[j], normal);
        if (!bay) continue;
        bay->area = area_of(*bay, layout);
        bays.push_back(std::move(*bay));
      }
    }
  }
  return bays;
}

}  // namespace tubewright
