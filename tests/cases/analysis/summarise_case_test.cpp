// From a solution to the results of a case: forces by statics, and the worst item by looking
// through all of them.
#include "cases/analysis/summarise_case.h"

#include <algorithm>
#include <cmath>

#include "cases/model/case_actions.h"
#include "solver/statics/statics.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::summarise_case_test {

using namespace tubewright::testing;

namespace {

/// A frame of tubes in space, clad, with a link and a cable that goes slack, pushed at a corner.
Frame mixed_frame() {
  Frame f = clad_box();
  for (const char* node : {"l1_r", "l4_l", "l4_r"}) {
    f.supports.push_back({node, {true, true, true}, {}, {}});
  }
  add_node(f, "mast", 0.2, 0.25, 0.9);
  f.supports.push_back({"mast", {true, true, true, true, true, true}, {}, {}});
  add_member(f, "tie", "h1_l", "mast").kind = MemberKind::link;
  add_node(f, "peg", 0.1, 0.25, 0);
  f.supports.push_back({"peg", {true, true, true, true, true, true}, {}, {}});
  add_member(f, "stay", "l1_l", "peg").kind = MemberKind::cable;
  Case& c = add_case(f, "corner");
  c.forces.push_back({"l1_l", {0, 0, -900}, {}});
  c.yield_factor = 1.3;
  return f;
}

struct Solved {
  Frame frame;
  NumberedFrame numbered;
  CheckFacts facts;
  IteratedCase iterated;

  explicit Solved(Frame f)
      : frame(std::move(f)), numbered(build_model(frame)), facts(check_facts(frame, numbered)) {
    const StaticResult r =
        solve_statics(numbered.model, {case_actions(frame, numbered, frame.cases.front())});
    iterated.solution = r->front();
    iterated.stages = sheet_stages(facts.panels, numbered.model, iterated.solution);
  }

  CaseResult result(bool driven = false) const {
    return summarise_case(frame, numbered, facts, frame.cases.front(), driven, iterated);
  }

  CaseResult large_result(double reached_at_design) const {
    const Actions actions = case_actions(frame, numbered, frame.cases.front());
    Actions raised = no_actions(numbered.model);
    add_actions(raised, actions, 1.5);
    LargeAnswer service = *solve_large(numbered.model, actions);
    LargeAnswer design = *solve_large(numbered.model, raised);
    design.motion.reached = std::min(design.motion.reached, reached_at_design);
    return summarise_large_case(frame, numbered, facts, frame.cases.front(), false,
                                iterated.solution, std::move(service), design);
  }
};

/// A mast 1 m high under its own line load of 50 N/m downward and 20 N sideways at its top.
Frame mast(double side) {
  Frame f = empty_frame();
  add_node(f, "foot", 0, 0, 0);
  add_node(f, "top", 0, 0, 1);
  add_member(f, "mast", "foot", "top");
  f.supports.push_back({"foot", {true, true, true, true, true, true}, {}, {}});
  Case& c = add_case(f, "load");
  c.line_loads.push_back({"mast", {0, 0, -50}, {}});
  c.forces.push_back({"top", {side, 0, -30}, {}});
  return f;
}

}  // namespace

TEST_CASE("facts for the checks are one a panel, one a member and two ends a member") {
  const Solved s(mixed_frame());
  CHECK(s.facts.panels.size() == s.frame.panels.size());
  CHECK(s.facts.members.size() == s.frame.members.size());
  CHECK(s.facts.joint_ends.size() == s.frame.members.size());
}

TEST_CASE("the worst item of a case is the greatest of all checks of members and panels") {
  const Solved s(mixed_frame());
  const CaseResult r = s.result();
  REQUIRE(r.members.size() == s.frame.members.size());
  REQUIRE(r.panels.size() == s.frame.panels.size());
  double greatest = r.sway_factor ? 1 / *r.sway_factor : 0;
  for (const MemberResult& m : r.members) {
    for (const auto& [name, check] : named_checks(m.checks)) {
      greatest = std::max(greatest, check->utilisation.value_or(0));
    }
  }
  for (const PanelResult& p : r.panels) {
    for (const NamedCheck& check : p.checks) {
      if (check.counts) greatest = std::max(greatest, check.result.utilisation.value_or(0));
    }
  }
  REQUIRE(r.worst);
  CHECK(r.worst->utilisation == greatest);
  CHECK(r.passes() == (greatest <= 1));
  CHECK(r.safety_factor == 1.3);
  CHECK(r.name == "corner");
}

TEST_CASE("a link's stress is its force over its area, and a cable that is pushed is slack") {
  const Solved s(mixed_frame());
  const CaseResult r = s.result();
  const MemberResult& tie = r.members[r.members.size() - 2];
  const MemberResult& stay = r.members.back();
  CHECK(tie.N > 0);
  CHECK_FALSE(tie.slack);
  CHECK_THAT(tie.worst.stress.von_mises,
             WithinRel(tie.N / s.facts.members[r.members.size() - 2].section.A, 1e-12));
  CHECK(tie.from[0] == -tie.N);
  CHECK(tie.to[0] == tie.N);
  CHECK(stay.slack);
  CHECK(stay.N == 0);
  REQUIRE(r.pick_ups.size() == 2);  // l1_l with the slack cable stands before h1_l
  CHECK(r.pick_ups[0].force.norm() == 0);
  CHECK(s.frame.nodes[static_cast<size_t>(r.pick_ups[1].node)].name == "h1_l");
  CHECK_THAT(r.pick_ups[1].force.norm(), WithinRel(tie.N, 1e-9));
}

