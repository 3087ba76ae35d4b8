// What a case still needs after its first linear solution: sheets that have buckled, and, if asked
// for, what axial forces do on the displaced frame.
#pragma once

#include <optional>
#include <vector>

#include "cases/buckled_sheets.h"
#include "cases/build_model.h"
#include "cases/panel_result.h"
#include "solver/recovery.h"

namespace tubewright {

/// Of a case solved to second order.
struct LeanFacts {
  bool converged = false;  ///< false: no equilibrium was found, and the solution is the first one
  double growth = 1;       ///< of the greatest displacement, against first order
};

struct SettledCase {
  StaticSolution solution;
  std::vector<SheetStage> stages;
  bool sheets_settled = true;
  std::optional<LeanFacts> lean;
};

/// `first`: the solution with flat sheets and without lean. `lean_reserve`: absent: first order;
/// else what multiplies the axial forces, so that the answer times it is that of the design loads.
SettledCase settle_case(const NumberedFrame& numbered, const std::vector<PanelFacts>& facts,
                        StaticSolution first, std::optional<double> lean_reserve,
                        const SolveAgain& solve_again);

}  // namespace tubewright
