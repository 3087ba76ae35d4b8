#include "solver/statics/statics.h"

#include <algorithm>
#include <map>
#include <optional>

#include "solver/elements/rigid_bodies.h"
#include "solver/linear_algebra/factorisation.h"
#include "solver/statics/assembly.h"
#include "solver/statics/tension_only.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

/// A case's displacements, and the cables that went slack in it.
struct Moved {
  Eigen::VectorXd u;  ///< six a node
  std::vector<bool> slack;
};

}  // namespace

class StaticSolver::Impl {
 public:
  Impl(const Model& model, const BaseStiffnesses* bases)
      : model_(model),
        free_(number_free_dofs(model)),
        base_(bases == nullptr ? nullptr : bases->matching(free_)),
        none_slack_(model.bars.size(), false) {}

  Outcome<std::vector<Moved>, StaticFailure> moved(const std::vector<Actions>& cases);
  const Model& model() const { return model_; }

 private:
  /// The model with a given set of slack cables, factorised or updated from a base.
  struct System {
    Eigen::MatrixXd solved(const Eigen::MatrixXd& F) const {
      return update ? update->solve(F) : factor->solve(F);
    }

    SparseMatrix K;
    std::vector<ZeroStiffnessDof> loose;
    std::optional<StiffnessUpdate> update;
    std::optional<Factorisation> factor;   ///< where there is no update
    std::optional<StaticFailure> failure;  ///< set if it has no answer for any load
  };

  const System& system(const std::vector<bool>& slack);
  std::optional<StaticFailure> without_answer(const System& s,
                                              const std::vector<bool>& slack) const;
  struct Displacements {
    Eigen::MatrixXd u;          ///< one column a case, six rows a node
    std::vector<bool> trusted;  ///< one a case: false if rounding has spoilt it
  };
  Displacements displacements(const System& s, const std::vector<bool>& slack,
                              const Eigen::MatrixXd& loads, const Eigen::MatrixXd& prescribed);
  std::optional<Mechanism> unresisted(const System& s, const Eigen::VectorXd& physical) const;
  std::optional<StaticFailure> iterate_cables(const Eigen::VectorXd& loads,
                                              const Eigen::VectorXd& prescribed, Eigen::VectorXd& u,
                                              std::vector<bool>& slack);

  const Model& model_;
  const FreeDofs free_;
  const BaseStiffness* base_;  ///< null: none
  const std::vector<bool> none_slack_;
  std::map<std::vector<bool>, System> systems_;
};

const StaticSolver::Impl::System& StaticSolver::Impl::system(const std::vector<bool>& slack) {
  const auto [place, is_new] = systems_.try_emplace(slack);
  System& s = place->second;
  if (!is_new) return s;
  s.K = assemble_stiffness(model_, free_, slack);
  s.loose = restrain_zero_stiffness_dofs(s.K, free_);
  if (base_ != nullptr) s.update = StiffnessUpdate::between(*base_, s.K);
  if (s.update) return s;
  s.factor.emplace(s.K, free_.node_of);
  s.failure = without_answer(s, slack);
  return s;
}

std::optional<StaticFailure> StaticSolver::Impl::without_answer(
    const System& s, const std::vector<bool>& slack) const {
  if (surely_resists(*s.factor, s.K)) return std::nullopt;
  Mechanism mechanism = find_mechanism(model_, slack);
  if (!mechanism.empty()) {
    return StaticFailure{0, StaticFailure::Why::mechanism, std::move(mechanism), slack};
  }
  if (s.factor->positive_definite()) return std::nullopt;
  return StaticFailure{0, StaticFailure::Why::scaling, {}, slack};
}

/// Share of a displacement, measured by the stiffness under it, that a step of refinement may still
/// change. Sound frames stay below 1e-10; far above that the digits of the answer are rounding.
constexpr double most_refinement = 1e-5;

