#include "cases/attachment_checks/plate_weld.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::plate_weld_test {

namespace {

constexpr double mm = 1e-3;
constexpr Source by_hand = rederived("weld group of two lines, by hand");
constexpr Source simplified = from_memory("EN 1993-1-8 4.5.3.3: f_u/(sqrt(3) beta_w 1.25)");

/// Plate 4 x 46, throats of 3: 40 mm count.
FootWeld weld() { return {46 * mm, 4 * mm, 3 * mm, 4 * mm, 360e6, 235e6}; }

FootLoads only(double FootLoads::*load, double value) {
  FootLoads f;
  f.*load = value;
  return f;
}

}  // namespace

TEST_CASE("two lines of weld carry each load alone as statics says", "[truth]") {
  truth("1 kN off the face on 2 x 40 mm, N/mm", by_hand,
        greatest_line_force(weld(), only(&FootLoads::N, 1000)) * mm, within_rel(12.5, 1e-9));
  truth("1 kN along, N/mm", by_hand,
        greatest_line_force(weld(), only(&FootLoads::V_along, 1000)) * mm, within_rel(12.5, 1e-9));
  truth("10 N m in its plane: 6 M/(2 l^2), N/mm", by_hand,
        greatest_line_force(weld(), only(&FootLoads::M_strong, 10)) * mm, within_rel(18.75, 1e-9));
  truth("1 N m the weak way: a couple 4 mm apart, N/mm", by_hand,
        greatest_line_force(weld(), only(&FootLoads::M_weak, 1)) * mm, within_rel(6.25, 1e-9));
}

TEST_CASE("loads across, along and aside add up as the root of their squares") {
  FootLoads f = only(&FootLoads::N, 1000);
  f.V_along = 1000;
  f.V_aside = 1000;
  CHECK_THAT(greatest_line_force(weld(), f) * mm, WithinRel(12.5 * std::sqrt(3.0), 1e-9));
}

TEST_CASE("a weld is at its limit where its force a length is a f_vw,d", "[truth]") {
  // 3 mm x 360/(sqrt(3) 0.8 1.25) = 623.538 N/mm, on 80 mm 49 883 N.
  truth("two lines of 40 mm, throat 3, S235: share at 49 883 N", simplified,
        *plate_weld_check(weld(), only(&FootLoads::N, 49883.0)).utilisation, within_rel(1.0, 1e-4));
}

TEST_CASE("a weld round a bush of 20 mm carries a pull and a moment", "[truth]") {
  FootWeld ring = weld();
  ring.length = 20 * mm;
  truth("1 kN on a ring of 20 mm, N/mm", by_hand,
        greatest_ring_force(ring, only(&FootLoads::N, 1000)) * mm,
        within_rel(1000 / (std::numbers::pi * 20), 1e-9));
  truth("10 N m on a ring of 20 mm: 4 M/(pi D^2), N/mm", by_hand,
        greatest_ring_force(ring, only(&FootLoads::M_strong, 10)) * mm,
        within_rel(4 * 10000 / (std::numbers::pi * 400), 1e-9));
  CHECK(ring_weld_check(ring, only(&FootLoads::N, 1000)).utilisation);
}

TEST_CASE("thin parts, thin throats and short welds make it a comparison") {
  CHECK(!plate_weld_check(weld(), only(&FootLoads::N, 1)).comparison);
  FootWeld thin = weld();
  thin.thinnest = 2 * mm;
  CHECK_THAT(plate_weld_check(thin, {}).reason, ContainsSubstring("parts under 4 mm"));
  FootWeld low = weld();
  low.throat = 2 * mm;
  CHECK_THAT(plate_weld_check(low, {}).reason, ContainsSubstring("a throat under 3 mm"));
  FootWeld brief = weld();
  brief.length = 30 * mm;
  CHECK_THAT(plate_weld_check(brief, {}).reason, ContainsSubstring("shorter than 30 mm"));
}

TEST_CASE("a weld that is nothing but its ends, or of unknown metal, has no number") {
  FootWeld none = weld();
  none.length = 6 * mm;
  CHECK(lacks_number(plate_weld_check(none, {})));
  FootWeld unknown = weld();
  unknown.fu = std::nan("");
  CHECK(lacks_number(plate_weld_check(unknown, {})));
}

TEST_CASE("a plate yields at its foot by the beam formulas", "[truth]") {
  // 4 x 40: 10 N m the weak way on 106.67 mm3 is 93.75 MPa.
  truth("plate 4 x 40 under 10 N m the weak way: share of S235", rederived("M/W, by hand"),
        *plate_yield_check(4 * mm, 40 * mm, 235e6, only(&FootLoads::M_weak, 10)).utilisation,
        within_rel(93.75 / 235, 1e-9));
  truth("plate 4 x 40 under 16 kN of shear: share of S235", rederived("sqrt(3) V/A, by hand"),
        *plate_yield_check(4 * mm, 40 * mm, 235e6, only(&FootLoads::V_along, 16000)).utilisation,
        within_rel(std::numbers::sqrt3 * 100 / 235, 1e-9));
  CHECK(lacks_number(plate_yield_check(4 * mm, 40 * mm, std::nan(""), {})));
}

TEST_CASE("the usual throat is 0.7 of the thinner part") {
  CHECK_THAT(usual_plate_throat(2 * mm), WithinRel(1.4e-3, 1e-12));
}

}  // namespace tubewright::plate_weld_test
