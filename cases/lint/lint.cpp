#include "cases/lint/lint.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>
#include <unordered_set>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/wording.h"
#include "cases/lint/input_doubts.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/lint_warnings.h"

namespace tubewright {
namespace {

double smaller_side(const SectionEntry& s) {
  if (s.shape != Shape::properties) return std::min(s.height, s.width);
  return std::sqrt(6 * std::min(s.given.Iy, s.given.Iz) / s.given.A);
}

}  // namespace

std::vector<double> tube_sides(const Frame& frame) {
  std::unordered_map<std::string, double> side_of;
  for (const SectionEntry& s : frame.sections) side_of.emplace(s.name, smaller_side(s));
  std::vector<double> sides;
  for (const Member& m : frame.members) {
    const auto found = side_of.find(m.section);
    sides.push_back(found == side_of.end() ? 0 : found->second);
  }
  return sides;
}

Diagnostics lint_unused(const Frame& frame, const Layout& layout) {
  Diagnostics diagnostics;
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) {
    if (!layout.members_at[i].empty() || diagnostics.size() >= most_of_a_kind) continue;
    add_warning(diagnostics, frame.nodes[i].place, unused_node(frame.nodes[i].name));
  }
  std::unordered_set<std::string> used;
  for (const Member& m : frame.members) used.insert(m.section);
  for (const SectionEntry& s : frame.sections) {
    if (used.contains(s.name) || diagnostics.size() >= most_of_a_kind) continue;
    add_warning(diagnostics, s.place, unused_section(s.name));
  }
  return diagnostics;
}

Diagnostics lint_strengths(const Frame& frame) {
  Diagnostics diagnostics;
  std::unordered_set<std::string> used_sections, reported;
  for (const Member& m : frame.members) used_sections.insert(m.section);
  for (const SectionEntry& s : frame.sections) {
    const MaterialEntry* material = find_material(frame, s.material);
    if (material == nullptr || !std::isnan(material->properties.yield)) continue;
    if (!used_sections.contains(s.name) || !reported.insert(material->name).second) continue;
    add_warning(diagnostics, material->place, no_yield_strength(material->name, s.name));
  }
  return diagnostics;
}

Diagnostics lint_duplicates(const Frame& frame, const Layout& layout) {
  Diagnostics diagnostics;
  std::map<std::pair<int, int>, int> first;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    if (m.kind == MemberKind::spring || m.kind == MemberKind::cable) continue;
    const auto [a, b] = std::minmax(layout.ends[i][0], layout.ends[i][1]);
    if (a < 0 || diagnostics.size() >= most_of_a_kind) continue;
    const auto [other, is_new] = first.emplace(std::pair(a, b), static_cast<int>(i));
    if (is_new) continue;
    add_warning(diagnostics, m.place,
                members_side_by_side(frame.members[other->second].name, m.name));
  }
  return diagnostics;
}

namespace {

/// The frame with what ends at an attachment drawn to the tube's axis, where a frame without
/// attachments has it: the arms themselves are no doubt.
Frame without_arms(Frame frame) {
  std::unordered_map<std::string, std::string> axis_of;
  std::unordered_set<std::string> arms;
  for (const Attachment& a : frame.attachments) {
    axis_of.emplace(a.name, a.axis_node);
    arms.insert({a.name, a.face_node});
  }
  for (Member& m : frame.members) {
    for (std::string* end : {&m.from, &m.to}) {
      if (const auto found = axis_of.find(*end); found != axis_of.end()) *end = found->second;
    }
  }
  std::erase_if(frame.nodes, [&](const Node& n) { return arms.contains(n.name); });
  return frame;
}

}  // namespace

Diagnostics lint(const Frame& as_given) {
  const Frame frame = without_arms(as_given);
  const Layout layout = layout_of(frame);
  Diagnostics all;
  for (Diagnostics kind :
       {lint_unused(frame, layout), lint_strengths(frame), lint_duplicates(frame, layout),
        lint_close_nodes(frame, layout), lint_nodes_on_members(frame, layout),
        lint_crossings(frame, layout), lint_bays(frame, layout), lint_ends(frame, layout),
        lint_joints(as_given), lint_bends(as_given), lint_sheets(as_given),
        input_doubts(as_given)}) {
    const bool cut_short = kind.size() >= most_of_a_kind;
    kind = in_file_order(std::move(kind), frame);
    if (cut_short) kind.back() = last_of_many(std::move(kind.back()));
    all.insert(all.end(), kind.begin(), kind.end());
  }
  return in_file_order(std::move(all), frame);
}

}  // namespace tubewright
