// What becomes of a frame that is changed in one place, solved from the frame as it was.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/frame/frame.h"
#include "solver/statics/stiffness_update.h"

namespace tubewright {

/// How a frame is held in what is asked of it.
struct HeldModels {
  std::optional<Model> by_supports;  ///< for cases that act on held frames
  std::optional<Model> free;  ///< on its wheels or in the torsion test: determinate restraint
};

HeldModels held_models(const Frame& frame);

/// The stiffnesses of a frame, each as it is held, to solve changed frames from.
BaseStiffnesses base_stiffnesses(const HeldModels& models);

struct ChangedCase {
  std::string name;
  std::optional<Worst> worst;  ///< none: no check could be made
  bool solved = false;
  double deflection = 0;  ///< m, as CaseResult has it
  std::string why_not;    ///< where it is not
};

struct ChangedAnswer {
  /// It can move without resistance, as some case or the torsion test holds it, or a node that is
  /// loaded hangs on nothing.
  bool mechanism = false;
  std::optional<double> stiffness;  ///< torsional, N m/rad; none: not asked for, or a mechanism
  std::vector<ChangedCase> cases;   ///< in the order of the file

  bool solved() const;  ///< all cases
  /// Over all cases; none if there is no case, or one has no answer.
  std::optional<WorstOfAll> worst() const;
};

/// Torsional stiffness (where there is a torsion test) and all checks of all cases of `frame`,
/// from the bases of one that differs in little. A case without an answer does not hinder the
/// others. Requires: the frame has the cases it is to be checked for (with_load_cases()).
ChangedAnswer changed_answer(const Frame& frame, const BaseStiffnesses& bases);

}  // namespace tubewright
