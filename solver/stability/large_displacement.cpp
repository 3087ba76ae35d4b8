#include "solver/stability/large_displacement.h"

#include <Eigen/SparseLU>
#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/stability/deformed_frame.h"
#include "solver/stability/path_step.h"
#include "solver/statics/mechanism.h"
#include "solver/statics/tension_only.h"

namespace tubewright {

namespace {

/// The tangent, factorised. All tangents of a frame have one pattern.
class TangentFactor {
 public:
  bool factorise(const SparseMatrix& K) {
    if (K.cols() == 0) return true;
    if (!analysed_) lu_.analyzePattern(K);
    analysed_ = true;
    lu_.factorize(K);
    return lu_.info() == Eigen::Success;
  }

  Eigen::VectorXd solve(const Eigen::VectorXd& f) {
    if (f.size() == 0) return f;
    return lu_.solve(f);
  }

 private:
  bool analysed_ = false;
  Eigen::SparseLU<SparseMatrix> lu_;
};

/// How the size of a step follows from the iterations the last one took. Newton's method needs 3 to
/// 5 where it converges as it should: with no more the next step is longer, with twice as many it
/// is shorter. Factors well away from 1, since a wrong size costs one step only; a step that failed
/// is cut by more (judgement; the rule is Crisfield's, length times sqrt(wanted/taken), from
/// memory). Along a path, where every step also solves for the load factor, the same a little more
/// carefully.
struct StepControl {
  int few;
  int many;
  double longer;
  double shorter;
  double after_failure;
};
constexpr StepControl load_steps = {5, 10, 1.6, 0.6, 0.3}, path_steps = {4, 9, 1.5, 0.6, 0.4};

/// An equilibrium with all that a step from it needs.
struct Equilibrium {
  double load_factor = 0;
  Configuration configuration;
  InternalForces internal;
  Eigen::VectorXd velocity;  ///< d free DOFs / d load factor
};

/// A step tried from an equilibrium.
struct Step {
  bool converged = false;
  int iterations = 0;
  Equilibrium to;
  Eigen::VectorXd moved;  ///< sum of the corrections of the free DOFs
};

Residual relative_residual(const DeformableFrame& frame, const InternalForces& r) {
  double force = 0, moment = 0;
  for (size_t i = 0; i < frame.free.unknown.size(); ++i) {
    const bool turning = frame.free.unknown[i] % dofs_per_node >= 3;
    double& worst = turning ? moment : force;
    worst = std::max(worst, std::abs(r.out_of_balance[static_cast<Eigen::Index>(i)]));
  }
  const double size = frame.size;
  const auto nodes = static_cast<double>(std::max<size_t>(1, frame.by_vector.size()));
  const double force_scale = std::max(r.greatest_force, size > 0 ? r.greatest_moment / size : 0.0);
  const double moment_scale = std::max(r.greatest_moment, r.greatest_force * size / nodes);
  // What is no more than rounding is nothing.
  const auto share = [](double value, double rounding, double scale) {
    return value <= rounding || scale == 0 ? 0 : value / scale;
  };
  return {share(force, frame.force_rounding, force_scale),
          share(moment, frame.moment_rounding, moment_scale)};
}

/// Follows one frame's equilibrium.
class PathTracer {
 public:
  PathTracer(const DeformableFrame& frame, const LargeDisplacementOptions& options)
      : frame_(frame), options_(options), has_cables_(has_tension_only(*frame.model)) {
    // Lengths of a path: rotations count with a tenth of the frame's size.
    weights_.resize(static_cast<Eigen::Index>(frame.free.unknown.size()));
    for (Eigen::Index i = 0; i < weights_.size(); ++i) {
      const double arm = 0.1 * frame.size;
      weights_[i] = frame.free.unknown[i] % dofs_per_node >= 3 ? arm * arm : 1;
    }
  }

  /// The unloaded frame; nothing if it is a mechanism.
  std::optional<Equilibrium> start();

  /// To the load factor start + change.
  Step to_load(const Equilibrium& start, double change) { return step(start, change, 0); }

  /// Along the path by `length`, first towards `direction` (+1 or -1) of the load factor.
  Step along_path(const Equilibrium& start, double length, int direction) {
    const double speed = this->length(start.velocity);
    return step(start, direction * length / speed, length);
  }

  double length(const Eigen::VectorXd& step) const { return std::sqrt(dot(step, step)); }
  double dot(const Eigen::VectorXd& a, const Eigen::VectorXd& b) const {
    return a.dot(weights_.cwiseProduct(b));
  }

