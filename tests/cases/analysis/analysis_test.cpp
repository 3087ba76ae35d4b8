// From a named frame to results: masses, cases, combinations, checks, refusals.
#include "cases/analysis/analysis.h"

#include <cmath>
#include <limits>

#include "cases/analysis/tell_step.h"
#include "cases/frame/built_in_materials.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::analysis_test {

using namespace tubewright::testing;

namespace {

constexpr double area = 173.699e-6;     // 25x25x2, EN 10219-2, m2
constexpr double modulus = 1186.79e-9;  // elastic section modulus, m3

SupportEntry fixed(const std::string& node) {
  SupportEntry s;
  s.node = node;
  s.restrained.fill(true);
  return s;
}

/// A cantilever along x, 1 m, fixed at `root`.
Frame cantilever() {
  Frame f = empty_frame();
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back(fixed("root"));
  return f;
}

const Analysis& solved(const Result<Analysis>& outcome) {
  if (const auto* diagnostics = outcome.error()) FAIL(text_of(*diagnostics));
  return *outcome;
}

double tip_z(const CaseResult& c) { return c.solution.displacements[6 + 2]; }

}  // namespace

TEST_CASE("yield is von Mises over the yield strength times the yield factor") {
  Frame f = cantilever();
  add_case(f, "service").forces.push_back({"tip", {0, 0, -100}, {}});
  Case& rare = add_case(f, "rare");
  rare.forces.push_back({"tip", {0, 0, -100}, {}});
  rare.rare = true;
  const Result<Analysis> outcome = analyse(f);
  const Analysis& a = solved(outcome);
  const double sigma = 100 / modulus;
  const auto& service = a.cases[0].members[0];
  CHECK_THAT(service.worst.stress.bending, WithinRel(sigma, 1e-5));
  CHECK_THAT(*service.checks.yield.utilisation,
             WithinRel(1.5 * service.worst.stress.von_mises / 235e6, 1e-12));
  CHECK_THAT(*a.cases[1].members[0].checks.yield.utilisation,
             WithinRel(*service.checks.yield.utilisation / 1.5, 1e-12));
  CHECK(service.worst.where == 0);
  CHECK(a.cases[0].worst->item == "arm");
  CHECK(a.cases[0].worst->check == "yield");
  CHECK(a.frame.nodes[a.cases[0].largest_node].name == "tip");
  CHECK_FALSE(service.checks.buckling.utilisation);
  CHECK_FALSE(service.checks.buckling.reason.empty());
  CHECK(a.cases[0].passes());
}

TEST_CASE("a frame with one overstressed member does not pass") {
  Frame f = cantilever();
  add_case(f, "heavy").forces.push_back({"tip", {0, 0, -300}, {}});
  CHECK_FALSE(solved(analyse(f)).cases[0].passes());
}

TEST_CASE("tubes, panels and carried masses are weighed where they are") {
  Frame f = braced_rectangle();
  Sheet sheet;
  sheet.name = "floor";
  sheet.material = "EN AW-5754-H22";
  sheet.thickness = 0.0012;
  f.sheets.push_back(sheet);
  f.panels.push_back({"p", {"A", "B", "C", "D"}, "floor", {}});
  CarriedMass load;
  load.name = "crate";
  load.mass = 20;
  load.at = {0.3, 0.2, 0.5};
  load.on = {"A", "B", "C", "D"};
  f.masses.push_back(load);
  const NumberedFrame n = build_model(f);
  const MassSummary m = mass_summary(f, n);
  const double length = 2 * 0.6 + 2 * 0.4 + std::hypot(0.6, 0.4);
  CHECK_THAT(m.tubes, WithinRel(7850 * area * length, 1e-5));
  CHECK_THAT(m.panels,
             WithinRel(0.6 * 0.4 * 0.0012 * find_material(f, "EN AW-5754-H22")->properties.density,
                       1e-12));
  CHECK(m.carried == 20);
  CHECK_THAT(m.total, WithinRel(m.tubes + m.panels + 20, 1e-12));
  CHECK_THAT(m.centre.x(), WithinRel(0.3, 1e-9));
  CHECK_THAT(m.centre.y(), WithinRel(0.2, 1e-9));
  const double sheet_at = 0.0125 + 0.0006;  // half a tube of 25 mm and half the sheet
  CHECK_THAT(m.centre.z(), WithinRel((20 * 0.5 + m.panels * sheet_at) / m.total, 1e-9));
}

