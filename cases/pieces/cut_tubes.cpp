#include "cases/pieces/cut_tubes.h"

#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "cases/frame/find_parts.h"
#include "solver/elements/beam_element.h"

namespace tubewright {

namespace {

CutTube tube_of(const Frame& frame, const NumberedFrame& n, std::vector<int> members) {
  const auto member = [&](int m) -> const Member& { return frame.members[static_cast<size_t>(m)]; };
  const Member &first = member(members.front()), &last = member(members.back());
  CutTube t;
  t.name = first.tube.empty() ? first.name : first.tube;
  t.section = first.section;
  t.nodes = {n.node.at(first.from), n.node.at(last.to)};
  t.axes = member_axes(n.model.nodes[static_cast<size_t>(t.nodes[0])],
                       n.model.nodes[static_cast<size_t>(t.nodes[1])], first.roll);
  for (const int m : members) t.length += member_length(n, member(m));
  t.members = std::move(members);
  return t;
}

/// Members in line of one path as one tube, whatever crosses it.
std::vector<CutTube> straight_runs(const Frame& frame, const NumberedFrame& n) {
  const auto along = [&](const Member& m) -> Eigen::Vector3d {
    const auto& at = n.model.nodes;
    return (at[static_cast<size_t>(n.node.at(m.to))] - at[static_cast<size_t>(n.node.at(m.from))])
        .normalized();
  };
  std::vector<CutTube> tubes;
  std::vector<int> run;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if ((m.kind != MemberKind::beam && m.kind != MemberKind::link) || m.arc) continue;
    const bool goes_on = !run.empty() && run.back() + 1 == static_cast<int>(i) && !m.tube.empty() &&
                         frame.members[i - 1].tube == m.tube &&
                         along(frame.members[i - 1]).dot(along(m)) > std::cos(turns_at);
    if (!goes_on && !run.empty()) tubes.push_back(tube_of(frame, n, std::exchange(run, {})));
    run.push_back(static_cast<int>(i));
  }
  if (!run.empty()) tubes.push_back(tube_of(frame, n, std::move(run)));
  return tubes;
}

/// Of tubes that run through one node the biggest stays whole, the others are cut in two there.
std::vector<CutTube> parted_where_they_cross(const Frame& frame, const NumberedFrame& n,
                                             const std::vector<CutTube>& tubes) {
  const auto area = [&](const CutTube& t) {
    const SectionEntry& s = find_section(frame, t.section);
    return s.width * s.height;
  };
  std::map<int, size_t> whole;  // node: tube
  for (size_t i = 0; i < tubes.size(); ++i) {
    for (const int node : inner_nodes(frame, n, tubes[i])) {
      const auto [found, is_new] = whole.emplace(node, i);
      if (!is_new && area(tubes[i]) > area(tubes[found->second]) + 1e-12) found->second = i;
    }
  }
  std::vector<CutTube> parted;
  for (size_t i = 0; i < tubes.size(); ++i) {
    const std::vector<int> inner = inner_nodes(frame, n, tubes[i]);
    std::vector<int> members = {tubes[i].members.front()};
    for (size_t k = 0; k < inner.size(); ++k) {
      if (whole.at(inner[k]) != i) parted.push_back(tube_of(frame, n, std::exchange(members, {})));
      members.push_back(tubes[i].members[k + 1]);
    }
    parted.push_back(tube_of(frame, n, std::move(members)));
  }
  return parted;
}

/// A tube that is the whole path has its name; a part of one is called by its members.
void name_by_members(const Frame& frame, std::vector<CutTube>& tubes) {
  for (size_t i = 0; i < tubes.size();) {
    size_t j = i + 1;
    while (j < tubes.size() && tubes[j].name == tubes[i].name) ++j;
    for (size_t k = i; j - i > 1 && k < j; ++k) {
      tubes[k].name = named_by_members(frame.members[static_cast<size_t>(tubes[k].members.front())],
                                       frame.members[static_cast<size_t>(tubes[k].members.back())]);
    }
    i = j;
  }
}

}  // namespace

std::vector<CutTube> cut_tubes(const Frame& frame, const NumberedFrame& n) {
  std::vector<CutTube> tubes = parted_where_they_cross(frame, n, straight_runs(frame, n));
  name_by_members(frame, tubes);
  return tubes;
}

std::string named_by_members(const Member& first, const Member& last) {
  if (&first == &last) return first.name;
  return first.name + "-" + last.name.substr(last.tube.size() + 1);
}

std::vector<int> inner_nodes(const Frame& frame, const NumberedFrame& n, const CutTube& tube) {
  std::vector<int> nodes;
  for (size_t k = 1; k < tube.members.size(); ++k) {
    nodes.push_back(n.node.at(frame.members[static_cast<size_t>(tube.members[k])].from));
  }
  return nodes;
}

std::vector<DrawnTube> drawn_tubes(const Frame& frame, const NumberedFrame& n,
                                   const std::vector<CutTube>& tubes) {
  std::map<std::tuple<Shape, long, long>, int> sizes;
  std::vector<DrawnTube> drawn;
  for (const CutTube& t : tubes) {
    const SectionEntry& s = find_section(frame, t.section);
    const auto um = [](double x) { return std::lround(x * 1e6); };
    const int size =
        sizes
            .emplace(std::tuple(s.shape, um(s.height), um(s.width)), static_cast<int>(sizes.size()))
            .first->second;
    drawn.push_back({{n.model.nodes[static_cast<size_t>(t.nodes[0])],
                      n.model.nodes[static_cast<size_t>(t.nodes[1])]},
                     size});
  }
  return drawn;
}

}  // namespace tubewright
