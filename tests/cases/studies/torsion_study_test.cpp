// The torsion study as a whole: its parts agree with each other and with frames solved apart.
#include "cases/studies/torsion_study.h"

#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::torsion_study_test {

using namespace tubewright::testing;

namespace {

TorsionStudy studied(const Frame& f, TorsionHold hold) { return answer_of(torsion_study(f, hold)); }

}  // namespace

TEST_CASE("held one way the study tells the other way's stiffness, and the other way round") {
  for (const Frame& f : {open_box(), clad_box(), clad_ladder()}) {
    const TorsionStudy free = studied(f, TorsionHold::free);
    const TorsionStudy clamped = studied(f, TorsionHold::clamped);
    CHECK_THAT(free.other_hold.value(), WithinRel(clamped.test.stiffness, 1e-9));
    CHECK_THAT(clamped.other_hold.value(), WithinRel(free.test.stiffness, 1e-9));
    // Restraints take energy from no frame: held more, it is never softer (Rayleigh).
    CHECK(clamped.test.stiffness >= free.test.stiffness * (1 - 1e-9));
  }
}

TEST_CASE("without its panels a clad box is the open box, held the same way") {
  for (const TorsionHold hold : {TorsionHold::free, TorsionHold::clamped}) {
    const TorsionStudy clad = studied(clad_box(), hold), open = studied(open_box(), hold);
    CHECK_THAT(clad.without_panels.value(), WithinRel(open.test.stiffness, 1e-9));
    CHECK_FALSE(open.without_panels);
    CHECK(clad.test.stiffness > open.test.stiffness);
    CHECK(clad.mass.panels > 0);
    CHECK(open.mass.panels == 0);
    CHECK_THAT(clad.mass.tubes, WithinRel(open.mass.tubes, 1e-12));
  }
}

TEST_CASE("a hinged box that its sheets alone keep in shape has no stiffness without them") {
  // Maxwell: 16 nodes need 42 bars, the pin-jointed box has 39 and three panels.
  Frame f = clad_box();
  for (Member& m : f.members) m.kind = MemberKind::link;
  REQUIRE(f.members.size() + f.panels.size() == 3 * f.nodes.size() - 6);
  const TorsionStudy s = studied(f, TorsionHold::free);
  CHECK(s.test.stiffness > 0);
  CHECK_FALSE(s.without_panels);
}

TEST_CASE("a box that folds up has no torsion study but its fault") {
  Frame f = open_box();
  for (Member& m : f.members) m.kind = MemberKind::link;
  const auto outcome = torsion_study(f, TorsionHold::clamped);
  REQUIRE(!outcome);
  CHECK_FALSE(outcome.error()->empty());
}

TEST_CASE("stiffness is held against the limit of the file, which it may just reach") {
  Frame f = open_box();
  const TorsionStudy s = studied(f, TorsionHold::free);
  CHECK(torsion_passes(f, s));
  f.limits.torsional_stiffness = s.test.stiffness;
  CHECK(torsion_passes(f, s));
  f.limits.torsional_stiffness = 1.0001 * s.test.stiffness;
  CHECK_FALSE(torsion_passes(f, s));
}

TEST_CASE("what stiffness is for goes by the free frame, and needs a vehicle") {
  const TorsionStudy bare = studied(open_box(), TorsionHold::free);
  CHECK_FALSE(bare.support.support);
  CHECK_FALSE(bare.support.reason.empty());
  Frame f = box_vehicle();
  f.torsion = TorsionTest{{"fl0", "fr0"}, {"rl0", "rr0"}, 100, {}};
  const TorsionStudy free = studied(f, TorsionHold::free);
  const TorsionStudy clamped = studied(f, TorsionHold::clamped);
  REQUIRE(free.support.support);
  REQUIRE(clamped.support.support);
  CHECK_THAT(clamped.support.support->lifting_bump,
             WithinRel(free.support.support->lifting_bump, 1e-9));
  CHECK_THAT(free.support.support->lifting_bump,
             WithinRel(roll_support(f, free.test.stiffness).support->lifting_bump, 1e-12));
}

}  // namespace tubewright::torsion_study_test
