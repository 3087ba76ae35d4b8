#include "cases/analysis.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "cases/buckled_sheets.h"
#include "cases/built_in_materials.h"
#include "cases/case_actions.h"
#include "cases/mechanism_report.h"
#include "cases/standard_cases.h"
#include "solver/assembly.h"

namespace tubewright {

namespace {

double greatest_axial_force(const BeamState& beam) {
  double greatest = 0;
  for (const double s : smooth_intervals(beam)) {
    for (const bool before : {false, true}) {
      const double N = section_forces(beam, s, before && s > 0).N;
      if (std::abs(N) > std::abs(greatest)) greatest = N;
    }
  }
  return greatest;
}

MemberResult beam_result(const BeamState& beam) {
  MemberResult r;
  r.from = beam.end_forces.head<6>();
  r.to = beam.end_forces.tail<6>();
  r.N = greatest_axial_force(beam);
  r.worst = worst_along(beam);
  return r;
}

/// `axial_line`: what panels along the bar put on it, N/m; its force varies by that from end to
/// end.
MemberResult bar_result(double mean, double axial_line, double length, const Section* section) {
  MemberResult r;
  const double rise = axial_line * length / 2;
  r.from[0] = -(mean + rise);
  r.to[0] = mean - rise;
  const double N = mean + std::copysign(std::abs(rise), mean);
  r.N = N;
  r.worst.where = N == mean + rise ? 0 : 1;
  r.has_stress = section != nullptr;
  if (section != nullptr) {
    r.worst.stress.axial = N / section->A;
    r.worst.stress.von_mises = std::abs(N) / section->A;
  }
  return r;
}

void add_checks(MemberResult& r, const Member& member, const Material* material, double factor) {
  if (material == nullptr) {
    r.yield.reason = "a spring has no section";
    r.buckling.reason = r.weld.reason = r.yield.reason;
    return;
  }
  r.yield = yield_check(r.worst.stress, *material, factor);
  r.buckling.reason = r.weld.reason = "this version does not make this check";
  if (member.kind == MemberKind::cable) r.buckling.reason = "a cable is never pushed";
}

class CaseSummariser {
 public:
  CaseSummariser(const Frame& frame, const NumberedFrame& numbered)
      : frame_(frame), numbered_(numbered), panel_facts_(all_panel_facts(frame, numbered)) {
    for (const Member& m : frame.members) {
      const auto entry = std::find_if(frame.sections.begin(), frame.sections.end(),
                                      [&](const SectionEntry& s) { return s.name == m.section; });
      section_.push_back(
          m.kind == MemberKind::spring ? -1 : static_cast<int>(entry - frame.sections.begin()));
    }
  }

  const std::vector<PanelFacts>& facts() const { return panel_facts_; }

  CaseResult summarise(const Case& c, StaticSolution solution,
                       const std::vector<SheetStage>& stages) const {
    CaseResult result;
    result.name = c.name;
    result.yield_factor = yield_factor(frame_, c);
    for (size_t i = 0; i < frame_.members.size(); ++i) {
      const Member& member = frame_.members[i];
      MemberResult r = member_result(i, solution);
      add_checks(r, member, section_[i] < 0 ? nullptr : &numbered_.model.materials[section_[i]],
                 result.yield_factor);
      note_worst(result, "yield", member.name, r.yield);
      result.members.push_back(std::move(r));
    }
    for (size_t p = 0; p < frame_.panels.size(); ++p) {
      PanelResult r = panel_result(frame_, numbered_, p, panel_facts_[p], stages[p], solution,
                                   result.yield_factor);
      if (const NamedCheck* nearest = nearest_limit(r)) {
        note_worst(result, nearest->name, frame_.panels[p].name, nearest->result);
      }
      result.panels.push_back(std::move(r));
    }
    result.pick_ups = pick_ups(numbered_.model, solution);
    result.largest_node = node_that_moves_most(solution.displacements);
    result.solution = std::move(solution);
    return result;
  }

 private:
  static void note_worst(CaseResult& result, const std::string& check, const std::string& item,
                         const CheckResult& found) {
    if (!found.utilisation) return;
    if (result.worst && *found.utilisation <= result.worst->utilisation) return;
    result.worst = Worst{check, item, *found.utilisation};
  }

  MemberResult member_result(size_t i, const StaticSolution& s) const {
    const MemberSlot slot = numbered_.slots[i];
    if (slot.is_beam) return beam_result(s.beams[slot.index]);
    const Bar& bar = numbered_.model.bars[slot.index];
    const double line = s.bar_lines[slot.index].dot(bar_direction(numbered_.model, bar));
    MemberResult r =
        bar_result(s.bar_forces[slot.index], line, member_length(numbered_, frame_.members[i]),
                   section_[i] < 0 ? nullptr : &numbered_.model.sections[section_[i]]);
    r.slack = s.slack[slot.index];
    return r;
  }

