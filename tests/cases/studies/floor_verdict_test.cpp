// The verdict on a floor from numbers set by hand: what decides it, and the sentences it is told
// in. The limits (2 % gain, 10 % as good, 1 % worth telling) are judgements of the project.
#include <algorithm>

#include "cases/studies/floor_study.h"
#include "solver/model/angle.h"
#include "tests/catch.h"

namespace tubewright::floor_verdict_test {

namespace {

/// N m/deg as the study holds it.
double per_deg(double value) { return value / degree; }

/// 2 kg of sheet; stiffness follows from the gains, all in N m/deg and N m/deg/kg.
FloorStudy numbers(double low, double usual, double high, double diagonal, double thicker) {
  FloorStudy s;
  s.panels_mass = 2;
  s.guessed_rivets = true;
  s.without.stiffness = per_deg(1000);
  const auto set = [&](FloorOption& o, double gain) {
    o.gain_per_kg = per_deg(gain);
    o.stiffness = per_deg(1000 + 2 * gain);
  };
  set(s.low, low);
  set(s.usual, usual);
  set(s.high, high);
  set(s.diagonal, diagonal);
  set(s.thicker, thicker);
  return s;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + '\n';
  return text;
}

}  // namespace

TEST_CASE("a sheet that beats tubes even with soft rivets pays, and says by how much") {
  const FloorVerdict v = floor_verdict(numbers(300, 400, 500, 250, 100));
  CHECK(v.answer == FloorAnswer::pays);
  CHECK(v.sentence ==
        "Yes: it adds 400 N m/deg for each kilogram, and even with soft rivets more than tube "
        "diagonals of the same mass would (250 N m/deg for each kilogram).");
  FloorStudy known = numbers(400, 400, 400, 100, 250.4);
  known.guessed_rivets = false;
  CHECK(
      floor_verdict(known).sentence ==
      "Yes: it adds 400 N m/deg for each kilogram, more than heavier floor tubes of the same mass "
      "would (250 N m/deg for each kilogram).");
}

TEST_CASE("the better of diagonals and heavier tubes is what a sheet has to beat") {
  CHECK(floor_verdict(numbers(300, 400, 500, 10, 301)).answer == FloorAnswer::depends);
  CHECK(floor_verdict(numbers(300, 400, 500, 301, 10)).answer == FloorAnswer::depends);
  CHECK(floor_verdict(numbers(300, 400, 500, 10, 299)).answer == FloorAnswer::pays);
  CHECK_THAT(floor_verdict(numbers(300, 400, 500, 10, 450)).sentence,
             ContainsSubstring("better than heavier floor tubes"));
}

TEST_CASE("a sheet within a tenth of tubes is a draw, one below it does not pay") {
  const FloorVerdict draw = floor_verdict(numbers(800, 910, 990, 1000, 0));
  CHECK(draw.answer == FloorAnswer::depends);
  CHECK_THAT(draw.sentence, ContainsSubstring("a draw: tube diagonals of the same mass"));
  const FloorVerdict no = floor_verdict(numbers(800, 890, 990, 1000, 0));
  CHECK(no.answer == FloorAnswer::does_not_pay);
  CHECK(no.sentence ==
        "No, not for stiffness alone: tube diagonals of the same mass add 1000 N m/deg for each "
        "kilogram, the sheet 890 N m/deg. A floor that has to be there anyway still helps.");
}

TEST_CASE("below a gain of two hundredths a sheet is idle, whatever tubes would do") {
  // 1000 + 2 x gain against 1020.
  CHECK_THAT(floor_verdict(numbers(9.9, 9.9, 9.9, 0, 0)).sentence,
             ContainsSubstring("does next to nothing"));
  CHECK(floor_verdict(numbers(9.9, 9.9, 9.9, 0, 0)).answer == FloorAnswer::does_not_pay);
  CHECK(floor_verdict(numbers(10.1, 10.1, 10.1, 0, 0)).answer == FloorAnswer::pays);
}

TEST_CASE("overloaded rivets take back a yes, and a frame that fails without its sheet a no") {
  FloorStudy s = numbers(300, 400, 500, 250, 100);
  s.usual.rivet_utilisation = 1.0;
  CHECK(floor_verdict(s).answer == FloorAnswer::pays);  // at the limit is within it
  s.usual.rivet_utilisation = 1.01;
  CHECK(floor_verdict(s).answer == FloorAnswer::depends);
  CHECK_THAT(floor_verdict(s).sentence, ContainsSubstring("rivets are overloaded"));
  FloorStudy no = numbers(100, 100, 100, 900, 0);
  no.without.worst = WorstOfAll{"bump", "yield", "sill", 1.3};
  no.usual.worst = WorstOfAll{"bump", "yield", "post", 0.9};
  const FloorVerdict v = floor_verdict(no);
  CHECK(v.answer == FloorAnswer::depends);
  CHECK_THAT(v.sentence, ContainsSubstring("sill is at 1.30 of the limit in case bump."));
  no.usual.worst->utilisation = 1.1;  // it does not hold with the sheet either
  CHECK(floor_verdict(no).answer == FloorAnswer::does_not_pay);
  FloorStudy loose = numbers(300, 400, 500, 250, 100);
  loose.without.stiffness.reset();
  CHECK(floor_verdict(loose).answer == FloorAnswer::pays);
  loose.usual.rivet_utilisation = 2;
  CHECK(floor_verdict(loose).answer == FloorAnswer::depends);
}

TEST_CASE(
    "the reasons tell stiffness with and without, the rivets' doubt and what tubes would do") {
  FloorStudy s = numbers(300, 400, 500, 250, 100);
  s.usual.rivet_utilisation = 0.456;
  s.without.worst = WorstOfAll{"bump", "yield", "sill", 0.8};
  s.usual.worst = WorstOfAll{"bump", "yield", "post", 0.7};
  const std::string reasons = joined(floor_verdict(s).reasons);
  CHECK_THAT(reasons, ContainsSubstring("torsional stiffness 1000 N m/deg without the sheet, 1800 "
                                        "N m/deg with it (1.80 times), for 2.00 kg"));
  CHECK_THAT(reasons, ContainsSubstring("1600 N m/deg if soft, 2000 N m/deg if stiff"));
  CHECK_THAT(reasons,
             ContainsSubstring("diagonals gives 1500 N m/deg, in heavier floor tubes 1200"));
  CHECK_THAT(reasons, ContainsSubstring("loaded to 0.46 of what"));
  CHECK_THAT(reasons, ContainsSubstring("0.80 of the limit without the sheet (sill)"));
  s.guessed_rivets = false;
  CHECK_THAT(joined(floor_verdict(s).reasons), !ContainsSubstring("if soft"));
  s.without.stiffness = per_deg(60);
  CHECK_THAT(joined(floor_verdict(s).reasons), ContainsSubstring("60.0 N m/deg without"));
}

TEST_CASE("changes are told where they change stiffness by a hundredth or more") {
  FloorStudy s = numbers(300, 400, 500, 250, 100);  // 1800 N m/deg
  CHECK_THAT(joined(floor_verdict(s).changes), ContainsSubstring("changes it by a hundredth"));
  s.half_pitch = SheetTrial{0.0012, 0.020, 2, per_deg(1810)};
  CHECK_THAT(joined(floor_verdict(s).changes), ContainsSubstring("changes it by a hundredth"));
  s.half_pitch->stiffness = per_deg(1900);
  s.epoxied = SheetTrial{0.0012, 0.040, 2.004, per_deg(2200)};
  s.thicker_sheet = SheetTrial{0.0018, 0.040, 3, per_deg(2000)};
  CHECK(floor_verdict(s).changes ==
        std::vector<std::string>{"rivets every 20 mm: 1900 N m/deg",
                                 "a structural epoxy bond as well, 20 mm wide: 2200 N m/deg",
                                 "sheet of 1.80 mm: 2000 N m/deg, 1.00 kg more"});
  s.epoxied->stiffness.reset();
  CHECK(floor_verdict(s).changes.size() == 2);
}

}  // namespace tubewright::floor_verdict_test
