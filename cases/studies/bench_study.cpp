#include "cases/studies/bench_study.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

#include "cases/frame/find_parts.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/mechanism_report.h"
#include "cases/studies/gauge_twist.h"
#include "cases/studies/torsion.h"
#include "cases/studies/two_factor_fit.h"
#include "solver/linear_algebra/golden_section.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/statics.h"

namespace tubewright {

namespace {

/// A frame without supports of its own on the stands of its torsion test: the rear pair on two
/// stands that hold it in place and leave it to turn, the front pair across a rocker in the middle
/// between them. Just enough to hold the frame: it may warp.
class Stands {
 public:
  Stands(const Frame& frame, NumberedFrame& n) : model_(n.model) {
    const auto& [front, rear] = std::pair(frame.torsion->front, frame.torsion->rear);
    rear_ = {n.node.at(rear[0]), n.node.at(rear[1])};
    front_ = {n.node.at(front[0]), n.node.at(front[1])};
    axis_ = (at(rear_[0]) - at(rear_[1])).normalized();
    for (RigidBody& body : n.model.bodies) {  // only the first node of a body can be held
      for (const int node : {rear_[0], rear_[1], front_[0]}) {
        const auto held = std::find(body.nodes.begin(), body.nodes.end(), node);
        if (held != body.nodes.end()) std::iter_swap(body.nodes.begin(), held);
      }
    }
    n.model.supports = {{rear_[0], {true, true, true, false, false, false}},
                        {rear_[1], {true, false, true, false, false, false}},
                        {front_[0], {false, false, true, false, false, false}}};
  }

  /// What the rocker gives, by moments about the line of the rear stands.
  void support_front(Actions& actions) const {
    double moment = 0;
    for (size_t i = 0; i < model_.nodes.size(); ++i) {
      const Eigen::Vector3d force =
          actions.nodal.segment<3>(dofs_per_node * static_cast<Eigen::Index>(i));
      moment += axis_.dot((model_.nodes[i] - at(rear_[0])).cross(force));
    }
    for (const int node : front_) {
      actions.nodal[dofs_per_node * node + 2] -= moment / (2 * lift_per_turn());
    }
  }

  /// Turns the frame about the rear stands until the front pair is as high as its rocker.
  void rest_on_rocker(StaticSolution& s) const {
    const double high = (s.displacements[dofs_per_node * front_[0] + 2] +
                         s.displacements[dofs_per_node * front_[1] + 2]) /
                        2;
    move_rigidly(model_, at(rear_[0]), Eigen::Vector3d::Zero(), -high / lift_per_turn() * axis_, s);
  }

 private:
  const Eigen::Vector3d& at(int node) const { return model_.nodes[static_cast<size_t>(node)]; }

  /// What a turn about the rear stands lifts the rocker by, m/rad.
  double lift_per_turn() const {
    return axis_.cross((at(front_[0]) + at(front_[1])) / 2 - at(rear_[0])).z();
  }

