// Sheets that buckle in a load case: the case is solved again, with what is left of their stiffness
// and with their pull on the tubes, until the two agree (secant).
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "cases/joints/panel_result.h"
#include "cases/model/build_model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

std::vector<PanelFacts> all_panel_facts(const Frame& frame, const NumberedFrame& numbered);

/// One a panel, from the flows of a solution.
std::vector<SheetStage> sheet_stages(const std::vector<PanelFacts>& facts, const Model& model,
                                     const StaticSolution& solution);

/// True if any of the sheets has buckled.
bool any_buckled(const std::vector<SheetStage>& stages);

/// Solves one case again: for a frame whose panels keep what is left of them, with actions beside
/// its own. Nothing on failure.
using SolveAgain = std::function<std::optional<StaticSolution>(const NumberedFrame& softened,
                                                               const Actions& extra)>;

struct IteratedSheets {
  std::vector<SheetStage> stages;  ///< of the last solution
  StaticSolution solution;
  bool converged = true;
};

/// `stages`: of a first solution. The case is solved with `extra` and the pulls of the sheets until
/// no secant ratio changes by more than 1e-4; a failure ends the search with nothing.
std::optional<IteratedSheets> iterate_sheets(const NumberedFrame& numbered,
                                             const std::vector<PanelFacts>& facts,
                                             std::vector<SheetStage> stages, const Actions& extra,
                                             const SolveAgain& solve_again);

}  // namespace tubewright