  EquilibriumPoint point(const Equilibrium& e) const;

  /// Whether a step on which the load factor rises ends on the branch it began on.
  bool stays_on_path(const Equilibrium& from, const Step& step) const;

  /// Whether the load factor turns round soon along the path, in steps that begin with this change.
  bool turns_down(Equilibrium from, double change);

  int iterations() const { return iterations_; }

 private:
  Step step(const Equilibrium& start, double change, double length);
  bool finish(Equilibrium& e);
  bool turns_too_far(const Eigen::VectorXd& step) const;
  bool in_balance(const InternalForces& r, double last_work) const;
  std::optional<double> load_change(const Eigen::VectorXd& moved, const Eigen::VectorXd& correction,
                                    const Eigen::VectorXd& velocity, double length) const;
  double fraction(const Equilibrium& e, const Eigen::VectorXd& correction) const;

  const DeformableFrame& frame_;
  const LargeDisplacementOptions& options_;
  const bool has_cables_;
  Eigen::VectorXd weights_;
  TangentFactor factor_;
  int iterations_ = 0;
};

std::optional<Equilibrium> PathTracer::start() {
  Equilibrium e;
  e.configuration = reference_configuration(frame_);
  e.internal = internal_forces(frame_, e.configuration, 0, true);
  if (!e.internal.valid) return std::nullopt;
  const SparseMatrix lower = symmetric_lower(e.internal.tangent);
  const Factorisation K(lower, frame_.free.node_of);
  if (!K.positive_definite()) return std::nullopt;
  if (!surely_resists(K, lower) && !find_mechanism(*frame_.model, e.internal.slack).empty()) {
    return std::nullopt;
  }
  if (!finish(e)) return std::nullopt;
  return e;
}

/// The velocity at an equilibrium, from its tangent.
bool PathTracer::finish(Equilibrium& e) {
  if (!factor_.factorise(e.internal.tangent)) return false;
  e.velocity = factor_.solve(e.internal.rate);
  return e.velocity.allFinite();
}

bool PathTracer::turns_too_far(const Eigen::VectorXd& step) const {
  for (Eigen::Index i = 0; i < step.size(); ++i) {
    if (!std::isfinite(step[i])) return true;
    if (frame_.free.unknown[i] % dofs_per_node < 3) continue;
    if (std::abs(step[i]) > options_.greatest_turn) return true;
  }
  return false;
}

bool PathTracer::in_balance(const InternalForces& r, double last_work) const {
  const Residual residual = relative_residual(frame_, r);
  if (residual.force > options_.residual || residual.moment > options_.residual) return false;
  // Rounding of places, see deformed_frame.cpp, works on displacements that soft members make
  // large.
  const double rounding = 1e-8 * frame_.force_rounding * frame_.size;
  return last_work <= std::max(options_.energy * r.energy, rounding);
}

/// Crisfield's cylinder: change of the load factor that keeps the step's length, of two the one
/// that turns the step less.
std::optional<double> PathTracer::load_change(const Eigen::VectorXd& moved,
                                              const Eigen::VectorXd& correction,
                                              const Eigen::VectorXd& velocity,
                                              double length) const {
  const Eigen::VectorXd sum = moved + correction;
  const double a = dot(velocity, velocity), b = dot(sum, velocity);
  const double c = dot(sum, sum) - length * length;
  const double root = b * b - a * c;
  if (!(root >= 0) || !(a > 0)) return std::nullopt;
  const double first = (-b + std::sqrt(root)) / a, second = (-b - std::sqrt(root)) / a;
  const double turn = dot(moved, velocity);
  return first * turn >= second * turn ? first : second;
}

/// Cables kink the energy, and Newton's method may swing between two sets of slack ones: go only as
/// far as the out-of-balance still falls along the correction.
double PathTracer::fraction(const Equilibrium& e, const Eigen::VectorXd& correction) const {
  constexpr int most_trials = 8;
  const double at_start = correction.dot(e.internal.out_of_balance);
  double low = 0, slope_low = at_start, best = 1;
  for (int i = 0; i < most_trials; ++i) {
    Configuration p = e.configuration;
    update_configuration(frame_, best * correction, e.load_factor, p);
    const InternalForces r = internal_forces(frame_, p, e.load_factor, false);
    if (!r.valid) {
      best = (low + best) / 2;
      continue;
    }
    const double slope = correction.dot(r.out_of_balance);
    if (std::abs(slope) <= 0.5 * std::abs(at_start) || slope * at_start > 0) return best;
    // Overshot: between low and best the slope changes its sign.
    const double next = low + (best - low) * slope_low / (slope_low - slope);
    best = std::max(next, low + 0.1 * (best - low));
  }
  return best;
}

Step PathTracer::step(const Equilibrium& start, double change, double length) {
  Step s;
  Equilibrium& e = s.to;
  e.configuration = start.configuration;
  e.load_factor = start.load_factor + change;
  s.moved = change * start.velocity;
  if (turns_too_far(s.moved)) return s;
  update_configuration(frame_, s.moved, e.load_factor, e.configuration);
  double last_work = std::numeric_limits<double>::infinity();
  for (;; ++s.iterations, ++iterations_) {
    e.internal = internal_forces(frame_, e.configuration, e.load_factor, true);
    if (!e.internal.valid) return s;
    if (in_balance(e.internal, last_work)) {
      s.converged = finish(e);
      return s;
    }
    if (s.iterations == options_.most_iterations) return s;
    if (!factor_.factorise(e.internal.tangent)) return s;
    Eigen::VectorXd correction = factor_.solve(-e.internal.out_of_balance);
    if (length > 0) {
      const Eigen::VectorXd velocity = factor_.solve(e.internal.rate);
      const std::optional<double> more = load_change(s.moved, correction, velocity, length);
      if (!more) return s;
      correction += *more * velocity;
      e.load_factor += *more;
    }
    if (turns_too_far(correction)) return s;
    if (has_cables_ && length == 0) correction *= fraction(e, correction);
    last_work = std::abs(correction.dot(e.internal.out_of_balance));
    s.moved += correction;
    update_configuration(frame_, correction, e.load_factor, e.configuration);
  }
}

EquilibriumPoint PathTracer::point(const Equilibrium& e) const {
  EquilibriumPoint p;
  p.load_factor = e.load_factor;
  p.displacements = e.configuration.displacements;
  const SparseMatrix tangent = tangent_with_bowing(frame_, e.configuration, e.internal);
  const Factorisation K(symmetric_lower(tangent), frame_.free.node_of,
                        FactorisationMethod::simplicial);
  p.stable = K.positive_definite();
  p.negative_pivots = static_cast<int>((K.pivot_ratios().array() < 0).count());
  return p;
}

/// A step may turn no member so far that it could have been turned inside out.
bool turns_a_member_over(const Model& model, const Eigen::VectorXd& u, const Eigen::VectorXd& v) {
  constexpr double greatest = 0.7;  // of its length, its ends against each other (judgement)
  const auto turned = [&](int from, int to) {
    const Eigen::Vector3d before =
                              u.segment<3>(dofs_per_node * to) - u.segment<3>(dofs_per_node * from),
                          after =
                              v.segment<3>(dofs_per_node * to) - v.segment<3>(dofs_per_node * from);
    const Eigen::Vector3d along = model.nodes[to] - model.nodes[from];
    return (after - before).norm() > greatest * (along + before).norm();
  };
  return std::any_of(model.beams.begin(), model.beams.end(),
                     [&](const Beam& b) { return turned(b.from, b.to); }) ||
         std::any_of(model.bars.begin(), model.bars.end(),
                     [&](const Bar& b) { return turned(b.from, b.to); });
}

bool PathTracer::stays_on_path(const Equilibrium& from, const Step& step) const {
  if (turns_a_member_over(*frame_.model, from.configuration.displacements,
                          step.to.configuration.displacements)) {
    return false;
  }
  constexpr double rounding = 1e-9;
  const bool kinked = has_cables_ && from.internal.slack != step.to.internal.slack;
  return tubewright::stays_on_path(
      {from.velocity, step.to.velocity, step.moved, step.to.load_factor - from.load_factor, kinked},
      weights_, frame_.free.node_of, rounding * frame_.size);
}

bool PathTracer::turns_down(Equilibrium from, double change) {
  // The load that bowing takes from coarse beams is far less; beyond it another branch may turn.
  constexpr double soon = 1.03, longer = 1.6;
  constexpr int most_trials = 25;
  const double end = soon * from.load_factor;
  double step_length = change * length(from.velocity);
  for (int i = 0; i < most_trials && from.load_factor <= end; ++i) {
    Step step = along_path(from, step_length, 1);
    if (!step.converged) return false;
    if (dot(step.moved, step.to.velocity) < 0) return true;
    step_length *= longer;
    from = std::move(step.to);
  }
  return false;
}

BeamState beam_now(const DeformableFrame& frame, size_t i, const CorotationalBeamState& state,
                   const Actions& actions, double load_factor) {
  BeamState b;
  b.element = beam_element(*frame.model, frame.model->beams[i]);
  const CondensedBeam condensed = *condense(b.element);
  b.element.axes = state.axes;
  BeamActions& on_beam = b.actions = actions.beams[i];
  on_beam.line *= load_factor;
  on_beam.couple *= load_factor;
  for (PointAction& p : on_beam.points) {
    p.force *= load_factor;
    p.moment *= load_factor;
  }
  b.end_forces = state.local_forces - rotation_12(state.axes) * (load_factor * frame.beam_loads[i]);
  b.end_displacements = condensed.from_joint * state.displacements +
                        condensed.from_load * local_equivalent_loads(b.element, on_beam);
  return b;
}

void describe(const DeformableFrame& frame, const Actions& actions, const Equilibrium& e,
              LargeDisplacementSolution& s) {
  const Model& model = *frame.model;
  s.load_factor = e.load_factor;
  s.displacements = e.configuration.displacements;
  s.reactions = Eigen::VectorXd::Zero(dof_count(model));
  for (const Support& support : model.supports) {
    const int first = dofs_per_node * support.node;
    for (int d = 0; d < 3; ++d) {
      if (support.restrained[d]) s.reactions[first + d] = e.internal.residual[first + d];
    }
    if (support.restrained[3] || support.restrained[4] || support.restrained[5]) {
      s.reactions.segment<3>(first + 3) = e.internal.residual.segment<3>(first + 3);
    }
  }
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const CorotationalBeamState& state = e.internal.beams[i];
    s.beams.push_back(beam_now(frame, i, state, actions, e.load_factor));
    for (const int end : {3, 9}) {
      s.greatest_local_rotation =
          std::max(s.greatest_local_rotation, state.displacements.segment<3>(end).norm());
    }
  }
  s.bar_forces = e.internal.bar_forces;
  s.slack = e.internal.slack;
  s.residual = relative_residual(frame, e.internal);
  s.strain_energy = e.internal.energy;
}

std::string at_load(double load_factor) { return " at load factor " + std::to_string(load_factor); }

/// Idle rotations are exact for hinges; where two-axis releases twist, they may not be idle at all.
void check_idle(const Equilibrium& e, LargeDisplacementSolution& s) {
  if (!s.converged || e.internal.zero_stiffness_moment <= 1e-6 * e.internal.greatest_moment) return;
  s.converged = false;
  s.reason = "a moment is left about a pin that nothing stops from turning";
}

/// An answer that nothing was solved for, and why.
LargeDisplacementSolution not_solved(const Model& model, const std::string& reason) {
  LargeDisplacementSolution s;
  s.reason = reason;
  s.displacements = s.reactions = Eigen::VectorXd::Zero(dof_count(model));
  return s;
}

constexpr const char* mechanism = "the unloaded frame can move without resistance";

}  // namespace

