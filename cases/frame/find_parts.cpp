#include "cases/frame/find_parts.h"

#include <algorithm>
#include <cassert>
#include <vector>

namespace tubewright {

namespace {

template <class Part>
const Part& find(const std::vector<Part>& parts, const std::string& name) {
  const auto found =
      std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.name == name; });
  assert(found != parts.end());
  return *found;
}

}  // namespace

const SectionEntry& find_section(const Frame& frame, const std::string& name) {
  return find(frame.sections, name);
}

const Sheet& find_sheet(const Frame& frame, const std::string& name) {
  return find(frame.sheets, name);
}

std::unordered_map<std::string, int> numbers_of_nodes(const Frame& frame) {
  std::unordered_map<std::string, int> numbers;
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) {
    numbers.emplace(frame.nodes[i].name, static_cast<int>(i));
  }
  return numbers;
}

bool has_springs(const Frame& frame) {
  return std::any_of(frame.members.begin(), frame.members.end(),
                     [](const Member& m) { return m.kind == MemberKind::spring; });
}

}  // namespace tubewright
