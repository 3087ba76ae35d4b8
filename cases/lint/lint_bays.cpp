// Four-sided bays that nothing keeps from folding into a parallelogram.
#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <set>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "cases/frame/bays.h"
#include "cases/frame/wording.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/lint_warnings.h"
#include "cases/model/weldments.h"
#include "solver/linear_algebra/dense.h"

namespace tubewright {
namespace {

constexpr double in_plane = 0.05;  // rad between a panel and the bay it covers, as in bays.cpp

/// Nodes between which the distance is kept: members with pinned ends, diagonals of panels, and of
/// the bays that are reported already.
struct PinnedBars {
  const std::vector<Eigen::Vector3d>& at;
  std::vector<std::vector<int>> from;  ///< of each node the other ends
  std::set<std::pair<int, int>>
      hinged;  ///< node and other end: what runs there turns or slides here

  void add(int a, int b) {
    from[a].push_back(b);
    from[b].push_back(a);
  }

  bool join(int a, int b) const {
    return std::find(from[a].begin(), from[a].end(), b) != from[a].end();
  }
};

PinnedBars pinned_bars(const Frame& frame, const Layout& layout) {
  PinnedBars bars{layout.at, std::vector<std::vector<int>>(layout.at.size()), {}};
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    const auto [a, b] = layout.ends[i];
    if (a < 0 || m.kind == MemberKind::spring) continue;
    bars.add(a, b);
    const bool rod = m.kind != MemberKind::beam;
    if (rod || is_joint(m.release_from)) bars.hinged.emplace(a, b);
    if (rod || is_joint(m.release_to)) bars.hinged.emplace(b, a);
  }
  return bars;
}

/// The nodes round the bay, and those that bars hold to at least `least` of them; ascending.
std::vector<int> surroundings(const PinnedBars& bars, const Bay& bay, std::size_t least) {
  std::vector<int> nodes = bay.boundary, near;
  for (const int node : bay.boundary) {
    near.insert(near.end(), bars.from[node].begin(), bars.from[node].end());
  }
  std::sort(near.begin(), near.end());
  for (std::size_t i = least - 1; i < near.size(); ++i) {
    if (near[i] == near[i - least + 1]) nodes.push_back(near[i]);
  }
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

/// The nodes nearest to the bay by the bars between, at most `most`; ascending. What braces a bay
/// may stand far off: a ring in a long box is braced by the box's walls and its two ends.
std::vector<int> nearest_nodes(const PinnedBars& bars, const Bay& bay, std::size_t most) {
  std::vector<int> nodes = bay.boundary;
  std::unordered_set<int> found(nodes.begin(), nodes.end());
  for (std::size_t i = 0; i < nodes.size() && nodes.size() < most; ++i) {
    for (const int next : bars.from[nodes[i]]) {
      if (nodes.size() < most && found.insert(next).second) nodes.push_back(next);
    }
  }
  std::sort(nodes.begin(), nodes.end());
  return nodes;
}

/// What a bay and its surroundings oppose to a displacement of their nodes: the sum of k r r' over
/// all rows r that bars and straight tubes add.
struct Resistance {
  std::vector<int> nodes;
  Eigen::MatrixXd K;

  /// Position of a node's three unknowns, -1 if it is not among the nodes.
  int place(int node) const {
    const auto found = std::lower_bound(nodes.begin(), nodes.end(), node);
    const bool here = found != nodes.end() && *found == node;
    return here ? 3 * static_cast<int>(found - nodes.begin()) : -1;
  }

  /// One row: the direction `e` with a factor for each of some nodes.
  void add(double k, const Eigen::Vector3d& e, std::initializer_list<std::pair<int, double>> row) {
    const Eigen::Matrix3d block = k * e * e.transpose();
    for (const auto& [i, factor_i] : row) {
      for (const auto& [j, factor_j] : row) {
        K.block<3, 3>(place(i), place(j)) += factor_i * factor_j * block;
      }
    }
  }
};

/// A tube that leads straight on through a welded joint cannot kink there. Only kinks out of the
/// bay's plane are opposed: within it, bending alone is what the bay is to be warned of.
void add_straight_tubes(Resistance& resistance, const PinnedBars& bars, const Bay& bay) {
  constexpr double k = 0.01;  // a tube is softer in bending
  for (const int m : resistance.nodes) {
    for (const int a : bars.from[m]) {
      for (const int b : bars.from[m]) {
        if (b <= a || resistance.place(a) < 0 || resistance.place(b) < 0) continue;
        if (bars.hinged.contains({m, a}) || bars.hinged.contains({m, b})) continue;
        const Eigen::Vector3d before = bars.at[m] - bars.at[a], after = bars.at[b] - bars.at[m];
        const double l = before.norm(), r = after.norm();
        const bool straight =
            before.dot(after) > 0 && before.cross(after).norm() < in_plane * l * r;
        if (straight) {
          resistance.add(k, bay.normal, {{m, 1}, {a, -r / (l + r)}, {b, -l / (l + r)}});
        }
      }
    }
  }
}

/// True if the bars among these nodes, out of the bay's plane as well, keep the distance of its
/// opposite corners: pulling them apart then meets resistance.
bool keeps_shape(const PinnedBars& bars, const Bay& bay, std::vector<int> nodes) {
  constexpr double ground = 1e-9, soft = 1e6;  // bars have stiffness 1
  Resistance resistance;
  resistance.nodes = std::move(nodes);
  const auto size = static_cast<Eigen::Index>(3 * resistance.nodes.size());
  resistance.K = ground * Eigen::MatrixXd::Identity(size, size);
  const auto direction = [&](int a, int b) -> Eigen::Vector3d {
    return (bars.at[b] - bars.at[a]).normalized();
  };
  for (const int a : resistance.nodes) {
    for (const int b : bars.from[a]) {
      if (a < b && resistance.place(b) >= 0) {
        resistance.add(1, direction(a, b), {{a, -1}, {b, 1}});
      }
    }
  }
  add_straight_tubes(resistance, bars, bay);

  const int a = bay.corners[0], c = bay.corners[2];
  Eigen::VectorXd pull = Eigen::VectorXd::Zero(size);
  pull.segment<3>(resistance.place(a)) = -direction(a, c);
  pull.segment<3>(resistance.place(c)) = direction(a, c);
  return pull.dot(solve_positive_definite(resistance.K, pull)) < soft;
}

/// Few surroundings suffice for most bays that are braced, and are looked at sooner.
bool keeps_shape(const PinnedBars& bars, const Bay& bay) {
  constexpr std::size_t most_nodes = 120;  // the work grows with the cube
  return keeps_shape(bars, bay, surroundings(bars, bay, 3)) ||
         keeps_shape(bars, bay, surroundings(bars, bay, 2)) ||
         keeps_shape(bars, bay, nearest_nodes(bars, bay, most_nodes));
}

/// True if the frame round the bay lies on one side of it.
bool is_wall(const PinnedBars& bars, const Bay& bay) {
  bool above = false, below = false;
  for (const int a : bay.boundary) {
    for (const int b : bars.from[a]) {
      const double rise = bay.normal.dot((bars.at[b] - bars.at[a]).normalized());
      above = above || rise > in_plane;
      below = below || rise < -in_plane;
    }
  }
  return !(above && below);
}

struct PanelArea {
  std::array<int, 4> nodes;
  std::array<Eigen::Vector3d, 4> corners;
  Eigen::Vector3d normal;
};

std::vector<PanelArea> panel_areas(const Frame& frame, const Layout& layout) {
  std::unordered_map<std::string, int> index;
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) {
    index.emplace(frame.nodes[i].name, static_cast<int>(i));
  }
  std::vector<PanelArea> areas;
  for (const PanelEntry& p : frame.panels) {
    PanelArea area;
    for (int k = 0; k < 4; ++k) {
      area.nodes[k] = index.at(p.corners[k]);
      area.corners[k] = layout.at[area.nodes[k]];
    }
    const auto& x = area.corners;
    area.normal = (x[2] - x[0]).cross(x[3] - x[1]).normalized();
    areas.push_back(area);
  }
  return areas;
}

/// True if the panel lies in the bay's plane and over its middle.
bool covers(const PanelArea& panel, const Bay& bay, const Layout& layout) {
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const int corner : bay.corners) middle += layout.at[corner] / 4;
  if (panel.normal.cross(bay.normal).norm() > in_plane) return false;
  const double size = (panel.corners[2] - panel.corners[0]).norm();
  if (std::abs((middle - panel.corners[0]).dot(panel.normal)) > in_plane * size) return false;
  for (int k = 0; k < 4; ++k) {
    const Eigen::Vector3d edge = panel.corners[(k + 1) % 4] - panel.corners[k];
    if (edge.cross(middle - panel.corners[k]).dot(panel.normal) < 0) return false;
  }
  return true;
}

