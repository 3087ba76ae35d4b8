#include "cases/studies/floor_study.h"

#include <algorithm>
#include <cmath>

#include "cases/analysis/frame_edits.h"
#include "cases/model/mass_summary.h"
#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::floor_study_test {

using namespace tubewright::testing;

namespace {

FloorStudy studied(const Frame& frame) { return answer_of(floor_study(frame)); }

double frame_mass(const Frame& frame) {
  const MassSummary m = mass_summary(frame, build_model(frame));
  return m.tubes + m.panels;
}

/// A load that a panel of the floor feels: the box stands on three corners, its fourth is pushed
/// down.
Frame loaded_box() {
  Frame f = clad_box();
  for (const char* node : {"l1_r", "l4_l", "l4_r"}) {
    f.supports.push_back({node, {true, true, true}, {}, {}});
  }
  add_case(f, "corner").forces.push_back({"l1_l", {0, 0, -300}, {}});
  return f;
}

}  // namespace

TEST_CASE("tubes put in the place of the sheet weigh what the sheet weighs") {
  for (const Frame& f : {clad_box(), clad_ladder()}) {
    const double with_sheet = frame_mass(f);
    CHECK_THAT(frame_mass(with_diagonals(f, false).frame), WithinRel(with_sheet, 1e-9));
    CHECK_THAT(frame_mass(with_diagonals(f, true).frame), WithinRel(with_sheet, 1e-9));
    CHECK_THAT(frame_mass(with_thicker_tubes(f).frame), WithinRel(with_sheet, 1e-6));
    CHECK_THAT(frame_mass(without_panels(f)), WithinRel(with_sheet - panels_mass(f), 1e-9));
  }
  // Where walls cannot grow so far the tubes grow.
  Frame heavy = clad_ladder();
  heavy.sheets.front().thickness = 0.008;
  CHECK_THAT(frame_mass(with_thicker_tubes(heavy).frame), WithinRel(frame_mass(heavy), 1e-3));
}

TEST_CASE("the study says by how much a sheet that closes a box stiffens it") {
  const FloorStudy s = studied(loaded_box());
  // One sheet does a little better than diagonals of the same mass with the usual rivets.
  CHECK(*s.usual.stiffness > 10 * *s.without.stiffness);
  CHECK(*s.usual.stiffness > *s.diagonal.stiffness);
  CHECK(*s.low.stiffness < *s.diagonal.stiffness);
  CHECK(s.verdict.answer == FloorAnswer::depends);
  CHECK_THAT(s.verdict.sentence, ContainsSubstring("It depends on the rivets"));
  CHECK(s.guessed_rivets);
  CHECK(*s.low.stiffness < *s.usual.stiffness);
  CHECK(*s.usual.stiffness < *s.high.stiffness);
  CHECK(*s.without.stiffness < *s.low.stiffness);
  CHECK_THAT(*s.usual.gain_per_kg,
             WithinRel((*s.usual.stiffness - *s.without.stiffness) / s.panels_mass, 1e-9));
  CHECK(s.usual.worst->load_case == "corner");
  CHECK(*s.usual.rivet_utilisation > 0);
  CHECK_FALSE(s.without.rivet_utilisation);
  CHECK(s.verdict.reasons.size() >= 4);
}

TEST_CASE("a sheet a bay on few rivets does worse than diagonals of the same mass") {
  Frame f = loaded_box();
  f.sheets.front().rivet->pitch = 0.080;
  for (PanelEntry& p : f.panels) {
    f.sheets.push_back(f.sheets.front());
    f.sheets.back().name = p.sheet = p.name;
  }
  const FloorStudy s = studied(f);
  CHECK(*s.usual.stiffness > 5 * *s.without.stiffness);
  CHECK(*s.high.stiffness < *s.diagonal.stiffness);
  CHECK(s.verdict.answer == FloorAnswer::does_not_pay);
  CHECK_THAT(s.verdict.sentence, ContainsSubstring("A floor that has to be there anyway"));
}

TEST_CASE("a sheet on a flat ladder does not pay") {
  const FloorStudy s = studied(clad_ladder());
  CHECK(s.verdict.answer == FloorAnswer::does_not_pay);
  CHECK_THAT(s.verdict.sentence, ContainsSubstring("next to nothing"));
  CHECK(*s.thicker.stiffness > *s.usual.stiffness);
  CHECK_FALSE(s.usual.worst);  // no load cases
}