  const Model& model_;
  std::array<int, 2> rear_ = {}, front_ = {};
  Eigen::Vector3d axis_ = Eigen::Vector3d::Zero();
};

/// Displacements of all gauges, m.
Result<std::vector<double>> predict(const Frame& frame) {
  NumberedFrame n = jointed_model(frame);
  std::optional<Stands> stands;
  if (frame.supports.empty()) stands.emplace(frame, n);
  Actions actions = no_actions(n.model);
  for (const auto& [node, kilograms] : frame.bench_test->weights) {
    actions.nodal[dofs_per_node * n.node.at(node) + 2] -= kilograms * frame.gravity;
  }
  for (const SupportEntry& s : frame.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      actions.prescribed[dofs_per_node * n.node.at(s.node) + d] = s.displacement[d];
    }
  }
  if (stands) stands->support_front(actions);
  StaticResult solved = solve_statics(n.model, {actions});
  if (const auto* failure = solved.error()) {
    return failure_diagnostics(frame, n, *failure, "bench_test");
  }
  if (stands) stands->rest_on_rocker(solved->front());
  const Eigen::VectorXd& u = solved->front().displacements;
  std::vector<double> readings;
  for (const GaugeReading& g : frame.bench_test->gauges) {
    readings.push_back(u[dofs_per_node * n.node.at(g.node) + g.direction]);
  }
  return readings;
}

/// Root mean square of reading less prediction, over the gauges that were read.
double misfit(const BenchTest& test, const std::vector<double>& predicted) {
  double sum = 0;
  int count = 0;
  for (size_t i = 0; i < test.gauges.size(); ++i) {
    if (!test.gauges[i].reading) continue;
    const double off = *test.gauges[i].reading - predicted[i];
    sum += off * off;
    ++count;
  }
  return std::sqrt(sum / std::max(1, count));
}

Frame with_rivet_stiffness(Frame frame, double stiffness) {
  for (Sheet& sheet : frame.sheets) {
    if (sheet.rivet) sheet.rivet->stiffness = stiffness;
  }
  return frame;
}

/// Least of a function with one valley, by a scan and golden section.
double lowest(const std::function<double(double)>& f, double from, double to) {
  constexpr int steps = 24;
  double best = from, best_value = INFINITY;
  for (int i = 0; i <= steps; ++i) {
    const double x = from + (to - from) * i / steps;
    const double value = f(x);
    if (value < best_value) {
      best = x;
      best_value = value;
    }
  }
  const double step = (to - from) / steps;
  return golden_section_minimum(std::max(from, best - step), std::min(to, best + step), f);
}

struct Search {
  FitKind kind;
  double softest, stiffest;  ///< N m/rad or N/m
  Frame (*apply)(Frame, double);
};

// From a tube end that hardly holds to one that nobody could tell from a weld, and so for rivets.
constexpr Search searches[] = {{FitKind::joints, 10, 1e7, with_joint_stiffness},
                               {FitKind::rivets, 1e4, 1e10, with_rivet_stiffness}};

BenchFit fit(const Frame& frame, const Search& search, const std::vector<double>& before) {
  const BenchTest& test = *frame.bench_test;
  const auto predicted_at = [&](double stiffness) {
    const auto outcome = predict(search.apply(frame, stiffness));
    const auto* readings = outcome.get();
    return readings == nullptr ? std::vector<double>() : *readings;
  };
  const auto rms_error_at = [&](double exponent) {
    const std::vector<double> predicted = predicted_at(std::pow(10, exponent));
    return predicted.empty() ? INFINITY : misfit(test, predicted);
  };
  const double soft = std::log10(search.softest), stiff = std::log10(search.stiffest);
  const double exponent = lowest(rms_error_at, soft, stiff);
  BenchFit f;
  f.kind = search.kind;
  f.stiffness = std::pow(10, exponent);
  f.rms_before = misfit(test, before);
  const std::vector<double> after = predicted_at(f.stiffness);
  f.rms_after = misfit(test, after);
  for (size_t i = 0; i < test.gauges.size(); ++i) {
    if (test.gauges[i].reading) f.predicted.push_back(after[i]);
  }
  double greatest = 0, spread = 0;
  const std::vector<double> softest = predicted_at(search.softest),
                            stiffest = predicted_at(search.stiffest);
  for (size_t i = 0; i < stiffest.size(); ++i) {
    greatest = std::max(greatest, std::abs(stiffest[i]));
    if (!softest.empty()) spread = std::max(spread, std::abs(softest[i] - stiffest[i]));
  }
  constexpr double hardly_any = 0.01, hardly_better = 0.5;
  if (spread <= hardly_any * greatest) {
    f.state = FitState::insensitive;
  } else if (exponent > stiff - 0.05 || f.rms_after >= misfit(test, stiffest) * (1 - 1e-6)) {
    f.state = FitState::at_the_stiff_end;
  } else if (exponent < soft + 0.05) {
    f.state = FitState::at_the_soft_end;
  } else if (f.rms_after > hardly_better * f.rms_before) {
    f.state = FitState::hardly_explains;
  }
  if (frame.torsion) f.torsional_stiffness = torsional_stiffness(search.apply(frame, f.stiffness));
  return f;
}

/// Off by this much, and they may be: a division of a dial gauge (common practice, no source).
constexpr double gauge_division = 0.01e-3;  // m

/// Of a fit that has an answer. Limits are judgement: a tenth of the stiffness moves no reading by
/// a thousandth of the greatest; a condition of 10 makes an error grow fivefold.
BothState state_of_both(const TwoFactorFit& f, double rms_before) {
  constexpr double least_sensitivity = 1e-3, worst_condition = 10, hardly_better = 0.5;
  const bool joints = f.sensitivity[0] >= least_sensitivity,
             rivets = f.sensitivity[1] >= least_sensitivity;
  if (!joints && !rivets) return BothState::neither_told;
  if (!joints) return BothState::joints_not_told;
  if (!rivets) return BothState::rivets_not_told;
  if (f.condition > worst_condition) return BothState::not_told_apart;
  return f.rms > hardly_better * rms_before ? BothState::hardly_explains : BothState::found;
}

Frame with_both(const Frame& frame, const std::array<double, 2>& stiffness) {
  return with_rivet_stiffness(with_joint_stiffness(frame, stiffness[0]), stiffness[1]);
}

std::optional<BenchFitOfBoth> fit_both(const Frame& frame, const std::vector<double>& before) {
  const BenchTest& test = *frame.bench_test;
  const auto of_read = [&](const std::vector<double>& all) {
    std::vector<double> list;
    for (size_t i = 0; i < all.size(); ++i) {
      if (test.gauges[i].reading) list.push_back(all[i]);
    }
    return list;
  };
  std::vector<double> readings;
  for (const GaugeReading& g : test.gauges) {
    if (g.reading) readings.push_back(*g.reading);
  }
  BenchFitOfBoth both;
  both.rms_before = misfit(test, before);
  if (readings.size() < 3) {
    both.state = BothState::too_few_readings;
    return both;
  }
  const auto predicted_with = [&](const std::array<double, 2>& stiffness) {
    const auto outcome = predict(with_both(frame, stiffness));
    const auto* all = outcome.get();
    return all == nullptr ? std::vector<double>() : of_read(*all);
  };
  const std::array<ValueRange, 2> ranges = {
      {{searches[0].softest, searches[0].stiffest}, {searches[1].softest, searches[1].stiffest}}};
  const auto fit = fit_two_factors(predicted_with, readings, ranges, gauge_division);
  if (!fit) return std::nullopt;
  both.state = state_of_both(*fit, both.rms_before);
  both.joint_stiffness = fit->value[0];
  both.rivet_stiffness = fit->value[1];
  both.condition = fit->condition;
  both.joints_moved_by = fit->moved_by[0];
  both.rivets_moved_by = fit->moved_by[1];
  both.predicted = fit->predicted;
  both.rms_after = fit->rms;
  if (frame.torsion) both.torsional_stiffness = torsional_stiffness(with_both(frame, fit->value));
  return both;
}

const Eigen::Vector3d& position(const Frame& frame, const std::string& name) {
  return std::find_if(frame.nodes.begin(), frame.nodes.end(),
                      [&](const Node& n) { return n.name == name; })
      ->at;
}

/// Gauges at a pair of the torsion test; nothing if one is missing.
std::optional<GaugePair> gauge_pair(const Frame& frame, const std::array<std::string, 2>& nodes,
                                    const std::function<std::optional<double>(size_t)>& value) {
  GaugePair pair;
  double y[2] = {0, 0};
  for (int side = 0; side < 2; ++side) {
    bool found = false;
    for (size_t i = 0; i < frame.bench_test->gauges.size(); ++i) {
      const GaugeReading& g = frame.bench_test->gauges[i];
      if (g.node != nodes[static_cast<size_t>(side)] || g.direction != 2) continue;
      const auto reading = value(i);
      if (!reading) continue;
      (side == 0 ? pair.left : pair.right) = *reading;
      found = true;
    }
    if (!found) return std::nullopt;
    y[side] = position(frame, nodes[static_cast<size_t>(side)]).y();
  }
  pair.distance = y[0] - y[1];
  return pair;
}

/// Moment about x of the weights on the front half of the torsion test, N m.
double couple_of_weights(const Frame& frame) {
  const TorsionTest& t = *frame.torsion;
  const double front = (position(frame, t.front[0]).x() + position(frame, t.front[1]).x()) / 2;
  const double rear = (position(frame, t.rear[0]).x() + position(frame, t.rear[1]).x()) / 2;
  double couple = 0;
  for (const auto& [name, kilograms] : frame.bench_test->weights) {
    const Eigen::Vector3d& at = position(frame, name);
    const bool ahead = std::abs(at.x() - front) < std::abs(at.x() - rear);
    if (ahead) couple -= at.y() * kilograms * frame.gravity;
  }
  return couple;
}

void add_stiffness(const Frame& frame, const std::vector<double>& predicted, BenchStudy& s) {
  if (!frame.torsion) return;
  const auto read = [&](size_t i) { return frame.bench_test->gauges[i].reading; };
  const auto model = [&](size_t i) { return std::optional(predicted[i]); };
  const double couple = couple_of_weights(frame);
  const auto stiffness = [&](const std::function<std::optional<double>(size_t)>& value,
                             bool& rear_known) -> std::optional<double> {
    const auto front = gauge_pair(frame, frame.torsion->front, value);
    const auto rear = gauge_pair(frame, frame.torsion->rear, value);
    if (!front) return std::nullopt;
    rear_known = rear.has_value();
    const double K = measured_stiffness(couple, *front, rear.value_or(GaugePair{0, 0, 1}));
    if (!std::isfinite(K) || !(K > 0)) return std::nullopt;
    return K;
  };
  bool ignored = false;
  s.measured_stiffness = stiffness(read, s.rear_was_measured);
  s.model_stiffness = stiffness(model, ignored);
}

}  // namespace