  static int node_that_moves_most(const Eigen::VectorXd& u) {
    int node = -1;
    double greatest = -1;
    for (Eigen::Index n = 0; n < u.size() / unknowns_per_node; ++n) {
      const double moved = u.segment<3>(unknowns_per_node * n).norm();
      if (moved > greatest) {
        greatest = moved;
        node = static_cast<int>(n);
      }
    }
    return node;
  }

  const Frame& frame_;
  const NumberedFrame& numbered_;
  std::vector<int> section_;  ///< one a member, -1 for a spring
  std::vector<PanelFacts> panel_facts_;
};

Problem unsettled(const Case& c) {
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

bool all_finite(const StaticSolution& s) {
  return s.displacements.allFinite() && s.reactions.allFinite() &&
         std::isfinite(s.residual.force) && std::isfinite(s.residual.moment);
}

}  // namespace

bool Analysis::passes() const {
  return std::all_of(cases.begin(), cases.end(),
                     [](const CaseResult& c) { return !c.worst || c.worst->utilisation <= 1; });
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

AnalysisOutcome analyse(const Frame& frame, const std::vector<std::string>& only) {
  NumberedFrame numbered = build_model(frame);
  std::vector<const Case*> held, driven;  // by the supports; by wheels, held by nothing
  for (const Case& c : frame.cases) {
    if (!only.empty() && std::find(only.begin(), only.end(), c.name) == only.end()) continue;
    (needs_vehicle(frame, c) ? driven : held).push_back(&c);
  }

  Analysis analysis;
  const CaseSummariser summariser(frame, numbered);
  const auto settle = [&](const Case& c, const StaticSolution& flat, const auto& solve_again) {
    std::vector<SheetStage> stages = sheet_stages(summariser.facts(), numbered.model, flat);
    if (!any_buckled(stages)) return stages;
    const auto settled = settle_sheets(numbered, summariser.facts(), stages, solve_again);
    if (!settled || !settled->converged) analysis.remarks.push_back(unsettled(c));
    return settled ? settled->stages : stages;
  };
  if (!held.empty()) {
    std::vector<Actions> actions;
    for (const Case* c : held) actions.push_back(case_actions(frame, numbered, *c));
    StaticResult solved = solve_statics(numbered.model, actions);
    if (const auto* failure = std::get_if<StaticFailure>(&solved)) {
      return failure_problems(frame, numbered, *failure, held[failure->load_case]->name);
    }
    auto& solutions = std::get<std::vector<StaticSolution>>(solved);
    for (size_t i = 0; i < held.size(); ++i) {
      if (!all_finite(solutions[i])) return too_large(*held[i]);
      const auto solve_again = [&](const NumberedFrame& softened,
                                   const std::vector<double>& pulls) -> const StaticSolution* {
        Actions pulled = actions[i];
        pulled.pulls = pulls;
        StaticResult again = solve_statics(softened.model, {pulled});
        if (std::holds_alternative<StaticFailure>(again)) return nullptr;
        solutions[i] = std::move(std::get<std::vector<StaticSolution>>(again).front());
        return &solutions[i];
      };
      const auto stages = settle(*held[i], solutions[i], solve_again);
      analysis.cases.push_back(summariser.summarise(*held[i], std::move(solutions[i]), stages));
    }
  }
  if (frame.vehicle && !driven.empty()) {
    if (Problems problems = without_mass(frame, numbered); !problems.empty()) return problems;
    VehicleOutcome solved = solve_vehicle_cases(frame, numbered, driven);
    if (const auto* failure = std::get_if<StaticFailure>(&solved)) {
      return failure_problems(frame, numbered, *failure, driven[failure->load_case]->name);
    }
    auto& [facts, solutions] = std::get<VehicleResults>(solved);
    analysis.vehicle = std::move(facts);
    for (size_t i = 0; i < driven.size(); ++i) {
      if (!all_finite(solutions[i].solution)) return too_large(*driven[i]);
      const auto solve_again = [&](const NumberedFrame& softened,
                                   const std::vector<double>& pulls) -> const StaticSolution* {
        VehicleOutcome again =
            solve_vehicle_cases(frame, softened, {driven[i]}, pulls, analysis.vehicle->standing);
        if (std::holds_alternative<StaticFailure>(again)) return nullptr;
        solutions[i] = std::move(std::get<VehicleResults>(again).solutions.front());
        return &solutions[i].solution;
      };
      const auto stages = settle(*driven[i], solutions[i].solution, solve_again);
      CaseResult result =
          summariser.summarise(*driven[i], std::move(solutions[i].solution), stages);
      result.driving = std::move(solutions[i].state);
      analysis.cases.push_back(std::move(result));
    }
  }
  put_in_file_order(frame, analysis.cases);
  analysis.mass = mass_summary(frame, numbered);
  for (Problem& remark : turned_over(frame, analysis.cases)) {
    analysis.remarks.push_back(std::move(remark));
  }
  analysis.frame = frame;
  analysis.model = std::move(numbered.model);
  analysis.slots = std::move(numbered.slots);
  return analysis;
}

}  // namespace tubewright