TEST_CASE(
    "with a perfect edge a bay of one and a half to one is a better use of mass than a diagonal") {
  // Derived: a perfect aluminium sheet equals a steel diagonal of 1.710 times its mass at 1.5 to 1,
  // so with the same mass the sheet is the stiffer.
  Frame f = clad_box();
  f.sheets.front().rivet.reset();
  const FloorStudy s = studied(f);
  CHECK(*s.usual.stiffness > *s.diagonal.stiffness);
  CHECK(s.verdict.answer == FloorAnswer::pays);
  CHECK_FALSE(s.guessed_rivets);
  CHECK(*s.low.stiffness == *s.high.stiffness);
}

TEST_CASE("overloaded rivets turn a yes into a warning") {
  Frame f = loaded_box();
  f.sheets.front().rivet->shear_strength = 1;
  const FloorStudy s = studied(f);
  CHECK(*s.usual.rivet_utilisation > 1);
  CHECK(s.verdict.answer != FloorAnswer::pays);
  CHECK_THAT(s.verdict.sentence, ContainsSubstring("overloaded"));
}

TEST_CASE("in the sweep thicker sheets and closer rivets are never softer") {
  const FloorStudy s = studied(clad_box());
  REQUIRE(s.sweep.size() == 5 * 4);  // the sheet's own 1.2 mm is among the usual, its 40 mm is not
  for (const SheetTrial& a : s.sweep) {
    for (const SheetTrial& b : s.sweep) {
      if (a.thickness > b.thickness || *a.pitch < *b.pitch) continue;
      CHECK(*b.stiffness >= *a.stiffness * (1 - 1e-12));
    }
  }
}

TEST_CASE("the first frequency of every option is the one that its modes have") {
  const Frame f = clad_box();
  const FloorStudy s = studied(f);
  CHECK(*s.usual.frequency == lowest_elastic(answer_of(frame_modes(f, 1)))->frequency);
  CHECK(*s.without.frequency ==
        lowest_elastic(answer_of(frame_modes(without_panels(f), 1)))->frequency);
}

TEST_CASE("a frame that only its sheet holds together needs it") {
  FloorStudy s;
  s.panels_mass = 1;
  s.usual.stiffness = 100;
  s.low.stiffness = s.high.stiffness = 100;
  const FloorVerdict v = floor_verdict(s);
  CHECK(v.answer == FloorAnswer::pays);
  CHECK_THAT(v.sentence, ContainsSubstring("needs the sheet"));
}

TEST_CASE("a sheet that is idle in torsion but without which the frame fails is no plain no") {
  // A ladder pushed sideways folds into a parallelogram unless its sheet keeps it square.
  Frame f = clad_ladder();
  f.supports.push_back({"l3_l", {true, true, true, true, true, true}, {}, {}});
  f.supports.push_back({"l3_r", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "push").forces.push_back({"l1_l", {0, 2000, 0}, {}});
  const FloorStudy s = studied(f);
  REQUIRE(s.without.worst->utilisation > 1);
  REQUIRE(s.usual.worst->utilisation < 1);
  CHECK(s.verdict.answer == FloorAnswer::depends);
  CHECK_THAT(s.verdict.sentence, ContainsSubstring("without it the frame does not hold"));
}

TEST_CASE("the verdict follows from stiffness per kilogram and how sure it is") {
  FloorStudy s;
  s.panels_mass = 2;
  s.guessed_rivets = true;
  s.without.stiffness = 1000;
  const auto sheet = [&](double low, double usual, double high, double diagonal) {
    s.low.stiffness = 1000 + 2 * low;
    s.low.gain_per_kg = low;
    s.usual.stiffness = 1000 + 2 * usual;
    s.usual.gain_per_kg = usual;
    s.high.stiffness = 1000 + 2 * high;
    s.high.gain_per_kg = high;
    s.diagonal.stiffness = 1000 + 2 * diagonal;
    s.diagonal.gain_per_kg = diagonal;
    return floor_verdict(s).answer;
  };
  CHECK(sheet(200, 300, 400, 150) == FloorAnswer::pays);
  CHECK(sheet(200, 300, 400, 250) == FloorAnswer::depends);
  CHECK(sheet(200, 300, 400, 350) == FloorAnswer::depends);
  CHECK(sheet(200, 300, 310, 320) == FloorAnswer::depends);  // within a tenth: a draw
  CHECK(sheet(200, 300, 400, 900) == FloorAnswer::does_not_pay);
  CHECK(sheet(1, 2, 3, 0) == FloorAnswer::does_not_pay);  // hardly any gain
}

}  // namespace tubewright::floor_study_test
