// Fatigue screening of a frame. S-N numbers: EN 1993-1-9 7.1 (MEMORY; cycles DERIVED).
#include "cases/verdict/fatigue_screening.h"

#include <cmath>

#include "cases/analysis/analysis.h"
#include "tests/cases/small_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::fatigue_screening_test {

using namespace tubewright::testing;

namespace {

/// A cantilever whose root sees 100 MPa in case `load`, and a life of `cycles` of it.
Frame tired_arm(double cycles) {
  Frame f = empty_frame();
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  const double W = build_model(f).model.sections[0].Wy;
  add_case(f, "load").forces.push_back({"tip", {0, 0, -100e6 * W}, {}});
  add_case(f, "back").forces.push_back({"tip", {0, 0, 100e6 * W}, {}});
  Life life;
  life.damage_tolerant = true;
  life.high_consequence = false;  // gamma_Mf = 1.0
  life.spectrum.push_back({"load", "", 0, cycles, {}});
  f.life = life;
  return f;
}

FatigueScreening screened(const Frame& f) {
  const auto outcome = fatigue_screening(answer_of(analyse(f)));
  if (const auto* diagnostics = outcome.error()) FAIL(text_of(*diagnostics));
  const auto& found = *outcome;
  REQUIRE(found);
  return *found;
}

}  // namespace

TEST_CASE("a range of 100 MPa in category 36 lasts 93 312 cycles") {
  const FatigueScreening s = screened(tired_arm(93312));
  CHECK(s.counts);
  CHECK(s.gamma_Mf == 1);
  const MemberFatigue& m = s.members[0];
  CHECK(m.end == 0);
  CHECK_THAT(m.ranges[0], WithinRel(100e6, 1e-9));
  CHECK_THAT(m.cycles, WithinRel(93312, 1e-6));
  CHECK_THAT(m.damage, WithinRel(1.0, 1e-6));
  CHECK_THAT(*m.result.utilisation, WithinRel(1.0, 1e-6));
}

TEST_CASE("eight times the cycles are twice the stress, on the slope of three") {
  const FatigueScreening s = screened(tired_arm(8 * 93312));
  CHECK_THAT(*s.members[0].result.utilisation, WithinRel(2.0, 1e-6));
  CHECK_FALSE(s.passes());
}

TEST_CASE("from one case to its opposite the range is their sum") {
  Frame f = tired_arm(1000);
  f.life->spectrum.front().from = "back";
  CHECK_THAT(screened(f).members[0].ranges[0], WithinRel(200e6, 1e-9));
}

TEST_CASE("blocks add up by Miner's rule at one and the same point") {
  Frame f = tired_arm(93312 / 4.0);
  f.life->spectrum.push_back({"back", "", 0, 93312 / 2.0, {}});
  CHECK_THAT(screened(f).members[0].damage, WithinRel(0.75, 1e-6));

  // Bending the other way strains other walls: the two do not add up in full.
  add_case(f, "aside").forces.push_back({"tip", {0, f.cases[1].forces[0].value.z(), 0}, {}});
  f.life->spectrum[1] = {"aside", "", 0, 93312 / 2.0, {}};
  const double D = screened(f).members[0].damage;
  CHECK(D >= 0.5 - 1e-9);
  CHECK(D <= 0.75 + 1e-6);  // together only in the corner
}

TEST_CASE("a safe life with high consequence divides the category by 1.35") {
  Frame f = tired_arm(93312);
  f.life->damage_tolerant = false;
  f.life->high_consequence = true;
  CHECK_THAT(*screened(f).members[0].result.utilisation, WithinRel(1.35, 1e-6));
}

TEST_CASE("without a life and without wheels there is nothing to screen") {
  Frame f = tired_arm(1);
  f.life.reset();
  const auto outcome = fatigue_screening(answer_of(analyse(f)));
  CHECK_FALSE(*outcome);
}

TEST_CASE("a spectrum that names no case of the frame is a fault with a hint") {
  Frame f = tired_arm(1);
  f.life->spectrum.front().load_case = "laod";
  const auto outcome = fatigue_screening(answer_of(analyse(f)));
  REQUIRE(!outcome);
  CHECK_THAT(text_of(*outcome.error()), ContainsSubstring("did you mean `load`"));
}

}  // namespace tubewright::fatigue_screening_test
