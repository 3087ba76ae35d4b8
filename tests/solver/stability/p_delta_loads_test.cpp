#include "solver/stability/p_delta_loads.h"

#include <cmath>
#include <numbers>
#include <random>

#include "solver/stability/buckling.h"
#include "solver/stability/refine.h"
#include "tests/catch.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::p_delta_loads_test {

using namespace tubewright::test;

namespace {

constexpr Source aisc =
    from_memory("ANSI/AISC 360-10 Commentary C2, benchmark case 1, without shear");
constexpr Source case_1 = rederived(
    "closed form of benchmark case 1 of ANSI/AISC 360-10 Commentary C2 (data from memory)");
constexpr Source case_2 = rederived(
    "closed form of benchmark case 2 of ANSI/AISC 360-10 Commentary C2 (data from memory)");

StaticSolution first_order(const Model& model, const Actions& actions) {
  const StaticResult result = solve_statics(model, {actions});
  REQUIRE(result.has_value());
  return result->front();
}

SecondOrder second_order(const Model& model, const Actions& actions, double safety_factor = 1) {
  return iterate_p_delta(model, safety_factor, first_order(model, actions),
                         [&](const Actions& extra) {
                           Actions all = actions;
                           add_actions(all, extra, 1);
                           return std::optional(first_order(model, all));
                         });
}

// ANSI/AISC 360-10 Commentary C2, benchmark cases 1 and 2 (MEMORY), W14x48 without shear
// flexibility: kip and inch, in the x-z plane.
constexpr double E = 29000, I = 484, L = 336;

ModelBuilder w14_column() {
  ModelBuilder b;
  const int id = b.section(properties(1e6, I, I, 1), E, E / 2.6);
  b.node(0, 0, 0);
  b.node(L, 0, 0);
  b.beam(0, 1, id);
  return b;
}

}  // namespace

TEST_CASE("a loaded column between pins grows as the benchmark of AISC 360 C2, case 1", "[truth]") {
  ModelBuilder b = w14_column();
  b.hold(0, {x, y, z, rx, rz});
  b.hold(1, {y, z});
  const double w = 0.2 / 12;
  for (const double P : {0.0, 150.0, 300.0, 450.0}) {
    Actions a = no_actions(b.model);
    a.beams[0].line = {0, 0, -w};
    a.nodal[6 + x] = -P;
    const SecondOrder r = second_order(b.model, a);
    REQUIRE(r.converged);
    // Closed form (DERIVED): secant formula of a beam-column under a uniform load.
    const double u = std::sqrt(P * L * L / (4 * E * I));
    const double moment = w * L * L / 8 * (P == 0 ? 1 : 2 * (1 / std::cos(u) - 1) / (u * u));
    const double deflection =
        5 * w * std::pow(L, 4) / (384 * E * I) *
        (P == 0 ? 1 : 12 * (2 / std::cos(u) - u * u - 2) / (5 * std::pow(u, 4)));
    const BeamState& beam = r.solution.beams[0];
    truth(named("column between pins, P = ", P, " kip: moment, kip in"), case_1,
          std::abs(section_forces(beam, 0.5).My), within_rel(moment, 0.01));
    truth(named("column between pins, P = ", P, " kip: deflection, in"), case_1,
          -beam_displacement(beam, 0.5).displacement.z(), within_rel(deflection, 0.01));
  }
  // As printed: 235, 269, 313, 375 kip-in.
  Actions a = no_actions(b.model);
  a.beams[0].line = {0, 0, -w};
  a.nodal[6 + x] = -450;
  truth("column between pins, P = 450 kip: moment as printed, kip in", aisc,
        std::abs(section_forces(second_order(b.model, a).solution.beams[0], 0.5).My),
        within_rel(375.0, 0.01));
}

TEST_CASE("a cantilever under a side load grows as the benchmark of AISC 360 C2, case 2",
          "[truth]") {
  ModelBuilder b = w14_column();
  b.fix(0);
  struct Row {
    double P, moment, deflection;  // DERIVED: H L tan a/a and (H L^3/3EI) 3 (tan a - a)/a^3
  };
  for (const Row& row : {Row{0, 336, 0.90085}, Row{100, 469.07, 1.33067}, Row{150, 598.65, 1.75103},
                         Row{200, 848.98, 2.56490}}) {
    Actions a = no_actions(b.model);
    a.nodal[6 + z] = 1;
    a.nodal[6 + x] = -row.P;
    const SecondOrder r = second_order(b.model, a);
    REQUIRE(r.converged);
    truth(named("cantilever column, P = ", row.P, " kip: moment, kip in"), case_2,
          std::abs(section_forces(r.solution.beams[0], 0).My), within_rel(row.moment, 0.01));
    truth(named("cantilever column, P = ", row.P, " kip: deflection, in"), case_2,
          r.solution.displacements[6 + z], within_rel(row.deflection, 0.01));
  }
}

TEST_CASE("a reserve multiplies the axial forces only") {
  ModelBuilder b = w14_column();
  b.fix(0);
  Actions a = no_actions(b.model);
  a.nodal[6 + z] = 1;
  a.nodal[6 + x] = -100;
  Actions doubled = a;
  doubled.nodal[6 + x] = -200;
  const SecondOrder with_reserve = second_order(b.model, a, 2),
                    with_load = second_order(b.model, doubled);
  CHECK_THAT(with_reserve.solution.displacements[6 + z],
             WithinRel(with_load.solution.displacements[6 + z], 1e-6));
}

