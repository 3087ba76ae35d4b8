#include "cases/analysis/buckling_lengths.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/model/weldments.h"
#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"

namespace tubewright {

namespace {

/// Modes looked at. Where there are more the first sets the lengths of what bends in none of these,
/// on the safe side.
constexpr int most_modes = 500;
/// Share of a mode's strain energy that a member takes by bending from which on it is one of those
/// that buckle in it (judgement). The rest only leans: a suspension that swings bends nothing.
constexpr double bends_along = 0.05;
/// Share of the energy in springs from which on a mode is the suspension's own (judgement).
constexpr double on_its_springs = 0.5;

/// pi sqrt(E I/N_cr)
double length_of(double E, double I, double N_cr) {
  return std::numbers::pi * std::sqrt(E * I / N_cr);
}

struct Lengthening {
  const Model& model;
  const std::vector<MemberSlot>& slots;
  const std::vector<MemberFacts>& facts;
  const AxialForces& forces;
  const std::vector<bool>& body;
  FrameSway& sway;

  /// `axis`: 0 bending about y, 1 about z.
  void lengthen(size_t member, size_t axis, double alpha) const {
    const MemberFacts& f = facts[member];
    const double N = forces.beams[static_cast<size_t>(slots[member].index)];
    if (f.length_given[axis] || !(N < 0)) return;
    const double I = axis == 0 ? f.section.Iy : f.section.Iz;
    const double length = length_of(f.material.E, I, -alpha * N);
    double& present = axis == 0 ? sway.lengths[member].lengths.y : sway.lengths[member].lengths.z;
    if (!(length > present) || !std::isfinite(length)) return;
    present = length;
    sway.lengths[member].sway[axis] = true;
  }

  double springs_share(const Eigen::VectorXd& shape) const {
    double energy = 0;
    for (size_t m = 0; m < slots.size(); ++m) {
      if (facts[m].has_section) continue;
      const Bar& bar = model.bars[static_cast<size_t>(slots[m].index)];
      const double stretch = bar_elongation(model, bar, shape);
      energy += bar.stiffness * stretch * stretch;
    }
    return energy / shape.dot(apply_stiffness(model, forces.slack, shape));
  }

  void follow(const BucklingMode& mode, double safety_factor) const {
    const std::vector<BendingShare> shares = bending_shares(model, forces.slack, mode.shape);
    if (!sway.factor && springs_share(mode.shape) < on_its_springs) {
      sway.factor = mode.factor / safety_factor;
      sway.in_suspension = suspension_gives_way(model, forces.slack, mode.shape, body);
    }
    for (size_t m = 0; m < slots.size(); ++m) {
      if (!slots[m].is_beam) continue;
      const BendingShare& share = shares[static_cast<size_t>(slots[m].index)];
      if (share.about_y >= bends_along) lengthen(m, 0, mode.factor);
      if (share.about_z >= bends_along) lengthen(m, 1, mode.factor);
    }
  }

  /// Members that bend in no mode found, by a factor that all modes left over lie above.
  void follow_the_rest(double factor) const {
    for (size_t m = 0; m < slots.size(); ++m) {
      if (!slots[m].is_beam) continue;
      for (const size_t axis : {0, 1}) {
        if (!sway.lengths[m].sway[axis]) lengthen(m, axis, factor);
      }
    }
  }
};

}  // namespace

std::vector<bool> nodes_of_body(const Frame& frame, const NumberedFrame& numbered) {
  if (!frame.vehicle) return {};
  std::vector<bool> body(numbered.model.nodes.size(), false);
  for (const int n : largest_weldment(frame, numbered)) body[static_cast<size_t>(n)] = true;
  return body;
}

bool suspension_gives_way(const Model& model, const std::vector<bool>& slack,
                          const Eigen::VectorXd& shape, const std::vector<bool>& body) {
  if (body.empty()) return false;
  const auto inside = [&](int from, int to) {
    return body[static_cast<size_t>(from)] && body[static_cast<size_t>(to)];
  };
  Model hung = model;
  hung.panels.clear();
  hung.bars.clear();
  std::vector<bool> hung_slack;
  std::erase_if(hung.beams, [&](const Beam& b) { return inside(b.from, b.to); });
  for (size_t b = 0; b < model.bars.size(); ++b) {
    if (inside(model.bars[b].from, model.bars[b].to)) continue;
    hung.bars.push_back(model.bars[b]);
    hung_slack.push_back(slack[b]);
  }
  constexpr double mostly = 0.5;
  return shape.dot(apply_stiffness(hung, hung_slack, shape)) >=
         mostly * shape.dot(apply_stiffness(model, slack, shape));
}

FrameSway no_sway(const std::vector<MemberFacts>& facts) {
  FrameSway sway;
  for (const MemberFacts& f : facts) sway.lengths.push_back({f.lengths, {}, {}});
  return sway;
}

FrameSway frame_sway(const Model& model, const std::vector<MemberSlot>& slots,
                     const std::vector<MemberFacts>& facts, const AxialForces& forces,
                     double safety_factor, const std::vector<bool>& body) {
  FrameSway sway = no_sway(facts);
  const double limit = second_order_limit * safety_factor;
  const auto [below, buckling] = buckling_below(model, forces, limit, most_modes);
  if (below == 0) return sway;
  const Lengthening lengthening{model, slots, facts, forces, body, sway};
  for (const BucklingMode& mode : buckling.modes) {
    if (mode.factor >= limit) break;
    lengthening.follow(mode, safety_factor);
  }
  const bool all_found =
      below > 0 && buckling.complete && static_cast<int>(buckling.modes.size()) >= below;
  if (!all_found && !buckling.modes.empty()) {
    lengthening.follow_the_rest(buckling.complete ? buckling.modes.back().factor
                                                  : buckling.modes.front().factor);
  }
  return sway;
}

}  // namespace tubewright
