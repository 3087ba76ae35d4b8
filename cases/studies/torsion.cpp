#include "cases/studies/torsion.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "cases/analysis/buckled_sheets.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/joints/panel_result.h"
#include "cases/model/mechanism_report.h"
#include "cases/model/weldments.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/strain_energy.h"

namespace tubewright {

namespace {

Diagnostic no_twist() {
  return {"the torsion test does not twist the frame",
          "check where its couple enters and what the nodes are joined to"};
}

/// `front` and `rear`: nodes to propose, left then right.
Diagnostic torsion_missing(const std::array<std::string, 2>& front,
                           const std::array<std::string, 2>& rear) {
  return {"the frame has no `torsion`: where does the couple enter?",
          "add, with the nodes that carry the axles, left then right: `torsion: {front: [" +
              front[0] + ", " + front[1] + "], rear: [" + rear[0] + ", " + rear[1] +
              "], couple: 100}`"};
}

struct Pair {
  int left = 0;
  int right = 0;
  double across = 0;  ///< y_left - y_right
  double x = 0;       ///< mean
};

Pair pair_of(const NumberedFrame& n, const std::array<std::string, 2>& names) {
  Pair p{n.node.at(names[0]), n.node.at(names[1])};
  const Eigen::Vector3d &l = n.model.nodes[p.left], &r = n.model.nodes[p.right];
  p.across = l.y() - r.y();
  p.x = (l.x() + r.x()) / 2;
  return p;
}

double height(const StaticSolution& s, int node) {
  return s.displacements[dofs_per_node * node + 2];
}

double twist_of(const Pair& p, const StaticSolution& s) {
  return (height(s, p.left) - height(s, p.right)) / p.across;
}

void add_couple(Actions& a, const Pair& p, double couple) {
  a.nodal[dofs_per_node * p.left + 2] += couple / p.across;
  a.nodal[dofs_per_node * p.right + 2] -= couple / p.across;
}

/// Rotation about x that fits the vertical displacements of the nodes best.
std::optional<double> fitted_twist(const Model& model, const StaticSolution& s,
                                   const std::vector<int>& nodes, double least_width) {
  double y = 0, w = 0, least = INFINITY, most = -INFINITY;
  const auto count = static_cast<double>(nodes.size());
  for (const int n : nodes) {
    y += model.nodes[n].y() / count;
    w += height(s, n) / count;
    least = std::min(least, model.nodes[n].y());
    most = std::max(most, model.nodes[n].y());
  }
  if (!(most - least >= least_width)) return std::nullopt;
  double yy = 0, yw = 0;
  for (const int n : nodes) {
    const double dy = model.nodes[n].y() - y;
    yy += dy * dy;
    yw += dy * (height(s, n) - w);
  }
  return yw / yy;
}

/// Of the distance between the pairs: nodes nearer than that are one station. Between stations that
/// lie closer the twist per metre is that of two brackets, not of the frame (judgement).
constexpr double station_width = 0.05;

/// Stations of the frame proper: nodes at nearly the same x that reach across a quarter of its
/// width or more.
std::vector<TwistStation> stations(const Frame& frame, const NumberedFrame& n, const Pair& front,
                                   const Pair& rear, const StaticSolution& s) {
  const double same_place = station_width * std::max(std::abs(front.x - rear.x), 1e-3);
  const double least_width = 0.25 * std::min(front.across, rear.across);
  const std::vector<bool> body =
      welded_body(frame, n, {front.left, front.right, rear.left, rear.right});
  std::vector<int> order;
  for (int i = 0; i < static_cast<int>(body.size()); ++i) {
    if (body[i]) order.push_back(i);
  }
  const auto x_of = [&](int node) { return n.model.nodes[node].x(); };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return x_of(a) < x_of(b); });

  const double twist_rear = twist_of(rear, s);
  std::vector<TwistStation> list = {
      {rear.x, 0, {rear.left, rear.right}},
      {front.x, twist_of(front, s) - twist_rear, {front.left, front.right}}};
  for (size_t i = 0; i < order.size();) {
    std::vector<int> here;
    const double start = x_of(order[i]);
    for (; i < order.size() && x_of(order[i]) <= start + same_place; ++i) here.push_back(order[i]);
    double x = 0;
    for (const int node : here) x += x_of(node) / static_cast<double>(here.size());
    const bool at_a_pair =
        std::abs(x - front.x) <= same_place || std::abs(x - rear.x) <= same_place;
    if (at_a_pair) continue;
    if (const auto twist = fitted_twist(n.model, s, here, least_width)) {
      list.push_back({x, *twist - twist_rear, std::move(here)});
    }
  }
  std::sort(list.begin(), list.end(),
            [](const TwistStation& a, const TwistStation& b) { return a.x < b.x; });
  return list;
}

