#include "cases/sheets/panel_groups.h"

#include <unordered_map>

namespace tubewright {

std::vector<std::vector<int>> panel_groups(const CladFrame& f) {
  return sheet_groups(f.frame, f.numbered, f.faces);
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