namespace {

/// A change of the load factor below which nothing is looked for.
constexpr double next_to_nothing = 1e-12;

/// Along the path, the load factor rising, to load factor 1 or to where stability is lost.
class StableWay {
 public:
  StableWay(PathTracer& tracer, const LargeDisplacementOptions& options, Equilibrium start,
            LargeDisplacementSolution& solution)
      : tracer_(tracer),
        options_(options),
        s_(solution),
        now_(std::move(start)),
        change_(std::min(options.first_step, options.greatest_step)) {}

  const Equilibrium& now() const { return now_; }

  void go() {
    for (int tried = 0; now_.load_factor < 1 && s_.stop == PathStop::none; ++tried) {
      if (tried == options_.most_steps) {
        s_.stop = PathStop::unknown;
        s_.reason = "too many steps" + at_load(now_.load_factor);
        return;
      }
      try_step();
    }
  }

 private:
  enum class Outcome { good, unstable, failed };

  void try_step();
  Outcome judge(const Step& step, EquilibriumPoint& point) const;
  void accept(Step step, EquilibriumPoint point, bool by_length);
  void after_unstable();
  void after_failure(bool by_length);
  void lose(PathStop stop);

  PathTracer& tracer_;
  const LargeDisplacementOptions& options_;
  LargeDisplacementSolution& s_;
  Equilibrium now_;
  double change_;           ///< of the load factor, of a step by length as its start foresees it
  bool by_length_ = false;  ///< the next step's way
  int good_steps_ = 0;      ///< since the last one that was not
};

StableWay::Outcome StableWay::judge(const Step& step, EquilibriumPoint& point) const {
  if (!step.converged) return Outcome::failed;
  point = tracer_.point(step.to);
  if (!point.stable || tracer_.dot(step.moved, step.to.velocity) < 0) return Outcome::unstable;
  return tracer_.stays_on_path(now_, step) ? Outcome::good : Outcome::failed;
}

/// Load steps end at load factor 1 exactly; a step by length that goes past it is not taken.
void StableWay::try_step() {
  const double left = 1 - now_.load_factor;
  const bool last = change_ >= left;
  const double length = change_ * tracer_.length(now_.velocity);
  const bool by_length = by_length_ && !last && length > 0;
  Step step = by_length ? tracer_.along_path(now_, length, 1)
                        : tracer_.to_load(now_, last ? left : change_);
  EquilibriumPoint point;
  const Outcome outcome = judge(step, point);
  if (outcome == Outcome::unstable) return after_unstable();
  const bool too_far = by_length && step.to.load_factor >= 1;
  if (outcome == Outcome::failed || too_far) return after_failure(by_length);
  if (last) step.to.load_factor = point.load_factor = 1;
  accept(std::move(step), std::move(point), by_length);
}

void StableWay::accept(Step step, EquilibriumPoint point, bool by_length) {
  const StepControl& control = by_length ? path_steps : load_steps;
  const double slower = tracer_.length(now_.velocity) / tracer_.length(step.to.velocity);
  // The same length of the path again.
  if (by_length) change_ = std::min(change_ * slower, options_.greatest_step);
  // Not at once after a step that had to be cut: the next one may meet the same.
  if (step.iterations <= control.few && (good_steps_ > 0 || s_.path.size() == 1)) {
    change_ = std::min(control.longer * change_, options_.greatest_step);
  }
  if (step.iterations >= control.many) change_ *= control.shorter;
  ++good_steps_;
  constexpr double no_longer_softer = 0.95;
  if (by_length && good_steps_ > 1 && slower > no_longer_softer) by_length_ = false;
  now_ = std::move(step.to);
  s_.path.push_back(std::move(point));
}

/// Stability is lost within this step: halve it until it is known where.
void StableWay::after_unstable() {
  constexpr double fine = 2e-4, half = 0.5;
  change_ = std::min(change_, 1 - now_.load_factor);
  const bool found = change_ <= std::max(next_to_nothing, fine * now_.load_factor);
  if (found)
    return lose(tracer_.turns_down(now_, change_) ? PathStop::snaps_through : PathStop::buckles);
  change_ *= half;
  good_steps_ = 0;
  by_length_ = true;
}

/// By length where a load step failed; a load step, which cables like better, where that did too.
void StableWay::after_failure(bool by_length) {
  change_ = load_steps.after_failure * std::min(change_, 1 - now_.load_factor);
  constexpr double least_share = 1e-6;  // of the load there is: a soft frame's way may be short
  const double least = std::max(next_to_nothing, least_share * now_.load_factor);
  if (change_ < std::min(options_.least_step, least)) return lose(PathStop::unknown);
  good_steps_ = 0;
  by_length_ = !by_length;
}

void StableWay::lose(PathStop stop) {
  s_.stop = stop;
  s_.limit_load_factor = now_.load_factor;
  const std::string share = std::to_string(now_.load_factor);
  s_.reason = stop == PathStop::buckles ? "loses its stability at load share " + share +
                                              " (a member or the frame buckles sideways)"
              : stop == PathStop::snaps_through
                  ? "reaches its greatest load at load share " + share + " and snaps through"
                  : "no equilibrium follows" + at_load(now_.load_factor);
}

}  // namespace

