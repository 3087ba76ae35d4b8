#include "cases/model/mechanism_report.h"

#include <algorithm>

#include "cases/frame/wording.h"
#include "cases/model/mechanism_errors.h"

namespace tubewright {

namespace {

std::vector<std::string> names_of_nodes(const Frame& frame, const std::vector<int>& nodes) {
  std::vector<std::string> names;
  for (const int node : nodes) names.push_back(frame.nodes[node].name);
  return names;
}

std::vector<std::string> slack_cables(const Frame& frame, const NumberedFrame& n,
                                      const std::vector<bool>& slack) {
  std::vector<std::string> names;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    if (n.slots[i].is_beam || !slack[n.slots[i].index]) continue;
    names.push_back(frame.members[i].name);
  }
  return names;
}

Diagnostic free_motion(const Frame& frame, const FreeMotion& motion, const LooseNode& node) {
  if (motion.rigid_body && motion.moving.size() >= frame.nodes.size()) {
    return whole_frame_moves(node);
  }
  if (motion.rigid_body) return part_moves(node, names_of_nodes(frame, motion.moving));
  if (motion.moving.size() > 1) {
    return nodes_move_together(node, names_of_nodes(frame, motion.moving));
  }
  return motion.direction >= 3 ? node_turns_alone(node) : node_moves_alone(node);
}

bool is_carrier(const Wheel& wheel, const std::string& node) {
  return std::find(wheel.carrier.begin(), wheel.carrier.end(), node) != wheel.carrier.end();
}

/// The wheel whose rigid upright is all that moves, or nullptr.
const Wheel* loose_wheel(const Frame& frame, const FreeMotion& motion) {
  if (!frame.vehicle) return nullptr;
  for (const Wheel& w : frame.vehicle->wheels) {
    const bool alone = std::all_of(motion.moving.begin(), motion.moving.end(),
                                   [&](int node) { return is_carrier(w, frame.nodes[node].name); });
    if (has_rigid_upright(w) && alone && is_carrier(w, frame.nodes[motion.node].name)) return &w;
  }
  return nullptr;
}

/// An upright has six freedoms, so it wants six restraints: links and a spring.
Diagnostic loose_upright(const Frame& frame, const Wheel& wheel, const LooseNode& node) {
  int links = 0, tubes = 0;
  for (const Member& m : frame.members) {
    if (is_carrier(wheel, m.from) == is_carrier(wheel, m.to)) continue;
    (m.kind == MemberKind::beam ? tubes : links) += 1;
  }
  if (tubes > 0) return upright_moves_on_tubes(wheel.name, node);
  return links < 6 ? upright_wants_links(wheel.name, node, links)
                   : upright_moves_on_links(wheel.name, node, links);
}

}  // namespace

Diagnostics failure_diagnostics(const Frame& frame, const NumberedFrame& numbered,
                                const StaticFailure& failure, const std::string& case_name) {
  const std::vector<std::string> cables = slack_cables(frame, numbered, failure.slack);
  if (failure.why == StaticFailure::Why::scaling) {
    return Diagnostics{stiffnesses_too_far_apart(case_name)};
  }
  if (failure.why == StaticFailure::Why::cables) {
    return Diagnostics{slack_cables_not_found(case_name, cables)};
  }
  Diagnostics diagnostics;
  for (const FreeMotion& motion : failure.mechanism.motions) {
    const Node& node = frame.nodes[motion.node];
    const LooseNode loose{node.name, motion.direction, where_slack(case_name, cables)};
    if (const Wheel* wheel = loose_wheel(frame, motion)) {
      add_error(diagnostics, wheel->place, loose_upright(frame, *wheel, loose));
    } else {
      add_error(diagnostics, node.place, free_motion(frame, motion, loose));
    }
  }
  return diagnostics;
}

Diagnostics failure_of_cut_frame(const Frame& frame, const NumberedFrame& numbered,
                                 Mechanism mechanism) {
  const int known = static_cast<int>(frame.nodes.size());
  for (FreeMotion& motion : mechanism.motions) {
    if (motion.node >= known) motion.node = numbered.model.beams.front().from;
    std::erase_if(motion.moving, [&](int n) { return n >= known; });
  }
  StaticFailure failure;
  failure.mechanism = std::move(mechanism);
  failure.slack.assign(numbered.model.bars.size(), false);
  return failure_diagnostics(frame, numbered, failure, "");
}

}  // namespace tubewright
