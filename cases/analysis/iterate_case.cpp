#include "cases/analysis/iterate_case.h"

#include "cases/analysis/trusted_answer.h"
#include "solver/stability/p_delta_loads.h"
#include "solver/statics/determinate_restraint.h"

namespace tubewright {

namespace {

/// With the sheets as soft as they are, held just enough where nothing holds it.
Model held_still(Model model, bool held_by_supports, const std::vector<SheetStage>& stages) {
  if (!held_by_supports) model.supports = determinate_restraint(model);
  for (size_t p = 0; p < stages.size(); ++p) {
    model.panels[p].secant_ratio = stages[p].secant_ratio;
  }
  return model;
}

}  // namespace

IteratedCase iterate_case(const NumberedFrame& numbered, const std::vector<PanelFacts>& facts,
                          StaticSolution first, std::optional<double> second_order_factor,
                          bool held_by_supports, const SolveAgain& solve_again) {
  IteratedCase c;
  c.stages = sheet_stages(facts, numbered.model, first);
  c.solution = std::move(first);
  const auto iterate = [&](const Actions& extra) {
    std::optional<IteratedSheets> iterated =
        iterate_sheets(numbered, facts, c.stages, extra, solve_again);
    c.sheets_converged = iterated && iterated->converged;
    return iterated;
  };
  if (any_buckled(c.stages)) {
    if (auto iterated = iterate(no_actions(numbered.model))) {
      c.stages = std::move(iterated->stages);
      c.solution = std::move(iterated->solution);
    }
  }
  if (!second_order_factor) return c;
  const auto solve = [&](const Actions& p_delta) -> std::optional<StaticSolution> {
    if (!any_buckled(c.stages)) {
      std::optional<StaticSolution> next = solve_again(numbered, p_delta);
      if (next) c.stages = sheet_stages(facts, numbered.model, *next);
      if (!any_buckled(c.stages)) return next;
    }
    auto iterated = iterate(p_delta);
    if (!iterated) return std::nullopt;
    c.stages = std::move(iterated->stages);
    return std::move(iterated->solution);
  };
  const double before = greatest_movement(c.solution.displacements);
  const std::vector<SheetStage> stages = c.stages;
  SecondOrder second = iterate_p_delta(held_still(numbered.model, held_by_supports, c.stages),
                                       *second_order_factor, c.solution, solve);
  c.second_order = SecondOrderFacts{second.converged, 1};
  if (!second.converged) {
    c.stages = stages;
    return c;
  }
  c.solution = std::move(second.solution);
  if (before > 0) c.second_order->growth = greatest_movement(c.solution.displacements) / before;
  return c;
}

}  // namespace tubewright
