#include "cases/model/weldments.h"

#include <algorithm>

#include "solver/model/disjoint_sets.h"

namespace tubewright {

namespace {

bool welded_end(const EndConnection& c) {
  return std::none_of(c.begin(), c.end(), [](double stiffness) { return stiffness == 0; });
}

}  // namespace

bool is_joint(const EndConnection& end) { return end != welded; }

const EndConnection& connection_at(const Member& member, size_t end) {
  return end == 0 ? member.release_from : member.release_to;
}

std::vector<int> weldments(const Frame& frame, const NumberedFrame& n) {
  DisjointSets bodies(n.model.nodes.size());
  for (const Member& m : frame.members) {
    if (m.kind != MemberKind::beam) continue;
    if (!welded_end(m.release_from) || !welded_end(m.release_to)) continue;
    bodies.join(n.node.at(m.from), n.node.at(m.to));
  }
  for (const Attachment& a : frame.attachments) {
    bodies.join(n.node.at(a.axis_node), n.node.at(a.face_node));
    bodies.join(n.node.at(a.axis_node), n.node.at(a.name));
  }
  return bodies.firsts();
}

std::vector<int> largest_weldment(const Frame& frame, const NumberedFrame& numbered) {
  const std::vector<int> body = weldments(frame, numbered);
  std::vector<std::vector<int>> nodes;
  for (size_t n = 0; n < body.size(); ++n) {
    const auto number = static_cast<size_t>(body[n]);
    nodes.resize(std::max(nodes.size(), number + 1));
    nodes[number].push_back(static_cast<int>(n));
  }
  const auto largest = std::max_element(
      nodes.begin(), nodes.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
  return largest == nodes.end() ? std::vector<int>() : *largest;
}

}  // namespace tubewright
