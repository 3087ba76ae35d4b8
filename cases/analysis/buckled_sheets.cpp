#include "cases/analysis/buckled_sheets.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

std::vector<PanelFacts> all_panel_facts(const Frame& frame, const NumberedFrame& numbered) {
  std::vector<PanelFacts> facts;
  for (size_t p = 0; p < frame.panels.size(); ++p) {
    facts.push_back(panel_facts(frame, numbered, p));
  }
  return facts;
}

std::vector<SheetStage> sheet_stages(const std::vector<PanelFacts>& facts, const Model& model,
                                     const StaticSolution& solution) {
  std::vector<SheetStage> stages;
  for (size_t p = 0; p < facts.size(); ++p) {
    stages.push_back(sheet_stage(facts[p], model, model.panels[p], solution.panel_flows[p]));
  }
  return stages;
}

bool any_buckled(const std::vector<SheetStage>& stages) {
  return std::any_of(stages.begin(), stages.end(),
                     [](const SheetStage& s) { return s.tension_share > 0; });
}

// The flow is nearly the load's, whatever the stiffness, so the map contracts quickly.
std::optional<IteratedSheets> iterate_sheets(const NumberedFrame& numbered,
                                             const std::vector<PanelFacts>& facts,
                                             std::vector<SheetStage> stages, const Actions& extra,
                                             const SolveAgain& solve_again) {
  constexpr int most_rounds = 50;
  constexpr double agreement = 1e-4;
  NumberedFrame softened = numbered;
  Actions pulled = extra;
  IteratedSheets iterated{std::move(stages), {}, false};
  for (int round = 0; round < most_rounds && !iterated.converged; ++round) {
    for (size_t p = 0; p < iterated.stages.size(); ++p) {
      softened.model.panels[p].secant_ratio = iterated.stages[p].secant_ratio;
      pulled.tension_fields[p] = iterated.stages[p].traction;
    }
    std::optional<StaticSolution> solution = solve_again(softened, pulled);
    if (!solution) return std::nullopt;
    std::vector<SheetStage> next = sheet_stages(facts, numbered.model, *solution);
    double change = 0;
    for (size_t p = 0; p < next.size(); ++p) {
      change = std::max(change, std::abs(next[p].secant_ratio - iterated.stages[p].secant_ratio));
    }
    iterated = {std::move(next), std::move(*solution), change <= agreement};
  }
  return iterated;
}

}  // namespace tubewright
