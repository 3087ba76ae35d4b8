#include "cases/sheets/blank_remarks.h"

#include <Eigen/Geometry>
#include <cmath>
#include <map>
#include <utility>

#include "cases/frame/find_parts.h"
#include "cases/frame/wording.h"
#include "cases/sheets/sheet_warnings.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

bool on_one_face(const PlacedBlank& a, const PlacedBlank& b) {
  const double along = a.out.dot(b.out);
  const bool sided = a.sided && b.sided;
  return (sided ? along : std::abs(along)) > std::cos(20 * degree);
}

}  // namespace

void tell_of_tubes_through(const CladFrame& f, const Sheet& sheet, const std::set<int>& nodes,
                           const Eigen::Vector3d& out, Diagnostics& remarks) {
  std::set<std::string> through;
  for (const int node : nodes) {
    for (const int m : f.layout.members_at[static_cast<std::size_t>(node)]) {
      if (comes_through(f, node, m, out, true)) through.insert(f.member(m).name);
    }
  }
  if (through.empty()) return;
  add_warning(remarks, sheet.place, tubes_through_sheet(sheet.name, through));
}

void tell_of_laps(const CladFrame& f, const std::vector<PlacedBlank>& placed,
                  Diagnostics& remarks) {
  std::map<int, std::vector<std::size_t>> on_member;
  for (std::size_t b = 0; b < placed.size(); ++b) {
    for (const PanelSide& s : placed[b].sides) on_member[s.member].push_back(b);
  }
  std::map<std::pair<std::size_t, std::size_t>, std::set<std::string>> laps;
  for (const auto& [member, blanks] : on_member) {
    for (std::size_t i = 0; i < blanks.size(); ++i) {
      for (std::size_t j = i + 1; j < blanks.size(); ++j) {
        if (!on_one_face(placed[blanks[i]], placed[blanks[j]])) continue;
        laps[{blanks[i], blanks[j]}].insert(f.member(member).name);
      }
    }
  }
  for (const auto& [pair, members] : laps) {
    const PlacedBlank &a = placed[pair.first], &b = placed[pair.second];
    add_warning(remarks, find_sheet(f.frame, a.sheet).place, pieces_lap(a.name, b.name, members));
  }
}

}  // namespace tubewright
