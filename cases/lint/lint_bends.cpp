// Bends that tools do not make, and what stands on them.
#include <algorithm>
#include <cmath>
#include <optional>
#include <unordered_map>
#include <utility>

#include "cases/bends/bending.h"
#include "cases/bends/member_arc.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/wording.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/lint_warnings.h"
#include "solver/model/angle.h"

namespace tubewright {
namespace {

/// A die may be off by what a bend springs back, 2 % and a little.
constexpr double die_is_near = 0.03;

double nearest_die(const std::vector<double>& dies, double radius) {
  return *std::min_element(dies.begin(), dies.end(), [&](double a, double b) {
    return std::abs(a - radius) < std::abs(b - radius);
  });
}

/// The roll of the whole tube with which the bend lies along its faces; nothing where it does.
std::optional<double> roll_wanted(const Frame& frame, const Member& arc) {
  const auto at = [&](const std::string& name) {
    return std::find_if(frame.nodes.begin(), frame.nodes.end(),
                        [&](const Node& n) { return n.name == name; })
        ->at;
  };
  const SectionEntry& section = find_section(frame, arc.section);
  const Arc in_section = arc_of(*arc.arc, at(arc.from), at(arc.to), arc.roll, section);
  if (bends_along_faces(in_section, section)) return std::nullopt;
  const auto first = std::find_if(frame.members.begin(), frame.members.end(),
                                  [&](const Member& m) { return m.tube == arc.tube; });
  return first->roll + std::remainder(in_section.towards, 90 * degree);
}

/// Of each bend the arc that ends in its middle, at the corner's node.
std::vector<std::size_t> bends_by_corner(const Frame& frame) {
  std::vector<std::size_t> arcs;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (m.arc && m.arc->corner == m.to) arcs.push_back(i);
  }
  return arcs;
}

}  // namespace

Diagnostics lint_bends(const Frame& frame) {
  Diagnostics doubts;
  std::unordered_map<std::string, std::string> bent_at;  // node: tube
  for (const std::size_t i : bends_by_corner(frame)) {
    const Member& m = frame.members[i];
    if (doubts.size() >= most_of_a_kind) return doubts;
    bent_at.emplace(m.to, m.tube);
    const double radius = m.arc->radius;
    const double usual = usual_least_radius(find_section(frame, m.section));
    if (radius < usual * (1 - die_is_near)) {
      add_warning(doubts, m.place, bend_is_tight(m.tube, m.to, radius, usual));
    }
    if (const auto roll = roll_wanted(frame, m)) {
      add_warning(doubts, m.place, bend_across_corners(m.tube, m.to, *roll));
    }
    if (!frame.stock || frame.stock->dies.empty()) continue;
    const double die = nearest_die(frame.stock->dies, radius);
    if (std::abs(die - radius) > die_is_near * radius) {
      add_warning(doubts, m.place, no_die_for_bend(m.tube, m.to, radius, die));
    }
  }
  for (const Member& m : frame.members) {
    if (m.kind != MemberKind::beam || bent_at.empty()) continue;
    for (const std::string& node : {m.from, m.to}) {
      const auto found = bent_at.find(node);
      if (found == bent_at.end() || found->second == m.tube) continue;
      if (doubts.size() >= most_of_a_kind) return doubts;
      add_warning(doubts, m.place,
                  tube_stands_on_bend(m.tube.empty() ? m.name : m.tube, found->second, node));
    }
  }
  return doubts;
}

}  // namespace tubewright
