#include "cases/changes/loss_study.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "cases/changes/tube_edits.h"
#include "cases/studies/torsion.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::loss_study_tests {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Loss& loss_named(const LossStudy& study, LossKind kind, const std::string& name) {
  const auto at = std::find_if(study.losses.begin(), study.losses.end(),
                               [&](const Loss& l) { return l.kind == kind && l.name == name; });
  if (at == study.losses.end()) FAIL("no loss of " + name);
  return *at;
}

/// What check finds in a frame whose cases have a safety factor of 1.
std::map<std::string, double> fresh_utilisations(Frame f) {
  for (Case& c : f.cases) c.yield_factor = 1;
  std::map<std::string, double> found;
  for (const CaseResult& c : answer_of(analyse(f)).cases) found[c.name] = c.worst->utilisation;
  return found;
}

}  // namespace

TEST_CASE("the box of 20 welded tubes on four pins is indeterminate to the degree 60", "[truth]") {
  const LossStudy study = answer_of(loss_study(ring_box()));
  CHECK(study.held_by_supports);
  truth("box of two bays: degree of static indeterminacy", rederived("6 x 20 - (6 x 12 - 3 x 4)"),
        study.redundancy_sum, within_abs(60, 1e-8));
  CHECK(study.redundancy.size() == 20);
  CHECK_THAT(std::accumulate(study.redundancy.begin(), study.redundancy.end(), 0.0),
             WithinAbs(60, 1e-8));
}

TEST_CASE("every loss is answered as by a check of the frame without it, at a factor of 1") {
  const Frame f = ring_box();
  const LossStudy study = answer_of(loss_study(f));
  CHECK(study.losses.size() == 20 + 40);
  for (const char* tube : {"lb0-lb1", "rb2-rt2", "lb1-rb1"}) {
    const auto fresh = fresh_utilisations(without_members(f, {member_named(f, tube)}));
    const Loss& loss = loss_named(study, LossKind::tube, tube);
    CHECK_FALSE(loss.answer.mechanism);
    for (const ChangedCase& c : loss.answer.cases) {
      CHECK_THAT(c.worst->utilisation, WithinRel(fresh.at(c.name), 1e-9));
    }
  }
  const auto fresh = fresh_utilisations(with_broken_end(f, member_named(f, "rb2-rt2"), 1));
  for (const ChangedCase& c : loss_named(study, LossKind::end, "rb2-rt2 at rt2").answer.cases) {
    CHECK_THAT(c.worst->utilisation, WithinRel(fresh.at(c.name), 1e-9));
  }
}

TEST_CASE("a frame that equilibrium alone holds can lose nothing") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  add_node(f, "C", 0.5, 0, 0.5);
  for (const auto& [a, b] : {std::pair{"A", "C"}, {"B", "C"}, {"A", "B"}}) {
    add_member(f, std::string(a) + b, a, b).kind = MemberKind::link;
  }
  f.supports.push_back({"A", {true, true, true}, {}, {}});
  f.supports.push_back({"B", {false, true, true}, {}, {}});
  f.supports.push_back({"C", {false, true, false}, {}, {}});
  add_case(f, "load").forces.push_back({"C", {0, 0, -100}, {}});
  const LossStudy study = answer_of(loss_study(f));
  CHECK(study.losses.size() == 3);  // links have no welds
  for (const Loss& loss : study.losses) {
    CHECK(loss.answer.mechanism);
    CHECK(loss.must_hold);
    CHECK(std::isinf(loss.worst));
    CHECK_FALSE(loss.answer.cases[0].solved);
    CHECK_FALSE(loss.answer.cases[0].why_not.empty());
  }
  CHECK_THAT(study.redundancy_sum, WithinAbs(0, 1e-9));
  CHECK(study.must_hold_tubes == 3);
  CHECK_FALSE(losses_pass(study));
}

TEST_CASE("a cantilever's only weld is the first to be inspected; nothing is joined at its tip") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  add_member(f, "beam", "A", "B");
  f.supports.push_back({"A", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"B", {0, 0, -10}, {}});
  const LossStudy study = answer_of(loss_study(f));
  REQUIRE(study.losses.size() == 2);
  CHECK(study.losses[1].name == "beam at A");
  CHECK(study.losses[1].answer.mechanism);
  CHECK(study.inspect == std::vector<int>{1});
}

TEST_CASE("a vehicle's losses leave the torsional stiffness of a frame drawn without them") {
  Frame f = box_vehicle();
  f.torsion = TorsionTest{{"fl0", "fr0"}, {"rl0", "rr0"}, 100, {}};
  const LossStudy study = answer_of(loss_study(f));
  CHECK_FALSE(study.held_by_supports);
  // 17 welded tubes, 8 nodes, free
  CHECK_THAT(study.redundancy_sum, WithinAbs(6 * 17 - 6 * 8 + 6, 1e-7));
  for (const char* tube : {"fl0_rr0", "fl0_fr1", "rl1_rr1"}) {
    const auto fresh = torsional_stiffness(without_members(f, {member_named(f, tube)}));
    const Loss& loss = loss_named(study, LossKind::tube, tube);
    REQUIRE(loss.answer.stiffness);
    CHECK_THAT(*loss.answer.stiffness, WithinRel(*fresh, 1e-9));
  }
  CHECK(study.fatigue_screened);
}

TEST_CASE("of a sheet each panel is lost, and each of two fastenings") {
  Frame f = ring_box();
  Sheet& skin = add_sheet(f, "skin");
  skin.offset = 0;
  skin.rivet = rivets(0.004, 0.04, 5e6);
  skin.bond = BondJoint{0.02, 0.0003, 1e9, {}};
  add_panel(f, "floor_0", "skin", {"lb0", "rb0", "rb1", "lb1"});
  add_panel(f, "roof_0", "skin", {"lt0", "rt0", "rt1", "lt1"});
  const LossStudy study = answer_of(loss_study(f));
  const double whole = study.whole.worst()->utilisation;
  CHECK(loss_named(study, LossKind::panel, "floor_0").worst > 0);
  CHECK(loss_named(study, LossKind::rivets, "skin").worst > 0);
  CHECK(loss_named(study, LossKind::bond, "skin").worst > 0);
  CHECK(whole > 0);
  // 60 and one flow a panel
  CHECK_THAT(study.redundancy_sum, WithinAbs(62, 1e-7));
}

TEST_CASE("a frame that nothing acts on is told so") {
  Frame f = ring_box();
  f.cases.clear();
  const auto outcome = loss_study(f);
  REQUIRE_FALSE(outcome);
  CHECK(text_of(*outcome.error()).find("nothing says what a loss does") != std::string::npos);
}

}  // namespace tubewright::loss_study_tests