TEST_CASE("sheets along a link make its force vary by the flow along it, greatest at one end") {
  // The bay of shear_frame() by statics: q = load/a along all edges; side BC has nothing to hand on
  // at C but its share of q b, so its force runs from there to q b at its foot.
  const double a = 0.7, b = 0.6, load = 700, q = load / a;
  const Solved s(shear_frame(a, b, load));
  const CaseResult r = s.result();
  const MemberResult &BC = r.members[1], &DA = r.members[3];
  CHECK_THAT(std::abs(BC.N), WithinRel(q * b, 1e-9));
  CHECK_THAT(std::abs(DA.N), WithinRel(q * b, 1e-9));
  CHECK(BC.N < 0);  // pushed towards +x at the top, the far side is compressed
  CHECK(DA.N > 0);
  CHECK(std::abs(BC.to[0]) < 1e-6 * q * b);
  CHECK_THAT(BC.from[0], WithinRel(q * b, 1e-9));
  CHECK(BC.worst.where == 0);  // at B
  CHECK(DA.worst.where == 1);  // at A
}

TEST_CASE("a mast's axial force is greatest at its foot and its top moves most") {
  const Solved s(mast(20));
  const CaseResult r = s.result();
  CHECK_THAT(r.members[0].N, WithinRel(-80.0, 1e-9));
  CHECK_THAT(r.members[0].from[0], WithinRel(80.0, 1e-9));
  CHECK_THAT(r.members[0].to[0], WithinRel(-30.0, 1e-9));
  CHECK(r.members[0].worst.where == 0);
  CHECK(r.largest_node == 1);
  CHECK(r.safety_factor == 1.5);
}

TEST_CASE("a limit on deflection counts, but not for a vehicle that stands on its springs") {
  Frame f = mast(20);
  const double moved = Solved(f).result().solution.displacements.segment<3>(6).norm();
  f.limits.deflection = moved / 3;
  const CaseResult r = Solved(f).result();
  CHECK(r.worst->check == "deflection");
  CHECK(r.worst->item == "top");
  CHECK_THAT(r.worst->utilisation, WithinRel(3.0, 1e-9));
  CHECK_FALSE(r.passes());
  add_node(f, "axle", 0, 0, -0.2);
  Member& spring = add_member(f, "spring", "axle", "foot");
  spring.kind = MemberKind::spring;
  spring.section.clear();
  spring.rate = 1e4;
  f.supports.push_back({"axle", {true, true, true, true, true, true}, {}, {}});
  CHECK(Solved(f).result(false).worst->check == "deflection");
  CHECK(Solved(f).result(true).worst->check != "deflection");
}

TEST_CASE("a limit of displacement counts in its own case, along its own directions, either way") {
  Frame f = mast(20);
  const Eigen::Vector3d moved = Solved(f).result().solution.displacements.segment<3>(6);
  Eigen::Index most = 0;
  moved.cwiseAbs().maxCoeff(&most);
  DisplacementLimit limit{f.cases[0].name, "top", {}, {}};
  limit.most[static_cast<size_t>(most)] = std::abs(moved[most]) / 4;
  f.limits.displacements = {limit};
  const CaseResult r = Solved(f).result();
  CHECK(r.worst->check == "displacement");
  CHECK(r.worst->item == std::string("top ") + direction_names[static_cast<size_t>(most)]);
  CHECK_THAT(r.worst->utilisation, WithinRel(4.0, 1e-9));
  CHECK_FALSE(r.passes());
  REQUIRE(limited_displacements(f, r).size() == 1);
  f.limits.displacements[0].load_case = "another";
  CHECK(limited_displacements(f, r).empty());
  CHECK(Solved(f).result().worst->check != "displacement");
  // The node that does not move is at none of its limit.
  f.limits.displacements = {{f.cases[0].name, "foot", {1e-6, 1e-6, 1e-6}, {}}};
  const CaseResult still = Solved(f).result();
  REQUIRE(limited_displacements(f, still).size() == 3);
  for (const LimitedDisplacement& d : limited_displacements(f, still)) CHECK(d.utilisation == 0);
}

TEST_CASE("without second-order equilibrium a case fails by sway, whatever its checks say") {
  Solved s(mast(20));
  REQUIRE(s.result().passes());
  s.iterated.second_order = SecondOrderFacts{true, 1.1};
  CHECK(s.result().passes());
  s.iterated.second_order = SecondOrderFacts{false, 1};
  const CaseResult r = s.result();
  CHECK_FALSE(r.passes());
  CHECK(r.worst->check == "sway");
  CHECK(r.worst->item == "frame");
}

TEST_CASE(
    "with large displacements numbers are those of the loads and checks of the design loads") {
  Frame f = mast(2);
  const Solved s(f);
  const CaseResult linear = s.result(), large = s.large_result(1);
  REQUIRE(large.large);
  CHECK(large.safety_factor == 1.5);
  CHECK_THAT(large.members[0].N, WithinRel(linear.members[0].N, 1e-3));
  CHECK_THAT(large.members[0].worst.stress.von_mises,
             WithinRel(linear.members[0].worst.stress.von_mises, 0.02));
  CHECK_THAT(*large.members[0].checks.yield.utilisation,
             WithinRel(*linear.members[0].checks.yield.utilisation, 0.02));
  CHECK(large.largest_node == 1);
  CHECK(large.passes());
}

TEST_CASE(
    "a frame that finds no equilibrium under four fifths of its design loads is used to 1.25") {
  const CaseResult r = Solved(mast(2)).large_result(0.8);
  REQUIRE(r.worst);
  CHECK(r.worst->check == "sway");
  CHECK_THAT(r.worst->utilisation, WithinRel(1.25, 1e-12));
  CHECK_FALSE(r.passes());
}

}  // namespace tubewright::summarise_case_test
