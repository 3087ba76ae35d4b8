// The buckling study against Euler's columns, its names and its verdict.
#include "cases/studies/buckle_study.h"

#include <cmath>
#include <numbers>

#include "cases/analysis/analysis.h"
#include "cases/rides/load_cases.h"
#include "solver/stability/refine.h"
#include "solver/statics/determinate_restraint.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::buckle_study_test {

using namespace tubewright::testing;

namespace {

constexpr Source gere =
    from_memory("Timoshenko & Gere, Theory of Elastic Stability: rigid bar on a spring, P = k L");

constexpr double I_weak = 1e-8, I_stout = 3e-8, pi = std::numbers::pi;

/// Two masts fixed at their feet: `long_one` of 1.5 m, `short_one` of 1 m; weak across x.
Frame two_masts() {
  Frame f = empty_frame();
  SectionEntry& s = f.sections.front();
  s.shape = Shape::properties;
  s.given = {2e-4, I_weak, I_stout, 3e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0, 0, 1.5);
  add_node(f, "C", 1, 0, 0);
  add_node(f, "D", 1, 0, 1);
  add_member(f, "long_one", "A", "B");
  add_member(f, "short_one", "C", "D");
  for (const char* foot : {"A", "C"}) {
    f.supports.push_back({foot, {true, true, true, true, true, true}, {}, {}});
  }
  return f;
}

void push_down(Frame& f, const std::string& name, const std::string& node, double load) {
  add_case(f, name).forces.push_back({node, {0, 0, -load}, {}});
}

/// Of a mast that stands free: pi^2 E I/(2 L)^2, E 210 GPa.
double euler(double I, double L) { return pi * pi * 210e9 * I / (4 * L * L); }

BuckleStudy studied(const Frame& f, const std::vector<std::string>& only = {}, int count = 2) {
  return answer_of(buckle_study(f, only, count));
}

}  // namespace

TEST_CASE("a case's buckling factors are Euler's load over its own, with the mast that gives way") {
  Frame f = two_masts();
  push_down(f, "on_long", "B", 1000);
  push_down(f, "on_short", "D", 4000);
  const BuckleStudy s = studied(f);
  REQUIRE(s.cases.size() == 2);
  CHECK(s.cases[0].load_case == "on_long");
  REQUIRE(s.cases[0].factors.size() == 2);
  CHECK_THAT(s.cases[0].factors[0], WithinRel(euler(I_weak, 1.5) / 1000, 1e-3));
  CHECK_THAT(s.cases[0].factors[1], WithinRel(euler(I_stout, 1.5) / 1000, 1e-3));
  CHECK(s.cases[0].where == std::vector<std::string>{"long_one", "long_one"});
  CHECK_THAT(s.cases[1].factors[0], WithinRel(euler(I_weak, 1) / 4000, 1e-3));
  CHECK(s.cases[1].where.at(0) == "short_one");
  CHECK(s.cases[0].complete);
  CHECK(buckling_passes(s));
}

TEST_CASE("only the cases asked for are studied, and one in tension does not buckle") {
  Frame f = two_masts();
  push_down(f, "down", "B", 1000);
  push_down(f, "up", "D", -4000);
  const BuckleStudy s = studied(f, {"up"});
  REQUIRE(s.cases.size() == 1);
  CHECK(s.cases[0].load_case == "up");
  CHECK(s.cases[0].factors.empty());
  CHECK(s.cases[0].where.empty());
  CHECK(buckling_passes(s));
}

TEST_CASE("a frame that buckles under its own loads in one case does not pass") {
  Frame f = two_masts();
  push_down(f, "light", "B", 100);
  push_down(f, "heavy", "D", 1.01 * euler(I_weak, 1));
  CHECK_FALSE(buckling_passes(studied(f)));
  f.cases.back().forces.front().value *= 0.98;
  CHECK(buckling_passes(studied(f)));
  // Exactly at its loads is no answer to build on.
  BuckleStudy edge;
  edge.cases.push_back({"edge", {1.0}, {"mast"}, true});
  CHECK_FALSE(buckling_passes(edge));
}