TEST_CASE("tension holds a member straight") {
  ModelBuilder b = w14_column();
  b.fix(0);
  Actions a = no_actions(b.model);
  a.nodal[6 + z] = 1;
  a.nodal[6 + x] = 200;
  const double k = std::sqrt(200 / (E * I)) * L;  // tip: (H L/P) (1 - tanh k/k)
  const SecondOrder r = second_order(b.model, a);
  REQUIRE(r.converged);
  CHECK_THAT(r.solution.displacements[6 + z], WithinRel(L / 200 * (1 - std::tanh(k) / k), 0.01));
}

TEST_CASE("a strap pulled far beyond its own Euler load stays what it is", "[truth]") {
  // Pinned tie with a side load Q at the middle, exactly: Q L/(4 T) (1 - tanh u/u), u = k L/2, k =
  // sqrt(T/(E I)) (Timoshenko & Gere 1961, art. 1.11). 20 x 3, 1000 mm, 400 N, 5 N.
  const double I = 0.020 * 0.003 * 0.003 * 0.003 / 12, steel = 210e9;
  for (const double T : {40.0, 400.0, 4000.0, 12000.0}) {
    ModelBuilder b;
    const int id = b.section(properties(60e-6, I, 400 * I, 1e-9), steel, 81e9);
    b.node(0, 0, 0);
    b.node(0.5, 0, 0);
    b.node(1, 0, 0);
    b.beam(0, 1, id);
    b.beam(1, 2, id);
    b.hold(0, {x, y, z, rx, rz});
    b.hold(2, {y, z});
    Actions a = no_actions(b.model);
    a.nodal[6 + z] = 5;
    a.nodal[12 + x] = T;
    const SecondOrder r = second_order(b.model, a);
    REQUIRE(r.converged);
    const double u = std::sqrt(T / (steel * I)) / 2;
    truth(named("strap 20 x 3 x 1000 pulled by ", T, " N, 5 N across its middle: deflection, mm"),
          rederived("Timoshenko & Gere (1961), art. 1.11, in closed form"),
          1000 * r.solution.displacements[6 + z],
          within_rel(1000 * 5 / (4 * T) * (1 - std::tanh(u) / u), 0.015));
  }
}

TEST_CASE("every frame below its critical load has a second-order answer, none beyond it has") {
  // Critical load: the lowest factor of the same frame with its beams in pieces. Ties and struts of
  // any strength side by side.
  std::mt19937 random(8);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  int tried = 0;
  for (int trial = 0; trial < 40; ++trial) {
    ModelBuilder b;
    const int stout = b.section(properties(2e-4, 2e-8, 2e-8, 3e-8), 210e9, 81e9);
    const int strap = b.section(properties(6e-5, 5e-11, 2e-9, 2e-10), 210e9, 81e9);
    const int bays = 1 + trial % 3;
    for (int i = 0; i <= bays; ++i) {
      b.node(i, between(-0.1, 0.1), 0);
      b.node(i, between(-0.1, 0.1), between(0.6, 1.2));
      b.fix(2 * i);
      b.beam(2 * i, 2 * i + 1, i % 2 == 0 ? stout : strap);
      if (i > 0) b.beam(2 * i - 1, 2 * i + 1, trial % 2 == 0 ? strap : stout);
      if (i > 0 && trial % 4 == 0) b.bar(2 * i - 2, 2 * i + 1, 1e5);
    }
    Actions a = no_actions(b.model);
    for (int i = 0; i <= bays; ++i) {
      a.nodal[6 * (2 * i + 1) + x] = between(-20, 20);
      a.nodal[6 * (2 * i + 1) + z] = between(-1000, 400);
    }
    const StaticSolution first = first_order(b.model, a);
    const RefinedModel fine = refine(b.model, 8);
    const Buckling buckling = linear_buckling(fine.model, refine_axial_forces(fine, first), 1);
    if (buckling.modes.empty()) continue;
    ++tried;
    const double critical = buckling.modes.front().factor;
    INFO("trial " << trial << ", critical " << critical);
    for (const double share : {0.3, 0.6, 0.9}) {
      INFO("share " << share);
      const SecondOrder r = second_order(b.model, a, share * critical);
      // Near the critical load what sways may squeeze a strap more than in first order.
      const AxialForces own = refine_axial_forces(fine, r.solution);
      if (r.converged) CHECK(modes_below(fine.model, own, share * critical) == 0);
      if (share < 0.9) CHECK(r.converged);
    }
    for (const double share : {1.1, 2.0, 10.0}) {
      CHECK_FALSE(second_order(b.model, a, share * critical).converged);
    }
  }
  CHECK(tried > 25);
}

TEST_CASE("beyond the critical load no equilibrium is found and it says so") {
  ModelBuilder b = w14_column();
  b.fix(0);
  const double critical = std::numbers::pi * std::numbers::pi * E * I / (4 * L * L);
  for (const double share : {0.98, 1.02}) {
    Actions a = no_actions(b.model);
    a.nodal[6 + z] = 0.01;
    a.nodal[6 + x] = -share * critical;
    CHECK(second_order(b.model, a).converged == (share < 1));
  }
}

TEST_CASE("a mast of pinned bars leans as P/L") {
  // A post, pinned at its foot, held by a spring at its head: H = (k - P/L) w.
  ModelBuilder b;
  b.node(0, 0, 0);
  b.node(0, 0, 2);
  b.node(1, 0, 2);
  b.bar(0, 1, 1e9);
  b.bar(1, 2, 500);
  b.pin(0);
  b.pin(2);
  b.hold(1, {y});
  Actions a = no_actions(b.model);
  a.nodal[6 + x] = 10;
  a.nodal[6 + z] = -400;
  const SecondOrder r = second_order(b.model, a);
  REQUIRE(r.converged);
  CHECK_THAT(r.solution.displacements[6 + x], WithinRel(10 / (500 - 400 / 2.0), 1e-5));
}

}  // namespace tubewright::p_delta_loads_test
