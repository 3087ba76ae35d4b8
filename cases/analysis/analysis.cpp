#include "cases/analysis/analysis.h"

#include <algorithm>
#include <map>

#include "cases/analysis/analysis_errors.h"
#include "cases/analysis/iterate_case.h"
#include "cases/analysis/summarise_case.h"
#include "cases/analysis/trusted_answer.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/wording.h"
#include "cases/model/case_actions.h"
#include "cases/model/mechanism_report.h"
#include "cases/vehicle/standard_cases.h"
#include "solver/statics/determinate_restraint.h"

namespace tubewright {

namespace {

/// Without mass there is no weight on the wheels and nothing to balance them.
Diagnostics without_mass(const Frame& frame, const NumberedFrame& numbered) {
  if (mass_summary(frame, numbered).total > 0) return {};
  return Diagnostics{error_at(frame.vehicle->place, weightless_vehicle())};
}

void put_in_file_order(const Frame& frame, std::vector<CaseResult>& results) {
  std::map<std::string, size_t> place;
  for (size_t i = 0; i < frame.cases.size(); ++i) place.emplace(frame.cases[i].name, i);
  std::stable_sort(results.begin(), results.end(), [&](const CaseResult& a, const CaseResult& b) {
    return place.at(a.name) < place.at(b.name);
  });
}

/// What the results say against themselves; turning over last.
void add_remarks(const Frame& frame, const std::vector<CaseResult>& results, Diagnostics& remarks) {
  for (const CaseResult& result : results) {
    const SourceLocation place = find_case(frame, result.name)->place;
    if (result.sway_factor) {
      add_warning(remarks, place,
                  result.sways_in_suspension
                      ? suspension_gives_way(result.name, *result.sway_factor)
                      : joints_give_way(result.name, *result.sway_factor));
    }
    if (result.stops_short)
      add_warning(remarks, place, stops_short(result.name, *result.stops_short));
    if (result.second_order && !result.second_order->converged) {
      add_warning(remarks, place, no_equilibrium(result.name));
    }
  }
  for (const CaseResult& result : results) {
    if (!result.driving || !result.driving->tips) continue;
    add_warning(remarks, find_case(frame, result.name)->place, turns_over(result.name));
  }
}

Diagnostics cannot_move_far(const Case& c, const std::string& reason) {
  return Diagnostics{error_at(c.place, no_large_displacements(c.name, reason))};
}

/// Twice: under the loads, and under the loads times the reserve.
Result<CaseResult> large_case(const Frame& frame, const NumberedFrame& numbered,
                              const CheckFacts& facts, const Case& c, bool driven,
                              const Model& model, const Actions& actions,
                              StaticSolution first_order) {
  auto service = solve_large(model, actions);
  if (auto* reason = service.error()) return cannot_move_far(c, *reason);
  const double factor = safety_factor(frame, c);
  Outcome<LargeAnswer, std::string> design = service;
  if (factor != 1) {
    Actions raised = no_actions(model);
    add_actions(raised, actions, factor);
    design = solve_large(model, raised);
    if (auto* reason = design.error()) return cannot_move_far(c, *reason);
  }
  return summarise_large_case(frame, numbered, facts, c, driven, std::move(first_order),
                              std::move(*service), *design);
}

Diagnostics without_answer(const Model& model, const Case& c, const StaticSolution& solution) {
  if (const auto why = why_no_answer(model, c.name, solution)) {
    return Diagnostics{error_at(c.place, *why)};
  }
  return {};
}

}  // namespace

std::optional<double> mass_share(const Analysis& analysis) {
  const std::optional<double>& most = analysis.frame.limits.mass;
  if (!most) return std::nullopt;
  return (analysis.mass.tubes + analysis.mass.panels) / *most;
}

std::optional<WorstOfAll> worst_of_all(const Analysis& analysis) {
  std::optional<WorstOfAll> worst;
  for (const CaseResult& c : analysis.cases) {
    if (!c.worst || (worst && c.worst->utilisation <= worst->utilisation)) continue;
    worst = WorstOfAll{c.name, c.worst->check, c.worst->item, c.worst->utilisation};
  }
  return worst;
}

Result<Frame> with_load_cases(Frame frame) {
  if (!frame.vehicle || !frame.cases.empty()) return frame;
  const NumberedFrame numbered = build_model(frame);
  if (Diagnostics diagnostics = without_mass(frame, numbered); !diagnostics.empty())
    return diagnostics;
  const auto facts = vehicle_facts(frame, numbered);
  if (const auto* failure = facts.error()) {
    return failure_diagnostics(frame, numbered, *failure, "");
  }
  frame.cases = standard_cases(frame, *facts);
  return frame;
}

Result<Analysis> analyse(const Frame& frame, const std::vector<std::string>& only,
                         const AnalysisOptions& options, const TellStep& tell) {
  tell("solving load cases", 0, 0);
  NumberedFrame numbered = build_model(frame);
  std::vector<const Case*> held, driven;  // by the supports; by wheels, held by nothing
  for (const Case& c : frame.cases) {
    if (!only.empty() && std::find(only.begin(), only.end(), c.name) == only.end()) continue;
    (needs_vehicle(frame, c) ? driven : held).push_back(&c);
  }
  const size_t count = held.size() + driven.size();

  Analysis analysis;
  analysis.options = options;
  const CheckFacts facts = check_facts(frame, numbered);
  const auto finish = [&](const Case& c, bool by_wheels, StaticSolution first,
                          const SolveAgain& solve_again) {
    std::optional<double> second_order_factor;
    if (options.second_order) second_order_factor = safety_factor(frame, c);
    IteratedCase iterated = iterate_case(numbered, facts.panels, std::move(first),
                                         second_order_factor, !by_wheels, solve_again);
    if (!iterated.sheets_converged) {
      add_warning(analysis.remarks, c.place, sheets_not_settled(c.name));
    }
    return summarise_case(frame, numbered, facts, c, by_wheels, std::move(iterated));
  };
  if (!held.empty()) {
    std::vector<Actions> actions;
    for (const Case* c : held) actions.push_back(case_actions(frame, numbered, *c));
    StaticSolver statics(numbered.model);
    StaticResult solved = statics.solve(actions);
    if (const auto* failure = solved.error()) {
      return failure_diagnostics(frame, numbered, *failure, held[failure->load_case]->name);
    }
    auto& solutions = *solved;
    for (size_t i = 0; i < held.size(); ++i) {
      tell("checking load case", i + 1, count);
      if (options.large_displacement) {
        auto result = large_case(frame, numbered, facts, *held[i], false, numbered.model,
                                 actions[i], std::move(solutions[i]));
        if (auto* diagnostics = result.error()) return std::move(*diagnostics);
        analysis.cases.push_back(std::move(*result));
        continue;
      }
      if (auto why = without_answer(numbered.model, *held[i], solutions[i]); !why.empty()) {
        return why;
      }
      const auto solve_again = [&](const NumberedFrame& softened,
                                   const Actions& extra) -> std::optional<StaticSolution> {
        Actions all = actions[i];
        add_actions(all, extra, 1);
        StaticResult again =
            &softened == &numbered ? statics.solve({all}) : solve_statics(softened.model, {all});
        if (!again) return std::nullopt;
        return std::move(again->front());
      };
      analysis.cases.push_back(finish(*held[i], false, std::move(solutions[i]), solve_again));
    }
  }
  if (frame.vehicle && !driven.empty()) {
    if (Diagnostics diagnostics = without_mass(frame, numbered); !diagnostics.empty())
      return diagnostics;
    tell("solving load cases", 0, 0);
    VehicleOutcome solved = solve_vehicle_cases(frame, numbered, driven);
    if (const auto* failure = solved.error()) {
      return failure_diagnostics(frame, numbered, *failure, driven[failure->load_case]->name);
    }
    auto& [vehicle, solutions] = *solved;
    analysis.vehicle = std::move(vehicle);
    for (size_t i = 0; i < driven.size(); ++i) {
      tell("checking load case", held.size() + i + 1, count);
      DrivingState state = std::move(solutions[i].state);
      if (options.large_displacement) {
        Model model = numbered.model;
        model.supports = determinate_restraint(model);
        auto result = large_case(frame, numbered, facts, *driven[i], true, model,
                                 solutions[i].actions, std::move(solutions[i].solution));
        if (auto* diagnostics = result.error()) return std::move(*diagnostics);
        CaseResult& found = *result;
        state.balance.restraint_force = found.solution.reactions.lpNorm<Eigen::Infinity>();
        found.driving = std::move(state);
        analysis.cases.push_back(std::move(found));
        continue;
      }
      if (auto why = without_answer(numbered.model, *driven[i], solutions[i].solution);
          !why.empty()) {
        return why;
      }
      const auto solve_again = [&](const NumberedFrame& softened,
                                   const Actions& extra) -> std::optional<StaticSolution> {
        VehicleOutcome again =
            solve_vehicle_cases(frame, softened, {driven[i]}, &extra, analysis.vehicle->standing);
        if (!again) return std::nullopt;
        VehicleSolution& solution = again->solutions.front();
        state = std::move(solution.state);
        return std::move(solution.solution);
      };
      CaseResult result = finish(*driven[i], true, std::move(solutions[i].solution), solve_again);
      result.driving = std::move(state);
      analysis.cases.push_back(std::move(result));
    }
  }
  put_in_file_order(frame, analysis.cases);
  analysis.mass = mass_summary(frame, numbered);
  add_remarks(frame, analysis.cases, analysis.remarks);
  analysis.frame = frame;
  analysis.model = std::move(numbered.model);
  analysis.slots = std::move(numbered.slots);
  return analysis;
}

}  // namespace tubewright
