#include "cases/settle_case.h"

#include <algorithm>

#include "solver/lean_loads.h"

namespace tubewright {

namespace {

double greatest_movement(const Eigen::VectorXd& u) {
  double greatest = 0;
  for (Eigen::Index n = 0; n + unknowns_per_node <= u.size(); n += unknowns_per_node) {
    greatest = std::max(greatest, u.segment<3>(n).norm());
  }
  return greatest;
}

}  // namespace

SettledCase settle_case(const NumberedFrame& numbered, const std::vector<PanelFacts>& facts,
                        StaticSolution first, std::optional<double> lean_reserve,
                        const SolveAgain& solve_again) {
  SettledCase c;
  c.stages = sheet_stages(facts, numbered.model, first);
  c.solution = std::move(first);
  const auto settle = [&](const Actions& extra) {
    std::optional<Settled> settled = settle_sheets(numbered, facts, c.stages, extra, solve_again);
    c.sheets_settled = settled && settled->converged;
    return settled;
  };
  if (any_buckled(c.stages)) {
    if (auto settled = settle(no_actions(numbered.model))) {
      c.stages = std::move(settled->stages);
      c.solution = std::move(settled->solution);
    }
  }
  if (!lean_reserve) return c;
  const auto solve = [&](const Actions& lean) -> std::optional<StaticSolution> {
    if (!any_buckled(c.stages)) {
      std::optional<StaticSolution> next = solve_again(numbered, lean);
      if (next) c.stages = sheet_stages(facts, numbered.model, *next);
      if (!any_buckled(c.stages)) return next;
    }
    auto settled = settle(lean);
    if (!settled) return std::nullopt;
    c.stages = std::move(settled->stages);
    return std::move(settled->solution);
  };
  const double before = greatest_movement(c.solution.displacements);
  const std::vector<SheetStage> stages = c.stages;
  SecondOrder second = settle_lean(numbered.model, *lean_reserve, c.solution, solve);
  c.lean = LeanFacts{second.converged, 1};
  if (!second.converged) {
    c.stages = stages;
    return c;
  }
  c.solution = std::move(second.solution);
  if (before > 0) c.lean->growth = greatest_movement(c.solution.displacements) / before;
  return c;
}

}  // namespace tubewright
