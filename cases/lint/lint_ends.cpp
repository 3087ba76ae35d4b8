// Tube ends that nothing is joined to, and paths that turn by hardly anything at a node.
#include "cases/frame/wording.h"
#include "cases/lint/lint_parts.h"
#include "cases/lint/small_kinks.h"
#include "cases/model/nodes_in_use.h"

namespace tubewright {
namespace {

Diagnostic free_end(const std::string& member, const std::string& node) {
  return {
      "member " + quoted(member) + " ends free at node " + quoted(node),
      "join it to another tube, or load it there; a node of the same place needs the same name"};
}

Diagnostic slight_turn(const std::string& tube, const std::string& node, double angle) {
  return {
      "tube " + quoted(tube) + " turns by " + decimals(angle / degree, 1) + " degrees at node " +
          quoted(node),
      "a mitre is cut and welded there; move the node into the line if the tube is to run through"};
}

void find_free_ends(const Frame& frame, const Layout& layout, Diagnostics& list) {
  const std::unordered_set<std::string> used = nodes_in_use(frame);
  for (std::size_t n = 0; n < frame.nodes.size() && list.size() < most_of_a_kind; ++n) {
    if (layout.members_at[n].size() != 1 || used.contains(frame.nodes[n].name)) continue;
    const Member& m = frame.members[static_cast<std::size_t>(layout.members_at[n][0])];
    list.push_back(error_at(m.place, free_end(m.name, frame.nodes[n].name)));
  }
}

/// A turn as small as that is hardly drawn on purpose (judgement).
constexpr double hardly_meant = 3 * degree;

void find_slight_turns(const Frame& frame, const Layout& layout, Diagnostics& list) {
  for (const SmallKink& kink : small_kinks(frame, layout)) {
    if (kink.angle >= hardly_meant || list.size() >= most_of_a_kind) continue;
    const Member& after = frame.members[kink.after];
    list.push_back(error_at(after.place, slight_turn(after.tube, kink.node, kink.angle)));
  }
}

}  // namespace

Diagnostics lint_ends(const Frame& frame, const Layout& layout) {
  Diagnostics list;
  find_free_ends(frame, layout, list);
  find_slight_turns(frame, layout, list);
  for (Diagnostic& d : list) d.severity = Severity::warning;
  return list;
}

}  // namespace tubewright