TEST_CASE("a frame that is a mechanism has no buckling factors but its fault") {
  Frame f = two_masts();
  push_down(f, "down", "B", 100);
  f.supports.clear();
  const auto outcome = buckle_study(f, {}, 1);
  REQUIRE(!outcome);
  CHECK_FALSE(outcome.error()->empty());
}

TEST_CASE("second-order effects add the sum of the geometric series of 1/alpha") {
  // Each round of P-Delta adds 1/alpha of the one before.
  for (const double alpha : {1.5, 2.0, 10.0, 100.0}) {
    double sum = 0;
    for (double term = 1; term > 1e-15; term /= alpha) sum += term;
    CHECK_THAT(amplification(alpha), WithinRel(sum, 1e-12));
  }
}

TEST_CASE("a strut that a spring keeps upright falls over at k L, and is told as suspension",
          "[truth]") {
  // A rigid bar hinged at its foot with a spring of rate k across its top: P = k L (Timoshenko &
  // Gere, Theory of Elastic Stability, MEMORY).
  constexpr double k = 10e3, length = 0.5, P = 1000;
  Frame f = two_masts();
  f.nodes.clear();
  f.members.clear();
  f.supports.clear();
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "ahead", 1, 0, length);
  add_node(f, "beside", 0, 1, length);
  add_node(f, "top", 0, 0, length);
  add_member(f, "rail_1", "foot", "ahead");
  add_member(f, "rail_2", "foot", "beside");
  add_member(f, "strut", "foot", "top").kind = MemberKind::link;
  for (const auto& [name, rate] : {std::pair{"ahead", k}, {"beside", 3 * k}}) {
    Member& spring = add_member(f, std::string("to_") + name, "top", name);
    spring.kind = MemberKind::spring;
    spring.section.clear();
    spring.rate = rate;
  }
  for (const char* node : {"foot", "ahead", "beside"}) {
    f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
  }
  push_down(f, "push", "top", P);
  CHECK(studied(f).cases[0].in_suspension == std::vector<bool>{false, false});  // no vehicle
  f.vehicle = Vehicle{};
  const BuckleStudy s = studied(f);
  REQUIRE(s.cases[0].factors.size() == 2);
  truth("strut kept upright by a spring: factor", gere, s.cases[0].factors[0],
        within_rel(k * length / P, 1e-3));
  truth("strut kept upright by a stiffer spring: factor", gere, s.cases[0].factors[1],
        within_rel(3 * k * length / P, 1e-3));
  CHECK(s.cases[0].in_suspension == std::vector<bool>{true, true});
  CHECK(s.cases[0].where == std::vector<std::string>{"strut", "strut"});
  // A mast of the frame proper is none.
  Frame masts = two_masts();
  masts.vehicle = Vehicle{};
  push_down(masts, "on_long", "B", 1000);
  CHECK(studied(masts).cases[0].in_suspension == std::vector<bool>{false, false});
}

TEST_CASE("a vehicle's factors are within 0.3 % of those of sixteen pieces a tube") {
  const Frame f = answer_of(with_load_cases(box_vehicle()));
  const BuckleStudy s = studied(f, {}, 4);
  const Analysis analysis = answer_of(analyse(f));
  Model model = analysis.model;
  model.supports = determinate_restraint(model);
  const RefinedModel fine = refine(model, 16);
  REQUIRE(s.cases.size() == analysis.cases.size());
  for (size_t i = 0; i < s.cases.size(); i += 4) {
    const Buckling finest =
        linear_buckling(fine.model, refine_axial_forces(fine, analysis.cases[i].solution), 4);
    REQUIRE(s.cases[i].factors.size() == finest.modes.size());
    CHECK(s.cases[i].complete);
    for (size_t k = 0; k < finest.modes.size(); ++k) {
      CHECK_THAT(s.cases[i].factors[k], WithinRel(finest.modes[k].factor, 3e-3));
    }
  }
}

}  // namespace tubewright::buckle_study_test
