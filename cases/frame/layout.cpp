#include "cases/frame/layout.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <string_view>
#include <unordered_map>

#include "cases/frame/sensible_ranges.h"

namespace tubewright {
namespace {

// Tubes of one line may be out of line by the millimetre or two of a workshop's drawing.
constexpr double out_of_line = 0.02;  // rad

double size_of(const std::vector<Eigen::Vector3d>& points) {
  Eigen::AlignedBox3d box;
  for (const Eigen::Vector3d& p : points) {
    if (std::all_of(p.begin(), p.end(), [](double x) { return within(x, sensible::coordinate); })) {
      box.extend(p);
    }
  }
  return box.isEmpty() ? 0 : box.diagonal().norm();
}

}  // namespace

Layout layout_of(const Frame& frame) {
  Layout layout;
  std::unordered_map<std::string_view, int> index;
  for (const Node& n : frame.nodes) {
    index.emplace(n.name, static_cast<int>(layout.at.size()));
    layout.at.push_back(n.at);
  }
  layout.size = size_of(layout.at);
  layout.members_at.resize(layout.at.size());
  for (const Member& m : frame.members) {
    const auto from = index.find(m.from), to = index.find(m.to);
    std::array<int, 2> ends = {-1, -1};
    if (from != index.end() && to != index.end()) {
      const double length = (layout.at[to->second] - layout.at[from->second]).norm();
      if (length > shortest_member * layout.size) ends = {from->second, to->second};
    }
    const int member = static_cast<int>(layout.ends.size());
    layout.ends.push_back(ends);
    if (ends[0] < 0) continue;
    for (const int node : ends) layout.members_at[node].push_back(member);
  }
  return layout;
}

std::vector<int> members_in_line(const Frame& frame, const Layout& layout, int a, int b) {
  const Eigen::Vector3d line = layout.at[b] - layout.at[a];
  const double total = line.norm();
  if (total == 0) return {};
  std::vector<int> members;
  int node = a;
  double reached = 0;
  while (node != b) {
    int next = -1, by = -1;
    for (const int member : layout.members_at[node]) {
      const MemberKind kind = frame.members[member].kind;
      if (kind != MemberKind::beam && kind != MemberKind::link) continue;
      const int other = layout.other_end(member, node);
      const Eigen::Vector3d from_a = layout.at[other] - layout.at[a];
      const double along = from_a.dot(line) / total;
      const bool ahead = along > reached && along <= total * (1 + out_of_line);
      const bool lies_in_line = from_a.cross(line).norm() <= out_of_line * total * from_a.norm();
      if (!ahead || !lies_in_line || (next >= 0 && other != b)) continue;
      next = other;
      by = member;
    }
    if (next < 0) return {};
    members.push_back(by);
    reached = (layout.at[next] - layout.at[a]).dot(line) / total;
    node = next;
  }
  return members;
}

}  // namespace tubewright