/// Share of a piece from x0 to x1 that lies between a and b; a piece across goes half to each side.
double overlap(double x0, double x1, double a, double b, double tolerance) {
  const auto [low, high] = std::minmax(x0, x1);
  if (high - low <= tolerance) {
    const double x = (low + high) / 2;
    if (x < a - tolerance || x > b + tolerance) return 0;
    return std::abs(x - a) <= tolerance || std::abs(x - b) <= tolerance ? 0.5 : 1;
  }
  return std::max(0.0, std::min(high, b) - std::max(low, a)) / (high - low);
}

void add_bays(const Frame& frame, const NumberedFrame& n, const Pair& front, const Pair& rear,
              const StrainEnergy& energy, Torsion& t) {
  const auto [first, last] = std::minmax(front.x, rear.x);
  const double tolerance = 0.01 * (last - first);
  const double total = energy.total();
  for (int i = 0; i + 1 < static_cast<int>(t.profile.size()); ++i) {
    const TwistStation &a = t.profile[i], &b = t.profile[i + 1];
    if (a.x < first - tolerance || b.x > last + tolerance || b.x - a.x <= tolerance) continue;
    TwistBay bay{i, i + 1, b.twist - a.twist, (b.twist - a.twist) / (b.x - a.x), 0};
    for (size_t m = 0; m < frame.members.size(); ++m) {
      const double x0 = n.model.nodes[n.node.at(frame.members[m].from)].x();
      const double x1 = n.model.nodes[n.node.at(frame.members[m].to)].x();
      const MemberSlot slot = n.slots[m];
      const double own = slot.is_beam ? energy.beams[slot.index] : energy.bars[slot.index];
      if (total > 0) bay.energy_share += own / total * overlap(x0, x1, a.x, b.x, tolerance);
    }
    for (size_t p = 0; p < n.model.panels.size(); ++p) {
      double low = INFINITY, high = -INFINITY;
      for (const int corner : n.model.panels[p].corners) {
        low = std::min(low, n.model.nodes[corner].x());
        high = std::max(high, n.model.nodes[corner].x());
      }
      if (total > 0) {
        bay.energy_share += energy.panels[p] / total * overlap(low, high, a.x, b.x, tolerance);
      }
    }
    t.bays.push_back(bay);
    const int here = static_cast<int>(t.bays.size()) - 1;
    if (t.weakest < 0 || std::abs(bay.rate) > std::abs(t.bays[t.weakest].rate)) t.weakest = here;
  }
}

Actions test_actions(const Frame& frame, const Model& model, TorsionHold hold, const Pair& front,
                     const Pair& rear) {
  Actions actions = no_actions(model);
  add_couple(actions, front, frame.torsion->couple);
  if (hold == TorsionHold::free) add_couple(actions, rear, -frame.torsion->couple);
  return actions;
}

void add_buckling(const Frame& frame, const NumberedFrame& n, const Pair& front, const Pair& rear,
                  Torsion& t) {
  const std::vector<PanelFacts> facts = all_panel_facts(frame, n);
  const std::vector<SheetStage> flat(frame.panels.size());
  for (size_t p = 0; p < frame.panels.size(); ++p) {
    const PanelResult r = panel_result(frame, n, p, facts[p], flat, t.solution, 1);
    if (!(r.shear_stress > 0)) continue;
    const double couple = t.couple * r.critical_stress / r.shear_stress;
    if (t.buckling_couple && couple >= *t.buckling_couple) continue;
    t.buckling_couple = couple;
    t.first_to_buckle = static_cast<int>(p);
  }
  const std::vector<SheetStage> stages = sheet_stages(facts, n.model, t.solution);
  if (!any_buckled(stages)) return;
  const auto solve_again = [&](const NumberedFrame& softened,
                               const Actions& extra) -> std::optional<StaticSolution> {
    Actions actions = test_actions(frame, softened.model, t.hold, front, rear);
    add_actions(actions, extra, 1);
    StaticResult again = solve_statics(softened.model, {actions});
    if (!again) return std::nullopt;
    return std::move(again->front());
  };
  const auto iterated = iterate_sheets(n, facts, stages, no_actions(n.model), solve_again);
  if (iterated && iterated->converged) {
    const StaticSolution& solution = iterated->solution;
    t.secant_stiffness = t.couple / (twist_of(front, solution) - twist_of(rear, solution));
  }
}

