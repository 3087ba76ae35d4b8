#include "cases/analysis/analysis.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>

#include "cases/analysis/analysis_errors.h"
#include "cases/analysis/buckling_lengths.h"
#include "cases/analysis/in_parallel.h"
#include "cases/analysis/iterate_case.h"
#include "cases/analysis/summarise_case.h"
#include "cases/analysis/trusted_answer.h"
#include "cases/checks/yield_check.h"
#include "cases/frame/frame_errors.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "cases/model/case_actions.h"
#include "cases/model/mechanism_report.h"
#include "cases/vehicle/standard_cases.h"
#include "solver/statics/determinate_restraint.h"

namespace tubewright {

namespace {

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

struct CheckedCase {
  Result<CaseResult> result = Diagnostics{};
  Diagnostics remarks;
};

/// In their order; the first that has no answer says why.
Diagnostics take_over(std::vector<CheckedCase> checked, Analysis& analysis) {
  for (CheckedCase& c : checked) {
    if (auto* diagnostics = c.result.error()) return std::move(*diagnostics);
    append(analysis.remarks, c.remarks);
    analysis.cases.push_back(std::move(*c.result));
  }
  return {};
}

bool all_finite(const AxialForces& forces) {
  const auto finite = [](double N) { return std::isfinite(N); };
  return std::all_of(forces.beams.begin(), forces.beams.end(), finite) &&
         std::all_of(forces.bars.begin(), forces.bars.end(), finite);
}

/// Cases of one kind are solved together, then checked side by side.
class Checking {
 public:
  Checking(const Frame& frame, const NumberedFrame& numbered, const CheckFacts& facts,
           const AnalysisOptions& options, const TellStep& tell, const BaseStiffnesses* bases,
           size_t count)
      : frame_(frame),
        numbered_(numbered),
        facts_(facts),
        options_(options),
        tell_(tell),
        bases_(bases),
        count_(count) {}

  Result<std::vector<CheckedCase>> held_cases(const std::vector<const Case*>& cases);
  Result<std::vector<CheckedCase>> driven_cases(const std::vector<const Case*>& cases,
                                                std::optional<VehicleFacts>& vehicle);
  /// Of a vehicle that nothing holds, each by what acts on it.
  Result<std::vector<CheckedCase>> given_cases(const FreeVehicle& vehicle,
                                               const std::vector<GivenCase>& given);

 private:
  void tell_next();
  /// Whether each case, as first solved with its sheets flat, surely does not sway.
  std::vector<bool> stable_as_solved(const Model& held, const std::vector<const Case*>& cases,
                                     const std::vector<const StaticSolution*>& solved) const;
  CheckedCase held_case(const Case& c, StaticSolver& statics, const Actions& actions,
                        StaticSolution first, bool stable);
  CheckedCase driven_case(const Case& c, const VehicleFacts& vehicle, VehicleSolution first,
                          bool stable);
  CheckedCase iterated(const Case& c, bool by_wheels, StaticSolution first, bool stable,
                       const SolveAgain& solve_again) const;