TEST_CASE("gravity puts the whole weight on the supports") {
  Frame f = braced_rectangle();
  f.supports.push_back(fixed("A"));
  f.supports.push_back(fixed("B"));
  CarriedMass load;
  load.name = "crate";
  load.mass = 20;
  load.at = {0.3, 0.5, 0.5};
  load.on = {"C", "D", "B"};
  f.masses.push_back(load);
  add_member(f, "prop", "B", "D").kind = MemberKind::link;
  add_case(f, "weight").gravity = {0.25, 0, -1};
  const Result<Analysis> outcome = analyse(f);
  const Analysis& a = solved(outcome);
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (int n = 0; n < 4; ++n) sum += a.cases[0].solution.reactions.segment<3>(6 * n);
  CHECK_THAT(sum.z(), WithinRel(a.mass.total * standard_gravity, 1e-9));
  CHECK_THAT(sum.x(), WithinRel(-0.25 * a.mass.total * standard_gravity, 1e-9));
  CHECK(a.cases[0].solution.equilibrium.force < 1e-10);
  CHECK(a.cases[0].solution.equilibrium.moment < 1e-10);
}

TEST_CASE("a combination is the sum of its cases where nothing goes slack") {
  Frame f = cantilever();
  f.supports.push_back(
      {"tip", {false, true, false, false, false, false}, {0, 0.001, 0, 0, 0, 0}, {}});
  add_case(f, "a").forces.push_back({"tip", {0, 0, -50}, {}});
  add_case(f, "b").line_loads.push_back({"arm", {0, 0, -80}, {}});
  Case& inner = add_case(f, "inner", CaseKind::combine);
  inner.of = {{"a", 1, {}}, {"b", -1, {}}};
  Case& sum = add_case(f, "sum", CaseKind::combine);
  sum.of = {{"a", 2, {}}, {"inner", 0.5, {}}};
  const Result<Analysis> outcome = analyse(f);
  const Analysis& r = solved(outcome);
  const auto u = [&](int c) { return r.cases[c].solution.displacements; };
  CHECK((u(2) - (u(0) - u(1))).norm() < 1e-12);
  CHECK((u(3) - (2.5 * u(0) - 0.5 * u(1))).norm() < 1e-12);
}

TEST_CASE("deeply nested combinations are opened once each") {
  Frame f = cantilever();
  add_case(f, "c0").forces.push_back({"tip", {0, 0, -1}, {}});
  add_case(f, "c1").forces.push_back({"tip", {0, 0, -1}, {}});
  for (int i = 2; i < 60; ++i) {  // a naive recursion would need 10^12 steps
    add_case(f, "c" + std::to_string(i), CaseKind::combine).of = {
        {"c" + std::to_string(i - 1), 0.5, {}}, {"c" + std::to_string(i - 2), 0.5, {}}};
  }
  const Result<Analysis> outcome = analyse(f, {"c59"});
  const Analysis& a = solved(outcome);
  REQUIRE(a.cases.size() == 1);
  const Result<Analysis> one = analyse(f, {"c0"});
  CHECK_THAT(tip_z(a.cases[0]), WithinRel(tip_z(solved(one).cases[0]), 1e-9));
}