/// Whether the correction dx of each column of x is small, rows weighted by sqrt(K_ii).
std::vector<bool> small_corrections(const SparseMatrix& K, const Eigen::MatrixXd& x,
                                    const Eigen::MatrixXd& dx) {
  const Eigen::VectorXd weight = K.diagonal().cwiseMax(0).cwiseSqrt();
  std::vector<bool> small;
  for (Eigen::Index c = 0; c < x.cols(); ++c) {
    const double size = weight.cwiseProduct(x.col(c)).norm();
    const double change = weight.cwiseProduct(dx.col(c)).norm();
    small.push_back(change <= most_refinement * size);  // false for NaN
  }
  return small;
}

/// One step of iterative refinement follows the solve.
StaticSolver::Impl::Displacements StaticSolver::Impl::displacements(
    const System& s, const std::vector<bool>& slack, const Eigen::MatrixXd& loads,
    const Eigen::MatrixXd& prescribed) {
  Eigen::MatrixXd right_side(free_.unknown.size(), loads.cols());
  for (Eigen::Index c = 0; c < loads.cols(); ++c) {
    Eigen::VectorXd f = loads.col(c);
    if (!prescribed.col(c).isZero(0)) {
      Eigen::VectorXd u = prescribed.col(c);
      follow_masters(model_, free_.masters, u);
      f -= apply_stiffness(model_, slack, u);
    }
    gather_on_masters(model_, free_.masters, f);
    right_side.col(c) = f(free_.unknown);
  }
  Eigen::MatrixXd x = s.solved(right_side);
  const Eigen::MatrixXd dx = s.solved(right_side - s.K.selfadjointView<Eigen::Lower>() * x);
  Displacements result{prescribed, small_corrections(s.K, x, dx)};
  x += dx;
  Eigen::MatrixXd& u = result.u;
  for (Eigen::Index c = 0; c < loads.cols(); ++c) {
    Eigen::VectorXd one = u.col(c);
    one(free_.unknown) = x.col(c);
    follow_masters(model_, free_.masters, one);
    u.col(c) = one;
  }
  return result;
}

/// Loads that nothing can resist although the rest of the frame is sound.
std::optional<Mechanism> StaticSolver::Impl::unresisted(const System& s,
                                                        const Eigen::VectorXd& physical) const {
  Eigen::VectorXd loads = physical;
  gather_on_masters(model_, free_.masters, loads);
  constexpr double rounding = 1e-9;
  std::vector<bool> resisted(loads.size(), false);
  for (const int i : free_.unknown) resisted[i] = true;
  for (const Support& support : model_.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      if (support.restrained[d]) resisted[dofs_per_node * support.node + d] = true;
    }
  }
  Mechanism m;
  double greatest_moment = 0;
  for (Eigen::Index i = 0; i < loads.size(); ++i) {
    const int node = static_cast<int>(i) / dofs_per_node;
    const int direction = static_cast<int>(i) % dofs_per_node;
    if (direction >= 3) greatest_moment = std::max(greatest_moment, std::abs(loads[i]));
    if (!resisted[i] && loads[i] != 0) m.motions.push_back({node, direction, false, {node}});
  }
  for (const ZeroStiffnessDof& loose : s.loose) {
    const Eigen::Vector3d moment = loads.segment<3>(dofs_per_node * loose.node + 3);
    if (std::abs(loose.axis.dot(moment)) <= rounding * greatest_moment) continue;
    Eigen::Index axis = 0;
    loose.axis.cwiseAbs().maxCoeff(&axis);
    m.motions.push_back({loose.node, 3 + static_cast<int>(axis), false, {loose.node}});
  }
  if (m.empty()) return std::nullopt;
  return m;
}

