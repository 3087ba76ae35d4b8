// What a case still needs after its first solution: second order against the closed form of a
// beam-column (Timoshenko & Gere, Theory of Elastic Stability), sheets left as they are found.
#include "cases/analysis/iterate_case.h"

#include <cmath>
#include <numbers>

#include "cases/model/case_actions.h"
#include "solver/statics/statics.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::iterate_case_test {

using namespace tubewright::testing;

namespace {

constexpr Source gere = from_memory("Timoshenko & Gere: 3 (tan u - u)/u3");

constexpr double L = 1.2, EI = 210e9 * 2e-8;

/// A mast fixed at its foot, pushed down by `down` and sideways by 10 N. It does not get shorter.
Frame mast(double down) {
  Frame f = empty_frame();
  SectionEntry& s = f.sections.front();
  s.shape = Shape::properties;
  s.given = {1, 2e-8, 2e-8, 3e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "top", 0, 0, L);
  add_member(f, "mast", "foot", "top");
  f.supports.push_back({"foot", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "push").forces.push_back({"top", {10, 0, -down}, {}});
  return f;
}

struct Solved {
  NumberedFrame numbered;
  std::vector<PanelFacts> facts;
  Actions actions;
  bool fails = false;
  int rounds = 0;

  explicit Solved(const Frame& f)
      : numbered(build_model(f)),
        facts(all_panel_facts(f, numbered)),
        actions(case_actions(f, numbered, f.cases.front())) {}

  std::optional<StaticSolution> answer(const NumberedFrame& softened, const Actions& extra) {
    ++rounds;
    if (fails) return std::nullopt;
    Actions all = actions;
    add_actions(all, extra, 1);
    StaticResult r = solve_statics(softened.model, {all});
    if (!r) return std::nullopt;
    return std::move(r->front());
  }

  StaticSolution first() {
    StaticSolution solution = answer(numbered, no_actions(numbered.model)).value();
    rounds = 0;
    return solution;
  }

  IteratedCase iterated(const StaticSolution& from, std::optional<double> second_order) {
    return iterate_case(
        numbered, facts, from, second_order, true,
        [this](const NumberedFrame& n, const Actions& extra) { return answer(n, extra); });
  }
};

double euler_of_mast() { return std::numbers::pi * std::numbers::pi * EI / (4 * L * L); }

/// Growth of the tip's movement under N at the tip: 3 (tan u - u)/u^3, u = L sqrt(N/(E I)).
double growth_by_hand(double N) {
  const double u = L * std::sqrt(N / EI);
  return 3 * (std::tan(u) - u) / (u * u * u);
}

double tip(const StaticSolution& s) { return s.displacements[6]; }

}  // namespace

TEST_CASE("a case of first order with flat sheets is left as it was solved") {
  for (const Frame& f : {mast(500), shear_frame(0.7, 0.6, 100)}) {
    Solved s(f);
    const StaticSolution first = s.first();
    const IteratedCase c = s.iterated(first, std::nullopt);
    CHECK(s.rounds == 0);
    CHECK(c.solution.displacements == first.displacements);
    CHECK(c.stages.size() == f.panels.size());
    CHECK(c.sheets_converged);
    CHECK_FALSE(c.second_order);
  }
}

TEST_CASE("a mast leans to second order as the beam-column does", "[truth]") {
  // Its load found 0.2 % too high grows by share/(1 - share).
  for (const double share : {0.1, 0.5, 0.8}) {
    const double tolerance = 0.002 * (1 + share / (1 - share));
    const double N = share * euler_of_mast();
    Solved s(mast(N));
    const StaticSolution first = s.first();
    const IteratedCase c = s.iterated(first, 1);
    INFO("at " << share << " of Euler's load");
    REQUIRE(c.second_order);
    CHECK(c.second_order->converged);
    truth(named("mast at ", share, " of Euler's load: growth of its lean"), gere,
          tip(c.solution) / tip(first), within_rel(growth_by_hand(N), tolerance));
    CHECK_THAT(c.second_order->growth, WithinRel(growth_by_hand(N), tolerance));
  }
}

TEST_CASE("the factor of a second-order case stands for as much more axial force") {
  const double N = 0.6 * euler_of_mast();
  Solved half(mast(N / 2)), whole(mast(N));
  const IteratedCase doubled = half.iterated(half.first(), 2),
                     plain = whole.iterated(whole.first(), 1);
  CHECK_THAT(doubled.second_order->growth, WithinRel(plain.second_order->growth, 1e-4));
  CHECK_THAT(tip(doubled.solution), WithinRel(tip(plain.solution), 1e-4));
}

TEST_CASE("beyond Euler's load there is no second-order answer and the first one stays") {
  Solved s(mast(1.1 * euler_of_mast()));
  const StaticSolution first = s.first();
  const IteratedCase c = s.iterated(first, 1);
  REQUIRE(c.second_order);
  CHECK_FALSE(c.second_order->converged);
  CHECK(c.second_order->growth == 1);
  CHECK(c.solution.displacements == first.displacements);
}

TEST_CASE("a case with buckled sheets is solved again, and keeps its first answer if that fails") {
  Solved s(shear_frame(0.7, 0.6, 4200));
  const StaticSolution first = s.first();
  const IteratedCase c = s.iterated(first, std::nullopt);
  CHECK(s.rounds > 0);
  CHECK(c.sheets_converged);
  CHECK(c.stages.at(0).secant_ratio < 1);
  CHECK(c.solution.displacements[12] > first.displacements[12]);
  // With links that are in line with their loads, second order adds nothing worth the name.
  const IteratedCase leaning = s.iterated(first, 1);
  CHECK_THAT(leaning.second_order->growth, WithinAbs(1.0, 1e-3));
  CHECK_THAT(leaning.stages.at(0).secant_ratio, WithinRel(c.stages.at(0).secant_ratio, 1e-3));
  s.fails = true;
  const IteratedCase stuck = s.iterated(first, std::nullopt);
  CHECK_FALSE(stuck.sheets_converged);
  CHECK(stuck.solution.displacements == first.displacements);
  CHECK(any_buckled(stuck.stages));
}

}  // namespace tubewright::iterate_case_test
