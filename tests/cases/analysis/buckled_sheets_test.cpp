// Buckled sheets against NACA TN 2661 by hand where statics give the flow, and as a fixed point
// where they do not.
#include "cases/analysis/buckled_sheets.h"

#include <cmath>
#include <numbers>

#include "cases/model/case_actions.h"
#include "solver/statics/statics.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::buckled_sheets_test {

using namespace tubewright::testing;

namespace {

constexpr Source gere = from_memory("Timoshenko & Gere, simply supported plate in shear");
constexpr Source megson = rederived("Megson eq. 6.111 and the energy of diagonal tension, by hand");

constexpr double a = 0.7, b = 0.6, t = 0.0012;  // the bay of shear_frame(), m
constexpr double E = 70e9, nu = 0.33, G = E / (2 * (1 + nu));

/// Statically determinate: the flow is load / a whatever the sheet has lost.
Frame bay(double load) {
  Frame f = shear_frame(a, b, load);
  f.materials.push_back({"textbook", {E, G, 2700, 130e6, 220e6}, {}, Metal::aluminium, {}});
  f.sheets.front().material = "textbook";
  return f;
}

/// Timoshenko & Gere, simply supported.
double critical_stress() {
  const double k_s = 5.34 + 4 * (b / a) * (b / a);
  return k_s * std::numbers::pi * std::numbers::pi * E / (12 * (1 - nu * nu)) * (t / b) * (t / b);
}

/// Share of diagonal tension, Megson eq. 6.111.
double tension_share(double flow) {
  return std::tanh(0.5 * std::log10(flow / t / critical_stress()));
}

struct Solved {
  NumberedFrame numbered;
  std::vector<PanelFacts> facts;
  Actions actions;
  StaticSolution first;
  int rounds = 0;

  explicit Solved(const Frame& f)
      : numbered(build_model(f)),
        facts(all_panel_facts(f, numbered)),
        actions(case_actions(f, numbered, f.cases.front())),
        first(answer(numbered, no_actions(numbered.model)).value()) {}

  std::optional<StaticSolution> answer(const NumberedFrame& softened, const Actions& extra) {
    ++rounds;
    Actions all = actions;
    add_actions(all, extra, 1);
    StaticResult r = solve_statics(softened.model, {all});
    if (!r) return std::nullopt;
    return std::move(r->front());
  }

  std::vector<SheetStage> stages() const { return sheet_stages(facts, numbered.model, first); }

  std::optional<IteratedSheets> iterated() {
    return iterate_sheets(
        numbered, facts, stages(), no_actions(numbered.model),
        [this](const NumberedFrame& n, const Actions& extra) { return answer(n, extra); });
  }
};

/// A clad box in bending and twist on three corners, with a diagonal beside each sheet: how they
/// share depends on what the sheet has lost.
Frame loaded_box(double load) {
  Frame f = clad_box();
  f.sheets.front().thickness = 0.0006;
  for (const char* bay : {"1", "2", "3"}) {
    const std::string next(1, static_cast<char>(*bay + 1));
    add_member(f, std::string("diagonal") + bay, "l" + std::string(bay) + "_l", "l" + next + "_r");
  }
  for (const char* node : {"l1_r", "l4_l", "l4_r"}) {
    f.supports.push_back({node, {true, true, true}, {}, {}});
  }
  add_case(f, "corner").forces.push_back({"l1_l", {0, 0, -load}, {}});
  return f;
}

}  // namespace

TEST_CASE("every panel has its facts, with the critical stress of Timoshenko and Gere", "[truth]") {
  const Frame f = clad_box();
  CHECK(all_panel_facts(f, build_model(f)).size() == 3);
  CHECK(all_panel_facts(open_box(), build_model(open_box())).empty());
  const Frame one = bay(1);
  const auto facts = all_panel_facts(one, build_model(one));
  REQUIRE(facts.size() == 1);
  truth("bay 700 x 600 x 1.2: critical shear stress, Pa", gere, facts[0].critical_stress,
        within_rel(critical_stress(), 1e-6));
  CHECK_THAT(facts[0].nu, WithinRel(nu, 1e-9));
}