LargeDisplacementSolution solve_large_displacement(const Model& model, const Actions& actions,
                                                   const LargeDisplacementOptions& options) {
  const auto deformable = deformable_frame(model, actions);
  if (const auto* why = deformable.error()) return not_solved(model, *why);
  const auto& frame = *deformable;
  PathTracer tracer(frame, options);
  std::optional<Equilibrium> start = tracer.start();
  if (!start) return not_solved(model, mechanism);
  LargeDisplacementSolution s;
  s.path.push_back(tracer.point(*start));
  StableWay way(tracer, options, std::move(*start), s);
  way.go();
  s.converged = way.now().load_factor >= 1;
  s.iterations = tracer.iterations();
  check_idle(way.now(), s);
  describe(frame, actions, way.now(), s);
  return s;
}

namespace {

bool passed(const PathEnd& end, const Eigen::VectorXd& u) {
  const double value = u[dofs_per_node * end.node + end.direction];
  return end.value < 0 ? value <= end.value : value >= end.value;
}

/// Where a path's step goes on up (+1) or down (-1) in load factor.
int direction_after(const PathTracer& tracer, const Step& step) {
  return tracer.dot(step.moved, step.to.velocity) >= 0 ? 1 : -1;
}

/// The limit point inside a step of this length, at whose end the load factor no longer goes in
/// `direction`: root of its slope along the path, +-1/|velocity|, by false position (Illinois).
std::optional<Step> limit_point(PathTracer& tracer, const Equilibrium& start, const Step& step,
                                double length, int direction) {
  constexpr int most_trials = 12;
  constexpr double fine = 1e-3;  // of the first slope: the load factor is then within 1e-6
  const double first = direction / tracer.length(start.velocity);
  double low = 0, high = length, f_low = first;
  double f_high = -direction / tracer.length(step.to.velocity);
  std::optional<Step> best;
  int last_side = 0;
  for (int i = 0; i < most_trials; ++i) {
    const double at = low + (high - low) * f_low / (f_low - f_high);
    Step trial = tracer.along_path(start, at, direction);
    if (!trial.converged) break;
    const double f = direction_after(tracer, trial) / tracer.length(trial.to.velocity);
    best = std::move(trial);
    if (std::abs(f) < fine * std::abs(first)) break;
    if (f * first > 0) {
      low = at;
      f_low = f;
      if (last_side == 1) f_high /= 2;
      last_side = 1;
    } else {
      high = at;
      f_high = f;
      if (last_side == -1) f_low /= 2;
      last_side = -1;
    }
  }
  return best;
}

}  // namespace