/// Nodes that a support fastens in x, y and z.
std::vector<bool> fastened_nodes(const Frame& frame) {
  std::unordered_map<std::string, bool> fastened;
  for (const SupportEntry& s : frame.supports) {
    fastened[s.node] = s.restrained[0] && s.restrained[1] && s.restrained[2];
  }
  std::vector<bool> result;
  for (const Node& n : frame.nodes) {
    const auto found = fastened.find(n.name);
    result.push_back(found != fastened.end() && found->second);
  }
  return result;
}

void report(const Frame& frame, const Bay& bay, Diagnostics& diagnostics) {
  std::vector<std::string> names;
  for (const int corner : bay.corners) names.push_back(frame.nodes[corner].name);
  add_warning(diagnostics, frame.nodes[bay.corners[0]].place, bay_not_braced(names));
}

}  // namespace

Diagnostics lint_bays(const Frame& frame, const Layout& layout) {
  Diagnostics diagnostics;
  std::vector<Bay> bays = four_sided_bays(frame, layout);
  const std::vector<PanelArea> panels = panel_areas(frame, layout);
  const std::vector<bool> fastened = fastened_nodes(frame);
  PinnedBars bars = pinned_bars(frame, layout);
  for (const PanelArea& panel : panels) bars.add(panel.nodes[0], panel.nodes[2]);

  // The walls of a box first: the rings and the planes through two opposite edges, inside, are
  // braced once the walls are. Of alike ones the small first.
  std::stable_sort(bays.begin(), bays.end(),
                   [](const Bay& a, const Bay& b) { return a.area < b.area; });
  std::stable_partition(bays.begin(), bays.end(),
                        [&](const Bay& bay) { return is_wall(bars, bay); });
  for (const Bay& bay : bays) {
    const auto& [a, b, c, d] = bay.corners;
    if (bars.join(a, c) || bars.join(b, d)) continue;
    const bool is_fastened = fastened[a] && fastened[b] && fastened[c] && fastened[d];
    const bool is_covered = std::any_of(panels.begin(), panels.end(), [&](const PanelArea& panel) {
      return covers(panel, bay, layout);
    });
    const bool is_braced = is_fastened || is_covered || keeps_shape(bars, bay);
    bars.add(a, c);
    if (is_braced) continue;
    report(frame, bay, diagnostics);
    if (diagnostics.size() >= most_of_a_kind) break;
  }
  return diagnostics;
}

}  // namespace tubewright
