// Sheets that buckle in a load case: the case is solved again, with what is left of their stiffness
// and with their pull on the tubes, until the two agree (secant).
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "cases/build_model.h"
#include "cases/panel_result.h"
#include "solver/recovery.h"

namespace tubewright {

std::vector<PanelFacts> all_panel_facts(const Frame& frame, const NumberedFrame& numbered);

/// One a panel, from the flows of a solution.
std::vector<SheetStage> sheet_stages(const std::vector<PanelFacts>& facts, const Model& model,
                                     const StaticSolution& solution);

/// True if any of the sheets has buckled.
bool any_buckled(const std::vector<SheetStage>& stages);

struct Settled {
  std::vector<SheetStage> stages;  ///< of the last solution
  bool converged = true;
};

/// `stages`: of a first solution with flat sheets. `solve_again` solves the case for a frame whose
/// panels keep what a stage leaves them and pull with `pulls`, and returns the new flows; it
/// returns nothing on failure, which ends the search. Stages agree when no `kept` changes by more
/// than 1e-4.
std::optional<Settled> settle_sheets(
    const NumberedFrame& numbered, const std::vector<PanelFacts>& facts,
    std::vector<SheetStage> stages,
    const std::function<const StaticSolution*(const NumberedFrame& softened,
                                              const std::vector<double>& pulls)>& solve_again);

}  // namespace tubewright