LargeDisplacementSolution trace_path(const Model& model, const Actions& actions,
                                     const LargeDisplacementOptions& options) {
  const auto deformable = deformable_frame(model, actions);
  if (const auto* why = deformable.error()) return not_solved(model, *why);
  const auto& frame = *deformable;
  PathTracer tracer(frame, options);
  std::optional<Equilibrium> now = tracer.start();
  if (!now) return not_solved(model, mechanism);
  LargeDisplacementSolution s;
  s.path.push_back(tracer.point(*now));
  const double first_length = options.first_step * tracer.length(now->velocity);
  if (!(first_length > 0)) {
    s.converged = true;  // nothing acts on what can move
    describe(frame, actions, *now, s);
    return s;
  }
  double length = first_length;
  int direction = options.path_load_factor < 0 ? -1 : 1;
  for (int tried = 0; !s.converged; ++tried) {
    if (tried == options.most_steps || static_cast<int>(s.path.size()) >= options.path_points) {
      s.reason = "too many steps" + at_load(now->load_factor);
      break;
    }
    Step step = tracer.along_path(*now, length, direction);
    if (!step.converged) {
      length *= path_steps.after_failure;
      if (length < options.least_step * first_length) {
        s.reason = "no equilibrium follows" + at_load(now->load_factor);
        break;
      }
      continue;
    }
    const double done = length;
    if (step.iterations <= path_steps.few) {
      length = std::min(path_steps.longer * length, options.greatest_length * first_length);
    }
    if (step.iterations >= path_steps.many) length *= path_steps.shorter;

    const int next_direction = direction_after(tracer, step);
    if (next_direction != direction) {
      if (const auto top = limit_point(tracer, *now, step, done, direction)) {
        s.limit_points.push_back(s.path.size());
        s.path.push_back(tracer.point(top->to));
        if (!s.limit_load_factor) s.limit_load_factor = top->to.load_factor;
      }
    }
    direction = next_direction;
    if (std::abs(step.to.load_factor) >= std::abs(options.path_load_factor)) {
      s.converged = true;
      const double wanted = std::copysign(options.path_load_factor, step.to.load_factor);
      Step exact = tracer.to_load(*now, wanted - now->load_factor);
      if (exact.converged && tracer.length(exact.moved) <= done) step = std::move(exact);
    }
    now = std::move(step.to);
    if (options.end && passed(*options.end, now->configuration.displacements)) s.converged = true;
    s.path.push_back(tracer.point(*now));
  }
  s.iterations = tracer.iterations();
  check_idle(*now, s);
  describe(frame, actions, *now, s);
  return s;
}

}  // namespace tubewright