Frame with_joint_stiffness(Frame frame, double stiffness) {
  std::map<std::pair<std::string, std::string>, int> meets;  // pieces of a tube at a node
  for (const Member& m : frame.members) {
    if (m.tube.empty()) continue;
    ++meets[{m.tube, m.from}];
    ++meets[{m.tube, m.to}];
  }
  for (Member& m : frame.members) {
    if (m.kind != MemberKind::beam) continue;
    for (auto [node, connection] : {std::pair{&m.from, &m.release_from}, {&m.to, &m.release_to}}) {
      if (!m.tube.empty() && meets[{m.tube, *node}] > 1) continue;
      for (const int bending : {4, 5}) {
        if (std::isinf((*connection)[bending])) (*connection)[bending] = stiffness;
      }
    }
  }
  return frame;
}

Result<BenchStudy> bench_study(const Frame& frame) {
  const auto outcome = predict(frame);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const auto& predicted = *outcome;
  BenchStudy s;
  s.held_by_supports = !frame.supports.empty();
  bool any_read = false;
  for (size_t i = 0; i < predicted.size(); ++i) {
    const GaugeReading& g = frame.bench_test->gauges[i];
    s.gauges.push_back({g.node, g.direction, predicted[i], g.reading});
    any_read = any_read || g.reading;
  }
  add_stiffness(frame, predicted, s);
  if (!any_read) return s;
  const bool has_rivets = std::any_of(
      frame.panels.begin(), frame.panels.end(),
      [&](const PanelEntry& p) { return find_sheet(frame, p.sheet).rivet.has_value(); });
  for (const Search& search : searches) {
    if (search.kind == FitKind::rivets && !has_rivets) continue;
    s.fits.push_back(fit(frame, search, predicted));
  }
  if (has_rivets) s.both = fit_both(frame, predicted);
  std::stable_sort(s.fits.begin(), s.fits.end(),
                   [](const BenchFit& a, const BenchFit& b) { return a.rms_after < b.rms_after; });
  return s;
}

}  // namespace tubewright