/// The solved model, or why not.
struct Solved {
  NumberedFrame numbered;
  Pair front, rear;
  StaticSolution solution;
};

Result<Solved> solve(const Frame& frame, TorsionHold hold, const KnownBefore& known = {}) {
  Solved s{known.jointed ? known.jointed->numbered : jointed_model(frame), {}, {}, {}};
  Model& model = s.numbered.model;
  s.front = pair_of(s.numbered, frame.torsion->front);
  s.rear = pair_of(s.numbered, frame.torsion->rear);
  if (hold == TorsionHold::free) {
    model.supports = determinate_restraint(model);
  } else {
    model.supports = held_fully(model, {s.rear.left, s.rear.right});
  }
  StaticResult solved =
      solve_statics(model, {test_actions(frame, model, hold, s.front, s.rear)}, known.bases);
  if (const auto* failure = solved.error()) {
    return failure_diagnostics(frame, s.numbered, *failure, "torsion");
  }
  s.solution = std::move(solved->front());
  const double twist = twist_of(s.front, s.solution) - twist_of(s.rear, s.solution);
  if (!(twist > 0) || !std::isfinite(twist)) {
    return Diagnostics{error_at(frame.torsion->place, no_twist())};
  }
  return s;
}

}  // namespace

std::vector<bool> welded_body(const Frame& frame, const NumberedFrame& n,
                              const std::vector<int>& seeds) {
  const std::vector<int> weldment = weldments(frame, n);
  std::vector<bool> body(weldment.size());
  for (size_t node = 0; node < body.size(); ++node) {
    body[node] = std::any_of(seeds.begin(), seeds.end(), [&](int seed) {
      return weldment[static_cast<size_t>(seed)] == weldment[node];
    });
  }
  return body;
}

Result<Torsion> torsion_test(const Frame& frame, TorsionHold hold) {
  auto outcome = solve(frame, hold);
  if (auto* diagnostics = outcome.error()) return *diagnostics;
  auto& [n, front, rear, solution] = *outcome;
  Torsion t;
  t.hold = hold;
  t.couple = frame.torsion->couple;
  t.twist = twist_of(front, solution) - twist_of(rear, solution);
  t.stiffness = t.couple / t.twist;
  t.profile = stations(frame, n, front, rear, solution);
  const StrainEnergy energy = strain_energy(n.model, solution);
  const double total = energy.total();
  const auto share = [&](double own) { return total > 0 ? own / total : 0; };
  for (const MemberSlot slot : n.slots) {
    t.member_share.push_back(
        share(slot.is_beam ? energy.beams[slot.index] : energy.bars[slot.index]));
  }
  for (const double own : energy.panels) t.panel_share.push_back(share(own));
  add_bays(frame, n, front, rear, energy, t);
  t.solution = std::move(solution);
  add_buckling(frame, n, front, rear, t);
  return t;
}

std::optional<double> torsional_stiffness(const Frame& frame, TorsionHold hold,
                                          const KnownBefore& known) {
  const auto outcome = solve(frame, hold, known);
  const auto* solved = outcome.get();
  if (solved == nullptr) return std::nullopt;
  return frame.torsion->couple /
         (twist_of(solved->front, solved->solution) - twist_of(solved->rear, solved->solution));
}

Diagnostics no_torsion_test(const Frame& frame) {
  // The node farthest front left, and so on: a proposal, no more.
  const auto farthest = [&](double forward, double leftward) {
    std::string name;
    double best = -INFINITY;
    for (const Member& m : frame.members) {
      if (m.kind != MemberKind::beam) continue;
      for (const std::string& end : {m.from, m.to}) {
        for (const Node& node : frame.nodes) {
          const double reach = forward * node.at.x() + leftward * node.at.y();
          if (node.name == end && reach > best + 1e-9) {
            best = reach;
            name = end;
          }
        }
      }
    }
    return name;
  };
  return Diagnostics{
      torsion_missing({farthest(1, 1), farthest(1, -1)}, {farthest(-1, 1), farthest(-1, -1)})};
}

}  // namespace tubewright
