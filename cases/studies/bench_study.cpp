#include "cases/studies/bench_study.h"

#include <Eigen/Geometry>
#include <Eigen/QR>
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

/// Residuals of the gauges that were read, m.
Eigen::VectorXd residuals(const BenchTest& test, const std::vector<double>& predicted) {
  std::vector<double> off;
  for (size_t i = 0; i < test.gauges.size(); ++i) {
    if (test.gauges[i].reading) off.push_back(*test.gauges[i].reading - predicted[i]);
  }
  return Eigen::Map<const Eigen::VectorXd>(off.data(), static_cast<Eigen::Index>(off.size()));
}

/// Joints and rivets at once: Gauss-Newton on the logarithms of both stiffnesses, from the two
/// single fits.
class FitOfBoth {
 public:
  FitOfBoth(const Frame& frame, const BenchFit& joints, const BenchFit& rivets)
      : frame_(frame), at_(std::log10(joints.stiffness), std::log10(rivets.stiffness)) {}

  std::optional<BenchFit> fit(const std::vector<double>& before) {
    BenchFit f;
    f.kind = FitKind::both;
    f.rms_before = misfit(*frame_.bench_test, before);
    auto off = residuals_at(at_);
    if (!off) return std::nullopt;
    constexpr int most_steps = 30;
    for (int i = 0; i < most_steps && improve(*off); ++i) {
    }
    f.stiffness = std::pow(10, at_[0]);
    f.rivet_stiffness = std::pow(10, at_[1]);
    const auto after = predict(applied(at_));
    const auto* readings = after.get();
    const auto slopes = slopes_at(at_);
    if (readings == nullptr || !slopes) return std::nullopt;
    f.rms_after = misfit(*frame_.bench_test, *readings);
    for (size_t i = 0; i < readings->size(); ++i) {
      if (frame_.bench_test->gauges[i].reading) f.predicted.push_back((*readings)[i]);
    }
    if (!tell_apart(*slopes)) {
      f.state = FitState::not_told_apart;
    } else if (f.rms_after > 0.5 * f.rms_before) {
      f.state = FitState::hardly_explains;
    }
    if (frame_.torsion) f.torsional_stiffness = torsional_stiffness(applied(at_));
    return f;
  }

 private:
  Frame applied(const Eigen::Vector2d& x) const {
    return with_rivet_stiffness(with_joint_stiffness(frame_, std::pow(10, x[0])),
                                std::pow(10, x[1]));
  }

  std::optional<Eigen::VectorXd> residuals_at(const Eigen::Vector2d& x) const {
    const auto outcome = predict(applied(x));
    const auto* predicted = outcome.get();
    if (predicted == nullptr) return std::nullopt;
    return residuals(*frame_.bench_test, *predicted);
  }

  /// Of the residuals, a column for each of the two logarithms.
  std::optional<Eigen::MatrixXd> slopes_at(const Eigen::Vector2d& x) const {
    constexpr double step = 0.02;
    Eigen::MatrixXd slopes;
    for (const int k : {0, 1}) {
      const Eigen::Vector2d by = step * Eigen::Vector2d::Unit(k);
      const auto more = residuals_at(x + by), less = residuals_at(x - by);
      if (!more || !less) return std::nullopt;
      if (k == 0) slopes.resize(more->size(), 2);
      slopes.col(k) = (*more - *less) / (2 * step);
    }
    return slopes;
  }

  /// Whether a step made the residuals smaller by more than nothing.
  bool improve(Eigen::VectorXd& off) {
    const auto slopes = slopes_at(at_);
    if (!slopes) return false;
    const Eigen::VectorXd wanted = slopes->colPivHouseholderQr().solve(-off);
    Eigen::Vector2d step = wanted;
    if (!step.allFinite()) return false;
    step = step.cwiseMax(-1).cwiseMin(1);  // a decade at most
    for (int halvings = 0; halvings < 12; ++halvings, step /= 2) {
      const Eigen::Vector2d next = (at_ + step)
                                       .cwiseMax(Eigen::Vector2d(std::log10(searches[0].softest),
                                                                 std::log10(searches[1].softest)))
                                       .cwiseMin(Eigen::Vector2d(std::log10(searches[0].stiffest),
                                                                 std::log10(searches[1].stiffest)));
      const auto there = residuals_at(next);
      if (!there || !(there->norm() < off.norm() * (1 - 1e-9))) continue;
      at_ = next;
      off = *there;
      return true;
    }
    return false;
  }

  /// Readings are off by a percent or so: twenty times that is what an answer may be off by.
  static bool tell_apart(const Eigen::MatrixXd& slopes) {
    constexpr double worst_condition = 20;
    if (slopes.rows() < 2) return false;
    const double a = slopes.col(0).norm(), b = slopes.col(1).norm();
    if (!(a > 0 && b > 0)) return false;
    const double alike = std::abs(slopes.col(0).dot(slopes.col(1))) / (a * b);
    return (1 + alike) < worst_condition * worst_condition * (1 - alike);
  }

  const Frame& frame_;
  Eigen::Vector2d at_;
};

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
  for (const Search& search : searches) {
    if (search.kind == FitKind::rivets &&
        std::none_of(frame.panels.begin(), frame.panels.end(), [&](const PanelEntry& p) {
          return find_sheet(frame, p.sheet).rivet.has_value();
        })) {
      continue;
    }
    s.fits.push_back(fit(frame, search, predicted));
  }
  std::optional<BenchFit> both;
  if (s.fits.size() == 2) both = FitOfBoth(frame, s.fits[0], s.fits[1]).fit(predicted);
  std::stable_sort(s.fits.begin(), s.fits.end(),
                   [](const BenchFit& a, const BenchFit& b) { return a.rms_after < b.rms_after; });
  if (both) s.fits.push_back(std::move(*both));
  return s;
}

}  // namespace tubewright
