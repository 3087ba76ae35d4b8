#include "cases/model/weldments.h"

#include <algorithm>

namespace tubewright {

namespace {

bool welded_end(const EndConnection& c) {
  return std::none_of(c.begin(), c.end(), [](double stiffness) { return stiffness == 0; });
}

std::vector<std::vector<int>> welded_neighbours(const Frame& frame, const NumberedFrame& n) {
  std::vector<std::vector<int>> joined(n.model.nodes.size());
  for (const Member& m : frame.members) {
    if (m.kind != MemberKind::beam) continue;
    if (!welded_end(m.release_from) || !welded_end(m.release_to)) continue;
    const int a = n.node.at(m.from), b = n.node.at(m.to);
    joined[static_cast<size_t>(a)].push_back(b);
    joined[static_cast<size_t>(b)].push_back(a);
  }
  return joined;
}

}  // namespace

std::vector<int> weldments(const Frame& frame, const NumberedFrame& numbered) {
  const std::vector<std::vector<int>> joined = welded_neighbours(frame, numbered);
  std::vector<int> body(joined.size(), -1);
  int count = 0;
  for (size_t first = 0; first < body.size(); ++first) {
    if (body[first] >= 0) continue;
    std::vector<int> front = {static_cast<int>(first)};
    while (!front.empty()) {
      const auto node = static_cast<size_t>(front.back());
      front.pop_back();
      if (body[node] >= 0) continue;
      body[node] = count;
      front.insert(front.end(), joined[node].begin(), joined[node].end());
    }
    ++count;
  }
  return body;
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
