#include "cases/model/mechanism_report.h"

#include <algorithm>
#include <array>

namespace tubewright {

namespace {

constexpr std::array<const char*, 6> can = {"move along x", "move along y", "move along z",
                                            "turn about x", "turn about y", "turn about z"};

/// "`a`, `b`, `c` and 4 more"
std::string some_names(const Frame& frame, const std::vector<int>& nodes) {
  constexpr size_t most = 5;
  std::string text;
  for (size_t i = 0; i < nodes.size() && i < most; ++i) {
    text += (i == 0 ? "`" : ", `") + frame.nodes[nodes[i]].name + "`";
  }
  if (nodes.size() > most) text += " and " + std::to_string(nodes.size() - most) + " more";
  return text;
}

std::string slack_names(const Frame& frame, const NumberedFrame& n,
                        const std::vector<bool>& slack) {
  std::string text;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    if (n.slots[i].is_beam || !slack[n.slots[i].index]) continue;
    text += (text.empty() ? "`" : ", `") + frame.members[i].name + "`";
  }
  return text;
}

Diagnostic free_motion(const Frame& frame, const FreeMotion& motion, const std::string& when) {
  const Node& node = frame.nodes[motion.node];
  Diagnostic p;
  p.place = node.place;
  p.message =
      "node `" + node.name + "` can " + can[motion.direction] + " without resistance" + when;
  const bool alone = motion.moving.size() <= 1;
  if (motion.rigid_body && motion.moving.size() >= frame.nodes.size()) {
    p.advice = "the whole frame moves as one piece: add a support that holds it in this direction";
  } else if (motion.rigid_body) {
    p.advice = "this part moves as one piece: " + some_names(frame, motion.moving) +
               "; join it to the rest or support it";
  } else if (alone && motion.direction >= 3) {
    p.advice =
        "nothing joined here resists turning: weld a member end here, take a release away, "
        "or take the moment off this node";
  } else if (alone) {
    p.advice = "add a member or a support that holds it in this direction";
  } else {
    p.advice = "moving with it: " + some_names(frame, motion.moving) +
               "; add a diagonal or a support, or take a release away";
  }
  return p;
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
Diagnostic loose_upright(const Frame& frame, const FreeMotion& motion, const Wheel& wheel,
                         const std::string& when) {
  int links = 0, tubes = 0;
  for (const Member& m : frame.members) {
    if (is_carrier(wheel, m.from) == is_carrier(wheel, m.to)) continue;
    (m.kind == MemberKind::beam ? tubes : links) += 1;
  }
  const std::string node = "`" + frame.nodes[motion.node].name + "`";
  Diagnostic p;
  p.place = wheel.place;
  p.message = "the upright of wheel `" + wheel.name + "` is loose: its node " + node + " can " +
              can[motion.direction] + " without resistance" + when;
  if (tubes > 0) {
    p.advice = "add a link, tie rod or spring that stops this";
  } else if (links < 6) {
    p.advice = "a rigid upright needs six restraints and has " + std::to_string(links) +
               ": add a wishbone leg, tie rod, brake reaction link or spring that stops this";
  } else {
    p.advice = "its " + std::to_string(links) +
               " links and springs all leave this motion free: move one so that it stops it";
  }
  return p;
}

}  // namespace

Diagnostics failure_diagnostics(const Frame& frame, const NumberedFrame& numbered,
                                const StaticFailure& failure, const std::string& case_name) {
  const std::string slack = slack_names(frame, numbered, failure.slack);
  if (failure.mechanism.empty()) {
    return {{Severity::error,
             {},
             "case `" + case_name + "`: which cables are slack could not be found",
             "cables that went slack last: " + slack}};
  }
  const std::string when =
      slack.empty() ? "" : " in case `" + case_name + "`, where slack are the cables " + slack;
  Diagnostics diagnostics;
  for (const FreeMotion& motion : failure.mechanism.motions) {
    const Wheel* wheel = loose_wheel(frame, motion);
    diagnostics.push_back(wheel != nullptr ? loose_upright(frame, motion, *wheel, when)
                                           : free_motion(frame, motion, when));
  }
  return diagnostics;
}

}  // namespace tubewright
