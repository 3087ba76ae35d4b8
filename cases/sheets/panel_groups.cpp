#include "cases/sheets/panel_groups.h"

#include <algorithm>
#include <cmath>

#include "solver/model/angle.h"

namespace tubewright {

namespace {

const double one_plane = std::cos(1 * degree);  // of normals

bool in_plane_with(const CladFrame& f, int seed, int p) {
  const Eigen::Vector3d view = outside(f, seed);
  const double along = view.dot(outside(f, p));
  // Without an offset both sides are the same.
  if ((sheet_of(f, seed).offset == 0 ? std::abs(along) : along) < one_plane) return false;
  const Eigen::Vector3d& origin = f.at(f.face(seed).sides.front().from);
  const std::vector<PanelSide>& sides = f.face(p).sides;
  return f.face(p).warp <= flat_within &&
         std::all_of(sides.begin(), sides.end(), [&](const PanelSide& s) {
           return std::abs((f.at(s.from) - origin).dot(view)) <= flat_within;
         });
}

/// On either side of a tube that both have.
bool side_by_side(const CladFrame& f, int p, int q, const Eigen::Vector3d& view) {
  const std::vector<PanelSide> of_p = sides_seen_from(f, p, view),
                               of_q = sides_seen_from(f, q, view);
  return std::any_of(of_p.begin(), of_p.end(), [&](const PanelSide& a) {
    return std::any_of(of_q.begin(), of_q.end(),
                       [&](const PanelSide& b) { return a.member == b.member && a.from == b.to; });
  });
}

std::vector<int> group_from(const CladFrame& f, int seed, std::vector<bool>& taken) {
  std::vector<int> group = {seed};
  taken[static_cast<std::size_t>(seed)] = true;
  if (f.face(seed).warp > flat_within) return group;
  for (std::size_t i = 0; i < group.size(); ++i) {
    for (const PanelSide& s : f.face(group[i]).sides) {
      for (const int q : f.panels_at.at(s.member)) {
        if (taken[static_cast<std::size_t>(q)]) continue;
        if (sheet_of(f, q).name != sheet_of(f, seed).name) continue;
        if (!in_plane_with(f, seed, q) || !side_by_side(f, group[i], q, outside(f, seed))) continue;
        taken[static_cast<std::size_t>(q)] = true;
        group.push_back(q);
      }
    }
  }
  std::sort(group.begin(), group.end());
  return group;
}

}  // namespace

std::vector<std::vector<int>> panel_groups(const CladFrame& f) {
  std::vector<std::vector<int>> groups;
  std::vector<bool> taken(f.faces.size());
  for (std::size_t p = 0; p < f.faces.size(); ++p) {
    if (!taken[p]) groups.push_back(group_from(f, static_cast<int>(p), taken));
  }
  return groups;
}

GroupSides sides_of(const CladFrame& f, const std::vector<int>& group) {
  GroupSides sides;
  std::unordered_map<int, std::size_t> seen;
  for (const int p : group) {
    for (const PanelSide& s : sides_seen_from(f, p, outside(f, group.front()))) {
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

bool touches_itself(const CladFrame& f, const std::vector<int>& group) {
  const GroupSides sides = sides_of(f, group);
  std::unordered_map<int, int> begun, pieces;
  for (std::size_t i = 0; i < sides.all.size(); ++i) {
    if (sides.rim[i] && ++begun[sides.all[i].from] > 1) return true;
  }
  for (const int p : group) {
    for (const PanelSide& s : f.face(p).sides) {
      if (++pieces[s.member] > 2) return true;
    }
  }
  return false;
}

std::vector<std::vector<std::size_t>> rim_loops(const GroupSides& sides) {
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

}  // namespace tubewright
