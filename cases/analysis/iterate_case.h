// What a case still needs after its first linear solution: sheets that have buckled, and, if asked
// for, what axial forces do on the displaced frame.
#pragma once

#include <optional>
#include <vector>

#include "cases/analysis/buckled_sheets.h"
#include "cases/joints/panel_result.h"
#include "cases/model/build_model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// Of a case solved to second order.
struct SecondOrderFacts {
  bool converged = false;  ///< false: no equilibrium was found, and the solution is the first one
  double growth = 1;       ///< of the greatest displacement, against first order
};

struct IteratedCase {
  StaticSolution solution;
  std::vector<SheetStage> stages;
  bool sheets_converged = true;
  std::optional<SecondOrderFacts> second_order;
  bool surely_stable = false;  ///< known not to sway (buckling_lengths.h); false: not looked
};

/// `first`: the solution with flat sheets, of first order. `second_order_factor`: absent: first
/// order; else what multiplies the axial forces, so that the answer times it is that of the design
/// loads. `held_by_supports`: false for a vehicle on its wheels.
IteratedCase iterate_case(const NumberedFrame& numbered, const std::vector<PanelFacts>& facts,
                          StaticSolution first, std::optional<double> second_order_factor,
                          bool held_by_supports, const SolveAgain& solve_again);

}  // namespace tubewright