  const Frame& frame_;
  const NumberedFrame& numbered_;
  const CheckFacts& facts_;
  const AnalysisOptions& options_;
  const TellStep& tell_;
  const BaseStiffnesses* bases_;
  const size_t count_;
  std::mutex telling_;
  size_t told_ = 0;
  std::mutex solving_;  ///< guards the solver that cases share
};

void Checking::tell_next() {
  const std::lock_guard lock(telling_);
  tell_("checking load case", ++told_, count_);
}

/// Those with slack cables are left to be looked at by themselves.
std::vector<bool> Checking::stable_as_solved(
    const Model& held, const std::vector<const Case*>& cases,
    const std::vector<const StaticSolution*>& solved) const {
  std::vector<bool> stable(cases.size(), false);
  if (options_.large_displacement) return stable;  // not asked for
  std::vector<AxialForces> forces;
  std::vector<size_t> taut;
  for (size_t i = 0; i < cases.size(); ++i) {
    const std::vector<bool>& slack = solved[i]->slack;
    if (std::find(slack.begin(), slack.end(), true) != slack.end()) continue;
    AxialForces N = axial_forces(*solved[i]);
    if (!all_finite(N)) continue;
    forces.push_back(std::move(N));
    taut.push_back(i);
  }
  std::vector<LoadedCase> loaded;
  for (size_t k = 0; k < taut.size(); ++k) {
    loaded.push_back({&forces[k], second_order_limit * safety_factor(frame_, *cases[taut[k]])});
  }
  const std::vector<bool> sure = surely_stable(held, loaded);
  for (size_t k = 0; k < taut.size(); ++k) stable[taut[k]] = sure[k];
  return stable;
}

/// `stable`: see stable_as_solved(); it holds for the first solution only.
CheckedCase Checking::iterated(const Case& c, bool by_wheels, StaticSolution first, bool stable,
                               const SolveAgain& solve_again) const {
  std::optional<double> second_order_factor;
  if (options_.second_order) second_order_factor = safety_factor(frame_, c);
  IteratedCase iterated = iterate_case(numbered_, facts_.panels, std::move(first),
                                       second_order_factor, !by_wheels, solve_again);
  iterated.surely_stable = stable && !iterated.second_order && !any_buckled(iterated.stages);
  CheckedCase checked;
  if (!iterated.sheets_converged) add_warning(checked.remarks, c.place, sheets_not_settled(c.name));
  checked.result = summarise_case(frame_, numbered_, facts_, c, by_wheels, std::move(iterated),
                                  options_.checked);
  return checked;
}

CheckedCase Checking::held_case(const Case& c, StaticSolver& statics, const Actions& actions,
                                StaticSolution first, bool stable) {
  tell_next();
  if (options_.large_displacement) {
    return {
        large_case(frame_, numbered_, facts_, c, false, numbered_.model, actions, std::move(first)),
        {}};
  }
  if (auto why = without_answer(numbered_.model, c, first); !why.empty()) return {why, {}};
  const auto solve_again = [&](const NumberedFrame& softened,
                               const Actions& extra) -> std::optional<StaticSolution> {
    Actions all = actions;
    add_actions(all, extra, 1);
    const auto solve = [&] {
      if (&softened != &numbered_) return solve_statics(softened.model, {all}, bases_);
      const std::lock_guard lock(solving_);
      return statics.solve({all});
    };
    StaticResult again = solve();
    if (!again) return std::nullopt;
    return std::move(again->front());
  };
  return iterated(c, false, std::move(first), stable, solve_again);
}

Result<std::vector<CheckedCase>> Checking::held_cases(const std::vector<const Case*>& cases) {
  std::vector<Actions> actions;
  for (const Case* c : cases) actions.push_back(case_actions(frame_, numbered_, *c));
  StaticSolver statics(numbered_.model, bases_);
  StaticResult solved = statics.solve(actions);
  if (const auto* failure = solved.error()) {
    return failure_diagnostics(frame_, numbered_, *failure, cases[failure->load_case]->name);
  }
  std::vector<const StaticSolution*> as_solved;
  for (const StaticSolution& solution : *solved) as_solved.push_back(&solution);
  const std::vector<bool> stable = stable_as_solved(numbered_.model, cases, as_solved);
  std::vector<CheckedCase> checked(cases.size());
  in_parallel(cases.size(), [&](size_t i) {
    checked[i] = held_case(*cases[i], statics, actions[i], std::move((*solved)[i]), stable[i]);
  });
  return checked;
}

CheckedCase Checking::driven_case(const Case& c, const VehicleFacts& vehicle, VehicleSolution first,
                                  bool stable) {
  tell_next();
  DrivingState state = std::move(first.state);
  if (options_.large_displacement) {
    Model model = numbered_.model;
    model.supports = determinate_restraint(model);
    CheckedCase checked{large_case(frame_, numbered_, facts_, c, true, model, first.actions,
                                   std::move(first.solution)),
                        {}};
    if (auto* found = checked.result.get()) {
      state.balance.restraint_force = found->solution.reactions.lpNorm<Eigen::Infinity>();
      found->driving = std::move(state);
    }
    return checked;
  }
  if (auto why = without_answer(numbered_.model, c, first.solution); !why.empty()) return {why, {}};
  const auto solve_again = [&](const NumberedFrame& softened,
                               const Actions& extra) -> std::optional<StaticSolution> {
    VehicleOutcome again =
        solve_vehicle_cases(frame_, softened, {&c}, &extra, vehicle.standing, bases_);
    if (!again) return std::nullopt;
    VehicleSolution& solution = again->solutions.front();
    state = std::move(solution.state);
    return std::move(solution.solution);
  };
  CheckedCase checked = iterated(c, true, std::move(first.solution), stable, solve_again);
  checked.result->driving = std::move(state);
  return checked;
}

Result<std::vector<CheckedCase>> Checking::driven_cases(const std::vector<const Case*>& cases,
                                                        std::optional<VehicleFacts>& vehicle) {
  if (Diagnostics diagnostics = without_mass(frame_, numbered_); !diagnostics.empty())
    return diagnostics;
  tell_("solving load cases", 0, 0);
  VehicleOutcome solved = solve_vehicle_cases(frame_, numbered_, cases, nullptr, {}, bases_);
  if (const auto* failure = solved.error()) {
    return failure_diagnostics(frame_, numbered_, *failure, cases[failure->load_case]->name);
  }
  vehicle = std::move(solved->facts);
  std::vector<const StaticSolution*> as_solved;
  for (const VehicleSolution& s : solved->solutions) as_solved.push_back(&s.solution);
  Model held = numbered_.model;
  held.supports = determinate_restraint(held);
  const std::vector<bool> stable = stable_as_solved(held, cases, as_solved);
  std::vector<CheckedCase> checked(cases.size());
  in_parallel(cases.size(), [&](size_t i) {
    checked[i] = driven_case(*cases[i], *vehicle, std::move(solved->solutions[i]), stable[i]);
  });
  return checked;
}

Result<std::vector<CheckedCase>> Checking::given_cases(const FreeVehicle& vehicle,
                                                       const std::vector<GivenCase>& given) {
  std::vector<Actions> actions;
  for (const GivenCase& g : given) actions.push_back(g.actions);
  StaticResult solved = solve_statics(vehicle.model, actions, bases_);
  if (const auto* failure = solved.error()) {
    return failure_diagnostics(frame_, numbered_, *failure,
                               given[failure->load_case].load_case.name);
  }
  std::vector<const Case*> cases;
  std::vector<const StaticSolution*> as_solved;
  for (size_t i = 0; i < given.size(); ++i) {
    centre_motion(vehicle, (*solved)[i]);
    cases.push_back(&given[i].load_case);
    as_solved.push_back(&(*solved)[i]);
  }
  const std::vector<bool> stable = stable_as_solved(vehicle.model, cases, as_solved);
  std::vector<CheckedCase> checked(given.size());
  in_parallel(given.size(), [&](size_t i) {
    if (auto why = without_answer(numbered_.model, *cases[i], (*solved)[i]); !why.empty()) {
      checked[i] = {why, {}};
      return;
    }
    const auto solve_again = [&](const NumberedFrame& softened,
                                 const Actions& extra) -> std::optional<StaticSolution> {
      Model model = softened.model;
      model.supports = vehicle.model.supports;
      Actions all = given[i].actions;
      add_balanced(vehicle, extra, all);
      StaticResult again = solve_statics(model, {all}, bases_);
      if (!again) return std::nullopt;
      centre_motion(vehicle, again->front());
      return std::move(again->front());
    };
    checked[i] = iterated(*cases[i], true, std::move((*solved)[i]), stable[i], solve_again);
  });
  return checked;
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

Diagnostics without_mass(const Frame& frame, const NumberedFrame& numbered) {
  if (mass_summary(frame, numbered).total > 0) return {};
  return Diagnostics{error_at(frame.vehicle->place, weightless_vehicle())};
}

bool is_asked_for(const Case& c, const std::vector<std::string>& names) {
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& name) { return name == c.name || name == c.part_of; });
}

Result<Analysis> analyse(const Frame& frame, const std::vector<std::string>& only,
                         const AnalysisOptions& options, const TellStep& tell,
                         const KnownBefore& known) {
  tell("solving load cases", 0, 0);
  auto [numbered, joints] = known.jointed ? *known.jointed : jointed_frame(frame);
  std::vector<const Case*> held, driven;  // by the supports; by wheels, held by nothing
  for (const Case& c : frame.cases) {
    if (!only.empty() && !is_asked_for(c, only)) continue;
    (needs_vehicle(frame, c) ? driven : held).push_back(&c);
  }
  Analysis analysis;
  analysis.options = options;
  const CheckFacts facts = check_facts(frame, numbered);
  Checking checking{
      frame, numbered, facts, options, tell, known.bases, held.size() + driven.size()};
  if (!held.empty()) {
    auto checked = checking.held_cases(held);
    if (auto* diagnostics = checked.error()) return std::move(*diagnostics);
    if (Diagnostics why = take_over(std::move(*checked), analysis); !why.empty()) return why;
  }
  if (frame.vehicle && !driven.empty()) {
    auto checked = checking.driven_cases(driven, analysis.vehicle);
    if (auto* diagnostics = checked.error()) return std::move(*diagnostics);
    if (Diagnostics why = take_over(std::move(*checked), analysis); !why.empty()) return why;
  }
  put_in_file_order(frame, analysis.cases);
  analysis.mass = mass_summary(frame, numbered);
  analysis.joints = joint_summary(frame, joints);
  add_remarks(frame, analysis.cases, analysis.remarks);
  analysis.frame = frame;
  analysis.model = std::move(numbered.model);
  analysis.slots = std::move(numbered.slots);
  analysis.arms = std::move(numbered.arms);
  return analysis;
}

Result<std::vector<CaseResult>> check_given(const Frame& frame, const NumberedFrame& numbered,
                                            const CheckFacts& facts, const FreeVehicle& vehicle,
                                            const std::vector<GivenCase>& cases) {
  const AnalysisOptions options;
  Checking checking{frame, numbered, facts, options, tell_nobody, nullptr, cases.size()};
  auto checked = checking.given_cases(vehicle, cases);
  if (auto* diagnostics = checked.error()) return std::move(*diagnostics);
  std::vector<CaseResult> results;
  for (CheckedCase& c : *checked) {
    if (auto* diagnostics = c.result.error()) return std::move(*diagnostics);
    results.push_back(std::move(*c.result));
  }
  return results;
}

}  // namespace tubewright
