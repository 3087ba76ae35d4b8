// Linear statics: all load cases from one factorisation, cables iterated.
#pragma once

#include <memory>
#include <vector>

#include "solver/model/actions.h"
#include "solver/model/model.h"
#include "solver/model/outcome.h"
#include "solver/statics/mechanism.h"
#include "solver/statics/recovery.h"
#include "solver/statics/stiffness_update.h"

namespace tubewright {

/// A load case that has no answer.
struct StaticFailure {
  enum class Why {
    mechanism,  ///< the model can move without resistance, or a load acts where nothing resists
    cables,     ///< the search for the slack cables did not end
    scaling     ///< nothing moves freely, but stiffnesses lie too far apart to be added up
  };
  int load_case = 0;
  Why why = Why::mechanism;
  Mechanism mechanism;      ///< empty unless that is why
  std::vector<bool> slack;  ///< one a bar: cables that had gone slack by then
};

using StaticResult = Outcome<std::vector<StaticSolution>, StaticFailure>;

/// A model that is solved more than once: each set of slack cables is factorised only once.
/// Keeps a reference to the model.
class StaticSolver {
 public:
  /// `bases`: models that differ from this one in little; one that is held alike is solved from
  /// instead of factorising, where that is quicker and beyond doubt. Null: none. The answer is the
  /// same but for rounding. Requires: no beam's releases leave it loose.
  explicit StaticSolver(const Model& model, const BaseStiffnesses* bases = nullptr);
  ~StaticSolver();
  StaticSolver(const StaticSolver&) = delete;
  StaticSolver& operator=(const StaticSolver&) = delete;

  /// Solves every load case; stops at the first that has no answer. A load on a node that no
  /// element is joined to, or a moment on a node that nothing stops from turning, is a mechanism.
  /// Requires: actions are sized for the model.
  StaticResult solve(const std::vector<Actions>& cases);

  /// Of the same the displacements alone, six a node: quicker.
  Outcome<std::vector<Eigen::VectorXd>, StaticFailure> displacements(
      const std::vector<Actions>& cases);

 private:
  class Impl;
  std::unique_ptr<Impl> impl_;
};

/// The same for a model that is solved once.
StaticResult solve_statics(const Model& model, const std::vector<Actions>& cases,
                           const BaseStiffnesses* bases = nullptr);

}  // namespace tubewright