TEST_CASE("a sheet below its critical stress is flat and one above it has buckled") {
  const double critical_load = critical_stress() * t * a;
  const std::vector<SheetStage> below = Solved(bay(0.99 * critical_load)).stages();
  CHECK_FALSE(any_buckled(below));
  CHECK(below.at(0).secant_ratio == 1);
  const std::vector<SheetStage> above = Solved(bay(1.01 * critical_load)).stages();
  CHECK(any_buckled(above));
  CHECK(any_buckled({below.at(0), above.at(0)}));
  CHECK_FALSE(any_buckled({}));
}

TEST_CASE("a bay whose flow statics give keeps what diagonal tension leaves, and leans by that",
          "[truth]") {
  const double flow = 6000;
  Solved s(bay(flow * a));
  const auto answer = s.iterated();
  REQUIRE(answer);
  CHECK(answer->converged);
  const double k = tension_share(flow), kept = 1 / ((1 - k) + 2 * k / (1 + nu));
  truth("bay at 6 N/mm: share of diagonal tension", megson, answer->stages[0].tension_share,
        within_rel(k, 1e-6));
  truth("bay at 6 N/mm: G left of G", megson, answer->stages[0].secant_ratio,
        within_rel(kept, 1e-6));
  truth("bay at 6 N/mm: pull on the edges, N/m", megson, answer->stages[0].traction,
        within_rel(k * flow, 1e-6));
  // The upper side moves by q b/(G t) over what is left; the pull of the sheet is in balance with
  // itself, so it only draws C and D together.
  const auto mean = [](const StaticSolution& solution) {
    return (solution.displacements[6 * 2] + solution.displacements[6 * 3]) / 2;
  };
  CHECK_THAT(mean(answer->solution) - mean(s.first),
             WithinRel(flow * b / (G * t) * (1 / kept - 1), 1e-3));
  CHECK(answer->solution.displacements[6 * 2] - answer->solution.displacements[6 * 3] <
        s.first.displacements[6 * 2] - s.first.displacements[6 * 3]);
}

TEST_CASE("the stages found are those of the solution found, also where flows move elsewhere") {
  Solved s(loaded_box(2500));
  REQUIRE(any_buckled(s.stages()));
  const auto answer = s.iterated();
  REQUIRE(answer);
  CHECK(answer->converged);
  CHECK(s.rounds > 2);
  NumberedFrame softened = s.numbered;
  Actions pulled = no_actions(s.numbered.model);
  for (size_t p = 0; p < s.facts.size(); ++p) {
    softened.model.panels[p].secant_ratio = answer->stages[p].secant_ratio;
    pulled.tension_fields[p] = answer->stages[p].traction;
  }
  const std::vector<SheetStage> again =
      sheet_stages(s.facts, s.numbered.model, *s.answer(softened, pulled));
  for (size_t p = 0; p < again.size(); ++p) {
    CHECK_THAT(again[p].secant_ratio, WithinAbs(answer->stages[p].secant_ratio, 2e-4));
  }
}

TEST_CASE("a search for buckled sheets that finds no answer or no end says so") {
  Solved s(bay(4200));
  const auto none = iterate_sheets(
      s.numbered, s.facts, s.stages(), no_actions(s.numbered.model),
      [](const NumberedFrame&, const Actions&) { return std::optional<StaticSolution>(); });
  CHECK_FALSE(none);
  int calls = 0;
  const auto restless =
      iterate_sheets(s.numbered, s.facts, s.stages(), no_actions(s.numbered.model),
                     [&](const NumberedFrame&, const Actions&) {
                       std::optional<StaticSolution> answer = s.first;
                       answer->panel_flows[0] *= ++calls % 2 == 0 ? 3 : 6;
                       return answer;
                     });
  REQUIRE(restless);
  CHECK_FALSE(restless->converged);
  CHECK(calls < 1000);
}

}  // namespace tubewright::buckled_sheets_test
