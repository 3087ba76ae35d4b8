#include "cases/analysis/analysis.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "cases/analysis/iterate_case.h"
#include "cases/analysis/summarise_case.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/findings.h"
#include "cases/model/case_actions.h"
#include "cases/model/mechanism_report.h"
#include "cases/vehicle/standard_cases.h"
#include "solver/statics/determinate_restraint.h"

namespace tubewright {

namespace {

Problem sways(const Case& c, double factor) {
  return {Severity::warning, c.place,
          "in case `" + c.name + "` the joints give way at " + decimals(factor, 2) +
              " times its design loads",
          factor <= 1 ? "the frame cannot carry them; brace it"
                      : "members that sway count as longer; `check --second-order` adds what their "
                        "lean does to forces (EN 1993-1-1 5.2.1)"};
}

Problem no_equilibrium(const Case& c) {
  return {Severity::warning, c.place,
          "in case `" + c.name + "` no equilibrium was found on the displaced frame",
          "the design loads are beyond what it can stand upright under, or within a few percent of "
          "it; its numbers are those of first order"};
}

Problem stops_short(const Case& c, double reached) {
  return {Severity::warning, c.place,
          "in case `" + c.name + "` the frame finds no equilibrium beyond " + decimals(reached, 3) +
              " of its loads",
          "it buckles or snaps through there; its numbers are those of that share of the loads"};
}

Problem not_converged(const Case& c) {
  return {Severity::warning, c.place,
          "in case `" + c.name + "` the state of the buckled sheets did not settle",
          "do not rely on this case; make the sheets thicker or the loads smaller"};
}

Problems too_large(const Case& c) {
  return {{Severity::error, c.place, "case `" + c.name + "` gives numbers too large to represent",
           "check the units of its loads and of the sections"}};
}

/// Without mass there is no weight on the wheels and nothing to balance them.
Problems without_mass(const Frame& frame, const NumberedFrame& numbered) {
  if (mass_summary(frame, numbered).total > 0) return {};
  return {{Severity::error, frame.vehicle->place, "the vehicle weighs nothing",
           "give its materials a density, or list what it carries under `masses`"}};
}

void put_in_file_order(const Frame& frame, std::vector<CaseResult>& results) {
  std::map<std::string, size_t> place;
  for (size_t i = 0; i < frame.cases.size(); ++i) place.emplace(frame.cases[i].name, i);
  std::stable_sort(results.begin(), results.end(), [&](const CaseResult& a, const CaseResult& b) {
    return place.at(a.name) < place.at(b.name);
  });
}

Problems turned_over(const Frame& frame, const std::vector<CaseResult>& results) {
  Problems remarks;
  for (const CaseResult& result : results) {
    if (!result.driving || !result.driving->tips) continue;
    remarks.push_back({Severity::warning, find_case(frame, result.name)->place,
                       "in case `" + result.name + "` the vehicle turns over",
                       "its loads are those of the first moment; ask for less, or lower the load"});
  }
  return remarks;
}

Problems cannot_move_far(const Case& c, const std::string& reason) {
  return {{Severity::error, c.place,
           "case `" + c.name + "` cannot be solved with large displacements: " + reason,
           "`--second-order` counts what axial forces do on the displaced frame"}};
}

/// Twice: under the loads, and under the loads times the reserve.
std::variant<CaseResult, Problems> large_case(const Frame& frame, const NumberedFrame& numbered,
                                              const CheckFacts& facts, const Case& c, bool driven,
                                              const Model& model, const Actions& actions) {
  auto service = solve_large(model, actions);
  if (auto* reason = std::get_if<std::string>(&service)) return cannot_move_far(c, *reason);
  const double factor = safety_factor(frame, c);
  std::variant<LargeAnswer, std::string> design = service;
  if (factor != 1) {
    Actions raised = no_actions(model);
    add_actions(raised, actions, factor);
    design = solve_large(model, raised);
    if (auto* reason = std::get_if<std::string>(&design)) return cannot_move_far(c, *reason);
  }
  return summarise_large_case(frame, numbered, facts, c, driven,
                              std::move(std::get<LargeAnswer>(service)),
                              std::get<LargeAnswer>(design));
}

bool all_finite(const StaticSolution& s) {
  return s.displacements.allFinite() && s.reactions.allFinite() &&
         std::isfinite(s.residual.force) && std::isfinite(s.residual.moment);
}

}  // namespace

std::optional<double> mass_share(const Analysis& analysis) {
  const std::optional<double>& most = analysis.frame.limits.mass;
  if (!most) return std::nullopt;
  return (analysis.mass.tubes + analysis.mass.panels) / *most;
}

bool Analysis::passes() const {
  return tubewright::passes(mass_share(*this).value_or(0)) &&
         std::all_of(cases.begin(), cases.end(), [](const CaseResult& c) { return c.passes(); });
}

std::optional<WorstOfAll> worst_of_all(const Analysis& analysis) {
  std::optional<WorstOfAll> worst;
  for (const CaseResult& c : analysis.cases) {
    if (!c.worst || (worst && c.worst->utilisation <= worst->utilisation)) continue;
    worst = WorstOfAll{c.name, c.worst->check, c.worst->item, c.worst->utilisation};
  }
  return worst;
}

std::variant<Frame, Problems> with_load_cases(Frame frame) {
  if (!frame.vehicle || !frame.cases.empty()) return frame;
  const NumberedFrame numbered = build_model(frame);
  if (Problems problems = without_mass(frame, numbered); !problems.empty()) return problems;
  const auto facts = vehicle_facts(frame, numbered);
  if (const auto* failure = std::get_if<StaticFailure>(&facts)) {
    return failure_problems(frame, numbered, *failure, "");
  }
  frame.cases = standard_cases(frame, std::get<VehicleFacts>(facts));
  return frame;
}

AnalysisOutcome analyse(const Frame& frame, const std::vector<std::string>& only,
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
    IteratedCase iterated =
        iterate_case(numbered, facts.panels, std::move(first), second_order_factor, solve_again);
    if (!iterated.sheets_converged) analysis.remarks.push_back(not_converged(c));
    return summarise_case(frame, numbered, facts, c, by_wheels, std::move(iterated));
  };
  if (!held.empty()) {
    std::vector<Actions> actions;
    for (const Case* c : held) actions.push_back(case_actions(frame, numbered, *c));
    StaticSolver statics(numbered.model);
    StaticResult solved = statics.solve(actions);
    if (const auto* failure = std::get_if<StaticFailure>(&solved)) {
      return failure_problems(frame, numbered, *failure, held[failure->load_case]->name);
    }
    auto& solutions = std::get<std::vector<StaticSolution>>(solved);
    for (size_t i = 0; i < held.size(); ++i) {
      tell("checking load case", i + 1, count);
      if (!all_finite(solutions[i])) return too_large(*held[i]);
      if (options.large_displacement) {
        auto result =
            large_case(frame, numbered, facts, *held[i], false, numbered.model, actions[i]);
        if (auto* problems = std::get_if<Problems>(&result)) return std::move(*problems);
        analysis.cases.push_back(std::move(std::get<CaseResult>(result)));
        continue;
      }
      const auto solve_again = [&](const NumberedFrame& softened,
                                   const Actions& extra) -> std::optional<StaticSolution> {
        Actions all = actions[i];
        add_actions(all, extra, 1);
        StaticResult again =
            &softened == &numbered ? statics.solve({all}) : solve_statics(softened.model, {all});
        if (std::holds_alternative<StaticFailure>(again)) return std::nullopt;
        return std::move(std::get<std::vector<StaticSolution>>(again).front());
      };
      analysis.cases.push_back(finish(*held[i], false, std::move(solutions[i]), solve_again));
    }
  }
  if (frame.vehicle && !driven.empty()) {
    if (Problems problems = without_mass(frame, numbered); !problems.empty()) return problems;
    tell("solving load cases", 0, 0);
    VehicleOutcome solved = solve_vehicle_cases(frame, numbered, driven);
    if (const auto* failure = std::get_if<StaticFailure>(&solved)) {
      return failure_problems(frame, numbered, *failure, driven[failure->load_case]->name);
    }
    auto& [vehicle, solutions] = std::get<VehicleResults>(solved);
    analysis.vehicle = std::move(vehicle);
    for (size_t i = 0; i < driven.size(); ++i) {
      tell("checking load case", held.size() + i + 1, count);
      if (!all_finite(solutions[i].solution)) return too_large(*driven[i]);
      DrivingState state = std::move(solutions[i].state);
      if (options.large_displacement) {
        Model model = numbered.model;
        model.supports = determinate_restraint(model);
        auto result =
            large_case(frame, numbered, facts, *driven[i], true, model, solutions[i].actions);
        if (auto* problems = std::get_if<Problems>(&result)) return std::move(*problems);
        CaseResult& found = std::get<CaseResult>(result);
        state.balance.restraint_force = found.solution.reactions.lpNorm<Eigen::Infinity>();
        found.driving = std::move(state);
        analysis.cases.push_back(std::move(found));
        continue;
      }
      const auto solve_again = [&](const NumberedFrame& softened,
                                   const Actions& extra) -> std::optional<StaticSolution> {
        VehicleOutcome again =
            solve_vehicle_cases(frame, softened, {driven[i]}, &extra, analysis.vehicle->standing);
        if (std::holds_alternative<StaticFailure>(again)) return std::nullopt;
        VehicleSolution& solution = std::get<VehicleResults>(again).solutions.front();
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
  for (const CaseResult& result : analysis.cases) {
    const Case& c = *find_case(frame, result.name);
    if (result.sway_factor) analysis.remarks.push_back(sways(c, *result.sway_factor));
    if (result.large && result.large->reached < 1) {
      analysis.remarks.push_back(stops_short(c, result.large->reached));
    }
    if (result.second_order && !result.second_order->converged)
      analysis.remarks.push_back(no_equilibrium(c));
  }
  for (Problem& remark : turned_over(frame, analysis.cases)) {
    analysis.remarks.push_back(std::move(remark));
  }
  analysis.frame = frame;
  analysis.model = std::move(numbered.model);
  analysis.slots = std::move(numbered.slots);
  return analysis;
}

}  // namespace tubewright
