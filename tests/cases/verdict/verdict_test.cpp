// What a check comes to: small frames that must not pass unproven, counts by hand.
#include "cases/verdict/verdict.h"

#include <algorithm>

#include "cases/verdict/frame_studies.h"
#include "tests/cases/small_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::verdict_test {

using namespace tubewright::testing;

namespace {

/// A cantilever of 1 m with its root on a support: nothing but its weld and itself to check.
Frame arm() {
  Frame f = empty_frame();
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"tip", {0, 0, -10}, {}});
  return f;
}

Verdict verdict_on(const Frame& f) {
  const Result<FrameStudies> studies = verdict_check(f);
  if (const auto* diagnostics = studies.error()) FAIL(text_of(*diagnostics));
  return studies->verdict;
}

bool any_holds(const std::vector<std::string>& lines, const std::string& part) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("a check counts once, however many cases it is made in") {
  Frame f = arm();
  const Verdict one = verdict_on(f);
  add_case(f, "again").forces.push_back({"tip", {0, 0, -10}, {}});
  const Verdict two = verdict_on(f);
  CHECK(one.checks.all() == two.checks.all());
  CHECK(one.checks.made() == two.checks.made());
  CHECK(one.tube_ends.all() == two.tube_ends.all());
}

TEST_CASE("what has no number in one case is not proven, whatever the others say") {
  Analysis a = answer_of(analyse(arm()));
  CheckResult& yield = a.cases[0].members[0].checks.yield;
  REQUIRE(yield.utilisation);
  a.cases.push_back(a.cases[0]);
  yield = {std::nullopt, "nobody knows", "", true};
  const Verdict v = verdict_of(a, {}, {});
  CHECK(v.answer == Verdict::Answer::not_proven);
  CHECK(any_holds(v.not_proven, "arm: no yield check, nobody knows"));
}

TEST_CASE("a comparison counts: above one it fails, below it passes and is counted as such") {
  Analysis a = answer_of(analyse(arm()));
  MemberChecks& checks = a.cases[0].members[0].checks;
  checks.weld_at[0] = {0.5, "walls below 4 mm", "", true, true};
  checks.joint_at = {CheckResult{std::nullopt, "", "", false}, {std::nullopt, "", "", false}};
  checks.weld_at[1] = {std::nullopt, "a free end", "", false};
  const Verdict v = verdict_of(a, {}, {});
  CHECK(v.answer == Verdict::Answer::pass);
  CHECK(v.tube_ends.by_comparison == 1);
  CHECK(v.tube_ends.all() == 1);
}

TEST_CASE("a limit that is broken fails the frame, one that was not found leaves it unproven") {
  Frame f = arm();
  f.limits.mass = 0.1;
  CHECK(verdict_on(f).answer == Verdict::Answer::fail);
  CHECK(verdict_on(f).failures[0].check == "mass");
  f.limits.mass = 100;
  f.limits.torsional_stiffness = 100;  // there is no torsion test
  const Verdict v = verdict_on(f);
  CHECK(v.answer == Verdict::Answer::not_proven);
  CHECK(any_holds(v.not_proven, "torsional stiffness was not found"));
  f.limits.torsional_stiffness.reset();
  f.limits.frequency = 1e4;
  CHECK(verdict_on(f).answer == Verdict::Answer::fail);
}

TEST_CASE("a case that loads nothing proves nothing") {
  Frame f = arm();
  add_case(f, "forgotten");
  CHECK(any_holds(verdict_on(f).not_proven, "case forgotten: no part of the frame is loaded"));
  CHECK(verdict_on(f).answer == Verdict::Answer::not_proven);
}

TEST_CASE("a vehicle that cannot brake as hard as it is asked to is not proven") {
  // Of the box vehicle the rear wheels lift at g a/h; 3 g is far beyond.
  Frame f = box_vehicle();
  add_case(f, "stop", CaseKind::vehicle).brake = 3;
  const Verdict v = verdict_on(f);
  CHECK(v.answer != Verdict::Answer::pass);
  CHECK(any_holds(v.not_proven, "case stop: "));
  f.cases[0].brake = 0.3;
  CHECK_FALSE(any_holds(verdict_on(f).not_proven, "case stop: "));
}

TEST_CASE("input that can hardly be meant is not proven") {
  Frame f = arm();
  f.limits.yield_factor = 0.01;
  CHECK(verdict_on(f).answer == Verdict::Answer::not_proven);
  CHECK(any_holds(verdict_on(f).not_proven, "`limits.yield_factor` asks for 0.01"));
}

TEST_CASE("a vehicle whose centre of mass lies outside its wheels is not proven") {
  Frame f = box_vehicle();
  f.masses[0].at.x() = 2;  // in front of the front axle
  add_case(f, "still", CaseKind::vehicle);
  CHECK(any_holds(verdict_on(f).not_proven, "turns over while it stands"));
}

TEST_CASE("fatigue that nobody asked about lowers a pass, asked about it fails") {
  Analysis a = answer_of(analyse(arm()));
  for (CheckResult* c :
       {&a.cases[0].members[0].checks.weld_at[0], &a.cases[0].members[0].checks.weld_at[1]}) {
    c->comparison = false;
  }
  FatigueScreening fatigue;
  fatigue.members.resize(1);
  fatigue.members[0].result = {1.4, "", ""};
  fatigue.worst = 0;
  CHECK(any_holds(verdict_of(a, {}, fatigue).not_proven, "comes to 1.40"));
  fatigue.counts = true;
  CHECK(verdict_of(a, {}, fatigue).answer == Verdict::Answer::fail);
  fatigue.members[0].result = {std::nullopt, "no curve for it", "", true};
  fatigue.worst = -1;
  CHECK(any_holds(verdict_of(a, {}, fatigue).not_proven, "arm: no fatigue check, no curve for it"));
}

}  // namespace tubewright::verdict_test