TEST_CASE("loads on a continuous tube find their piece") {
  Frame whole = empty_frame(), pieces = empty_frame();
  add_node(whole, "A", 0, 0, 0);
  add_node(whole, "D", 1, 0, 0);
  add_member(whole, "rail", "A", "D");
  add_node(pieces, "A", 0, 0, 0);
  add_node(pieces, "D", 1, 0, 0);
  add_node(pieces, "B", 0.2, 0, 0);
  add_member(pieces, "rail.1", "A", "B").tube = "rail";
  add_member(pieces, "rail.2", "B", "D").tube = "rail";
  for (Frame* f : {&whole, &pieces}) {
    f->supports.push_back(fixed("A"));
    Case& c = add_case(*f, "c");
    c.line_loads.push_back({"rail", {0, 0, -100}, {}});
    c.point_loads.push_back({"rail", 0.7, {0, 30, -40}, {5, 0, 0}, {}});
  }
  const Result<Analysis> a = analyse(whole), b = analyse(pieces);
  CHECK((solved(a).cases[0].solution.displacements -
         solved(b).cases[0].solution.displacements.head<12>())
            .norm() < 1e-12);
}

TEST_CASE("a mechanism is told by node, direction and what to do") {
  Frame f = cantilever();
  f.supports[0].restrained = {true, true, true, true, true, false};
  add_case(f, "push").forces.push_back({"tip", {0, 10, 0}, {}});
  const Result<Analysis> outcome = analyse(f);
  REQUIRE(!outcome);
  const std::string text = text_of(*outcome.error());
  CHECK_THAT(text, ContainsSubstring("node `tip` can move along y without resistance"));
  CHECK_THAT(text, ContainsSubstring("support"));
}

TEST_CASE("without a yield strength the check is reported as not made") {
  Frame f = cantilever();
  Material m = find_material(f, "S235")->properties;
  m.yield = m.ultimate = std::numeric_limits<double>::quiet_NaN();
  f.materials.push_back({"plain", m, {}, Metal::steel, {}});
  f.sections[0].material = "plain";
  add_case(f, "c").forces.push_back({"tip", {0, 0, -10}, {}});
  const Result<Analysis> outcome = analyse(f);
  const MemberResult& r = solved(outcome).cases[0].members[0];
  CHECK_FALSE(r.checks.yield.utilisation);
  CHECK_THAT(r.checks.yield.reason, ContainsSubstring("yield strength"));
  for (const NamedMemberCheck& check : named_checks(r.checks)) {
    CHECK_FALSE(check.result->utilisation);
    CHECK_FALSE(check.result->reason.empty());
  }
  CHECK_FALSE(solved(outcome).cases[0].worst);
}

TEST_CASE("the axial force reported is the greatest along the member") {
  Frame f = empty_frame();
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "head", 0, 0, 2);
  add_member(f, "post", "foot", "head");
  f.supports.push_back(fixed("foot"));
  add_case(f, "weight").gravity = {0, 0, -1};
  const Result<Analysis> outcome = analyse(f);
  CHECK_THAT(solved(outcome).cases[0].members[0].N,
             WithinRel(-7850 * area * 2 * standard_gravity, 1e-5));
}

TEST_CASE("the deflection and the mass that `limits` allow are checked") {
  Frame f = cantilever();
  add_case(f, "load").forces.push_back({"tip", {0, 0, -50}, {}});
  const double moved = -tip_z(answer_of(analyse(f)).cases[0]);
  f.limits.deflection = 0.5 * moved;
  const Analysis stiff = answer_of(analyse(f));
  CHECK(stiff.cases[0].worst->check == "deflection");
  CHECK(stiff.cases[0].worst->item == "tip");
  CHECK_THAT(stiff.cases[0].worst->utilisation, WithinRel(2.0, 1e-9));
  CHECK_FALSE(stiff.cases[0].passes());

  f.limits.deflection = 10 * moved;
  CHECK(answer_of(analyse(f)).cases[0].passes());
  f.limits.mass = 0.5 * 7850 * area;
  const Analysis heavy = answer_of(analyse(f));
  CHECK_THAT(*mass_share(heavy), WithinRel(2.0, 1e-5));
}

}  // namespace tubewright::analysis_test