/// Newton's method on the energy, see tension_only.h. In: `u` with no cable slack. Out: the answer.
std::optional<StaticFailure> StaticSolver::Impl::iterate_cables(const Eigen::VectorXd& loads,
                                                                const Eigen::VectorXd& prescribed,
                                                                Eigen::VectorXd& u,
                                                                std::vector<bool>& slack) {
  constexpr int most_changes = 200;
  slack = none_slack_;
  std::vector<bool> next = slack_under(model_, u);
  for (int i = 0; i < most_changes; ++i) {
    if (next == slack) return std::nullopt;
    slack = next;
    const System& s = system(slack);
    if (s.failure) return s.failure;
    if (auto m = unresisted(s, loads)) {
      return StaticFailure{0, StaticFailure::Why::mechanism, *m, slack};
    }
    const Displacements found = displacements(s, slack, loads, prescribed);
    if (!found.trusted.front()) return StaticFailure{0, StaticFailure::Why::scaling, {}, slack};
    const Eigen::VectorXd target = found.u.col(0);
    next = slack_under(model_, target);
    if (next == slack) {
      u = target;
      return std::nullopt;
    }
    u += energy_step(model_, u, target - u, loads) * (target - u);
    next = slack_under(model_, u);
    if (next == slack) next = slack_under(model_, target);
  }
  return StaticFailure{0, StaticFailure::Why::cables, {}, slack};
}

Outcome<std::vector<Moved>, StaticFailure> StaticSolver::Impl::moved(
    const std::vector<Actions>& cases) {
  const System& taut = system(none_slack_);
  if (taut.failure) return *taut.failure;

  const Eigen::MatrixXd loads = joint_loads(model_, cases);
  Eigen::MatrixXd prescribed = Eigen::MatrixXd::Zero(loads.rows(), loads.cols());
  for (size_t c = 0; c < cases.size(); ++c) {
    const auto column = static_cast<Eigen::Index>(c);
    for (const Support& s : model_.supports) {
      for (int d = 0; d < dofs_per_node; ++d) {
        const int i = dofs_per_node * s.node + d;
        if (s.restrained[d]) prescribed(i, column) = cases[c].prescribed[i];
      }
    }
    if (auto m = unresisted(taut, loads.col(column))) {
      return StaticFailure{static_cast<int>(c), StaticFailure::Why::mechanism, *m, none_slack_};
    }
  }

  const Displacements found = displacements(taut, none_slack_, loads, prescribed);
  std::vector<Moved> all;
  for (size_t c = 0; c < cases.size(); ++c) {
    if (!found.trusted[c]) {
      return StaticFailure{static_cast<int>(c), StaticFailure::Why::scaling, {}, none_slack_};
    }
    const auto column = static_cast<Eigen::Index>(c);
    Moved one{found.u.col(column), none_slack_};
    if (has_tension_only(model_)) {
      if (auto failure =
              iterate_cables(loads.col(column), prescribed.col(column), one.u, one.slack)) {
        failure->load_case = static_cast<int>(c);
        return *failure;
      }
    }
    all.push_back(std::move(one));
  }
  return all;
}

StaticSolver::StaticSolver(const Model& model, const BaseStiffnesses* bases)
    : impl_(std::make_unique<Impl>(model, bases)) {}

StaticSolver::~StaticSolver() = default;

StaticResult StaticSolver::solve(const std::vector<Actions>& cases) {
  auto moved = impl_->moved(cases);
  if (const auto* failure = moved.error()) return *failure;
  std::vector<Eigen::VectorXd> displacements;
  std::vector<std::vector<bool>> slack;
  for (Moved& m : *moved) {
    displacements.push_back(std::move(m.u));
    slack.push_back(std::move(m.slack));
  }
  return recover(impl_->model(), cases, slack, displacements);
}

Outcome<std::vector<Eigen::VectorXd>, StaticFailure> StaticSolver::displacements(
    const std::vector<Actions>& cases) {
  auto moved = impl_->moved(cases);
  if (const auto* failure = moved.error()) return *failure;
  std::vector<Eigen::VectorXd> displacements;
  for (Moved& m : *moved) displacements.push_back(std::move(m.u));
  return displacements;
}

StaticResult solve_statics(const Model& model, const std::vector<Actions>& cases,
                           const BaseStiffnesses* bases) {
  return StaticSolver(model, bases).solve(cases);
}

}  // namespace tubewright
