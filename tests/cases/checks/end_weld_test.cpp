// Throats, thin walls and weld metal: EN 1993-1-8 4.5.2, 7.3.1 and EN 1993-1-3 8.5.2, from memory.
#include "cases/checks/end_weld.h"

#include <cmath>

#include "cases/checks/welded_ends.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::end_weld_test {

namespace {

constexpr Source rule_7_3_1 = seen_in("EN 1993-1-8 7.3.1(4)");
constexpr Source thin = from_memory("EN 1993-1-3 8.5.2, by hand");
constexpr Source directional = from_memory("EN 1993-1-8 4.5.3.2, by hand");
constexpr Source mixed = from_memory("EN 1993-1-8:2024, 0.25 f_u + 0.75 f_u,filler");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3;

Profile square(double side, double wall) {
  return {ProfileKind::hollow_rectangle, side * mm, side * mm, wall * mm};
}

/// On a tube of the same steel.
FilletWeld weld(double fy, double fu, double wall) {
  FilletWeld w;
  w.fu = fu * MPa;
  w.beta_w = correlation_factor(fy * MPa);
  w.least_throat = wall * mm * full_strength_throat(fy * MPa, fu * MPa, w.beta_w);
  return w;
}

}  // namespace

TEST_CASE("a throat below that of a full-strength weld is not proven on a tube", "[truth]") {
  // 0.92 t of S235, 0.96 t of S275, 1.10 t of S355: EN 1993-1-8 7.3.1(4) (MEMORY).
  struct Row {
    double fy, fu, walls;
  };
  const SectionForces pull{5 * kN, 0, 0, 0, 0, 0};
  for (const Row& row : {Row{235, 360, 0.92}, {275, 430, 0.96}, {355, 510, 1.10}}) {
    INFO(row.fy);
    FilletWeld w = weld(row.fy, row.fu, 5);
    truth(named("S", row.fy, ": least throat of a full-strength weld, walls"), rule_7_3_1,
          w.least_throat / (5 * mm), within_abs(row.walls, 0.01));
    w.throat = row.walls * 5 * mm;
    CHECK(end_weld_check(square(60, 5), w, pull).utilisation);
    w.throat = (row.walls - 0.02) * 5 * mm;
    const CheckResult r = end_weld_check(square(60, 5), w, pull);
    CHECK(lacks_number(r));
    CHECK_THAT(r.reason, ContainsSubstring("7.3.1(4)"));
    w.least_throat = 0;  // on a plate its forces are enough
    CHECK(end_weld_check(square(60, 5), w, pull).utilisation);
  }
}

TEST_CASE("a small throat that fails by its forces fails") {
  FilletWeld w = weld(235, 360, 4);
  w.throat = 1 * mm;
  const CheckResult fails = end_weld_check(square(40, 4), w, {100 * kN, 0, 0, 0, 0, 0});
  REQUIRE(fails.utilisation);
  CHECK(*fails.utilisation > 1);
  CHECK(lacks_number(end_weld_check(square(40, 4), w, {1 * kN, 0, 0, 0, 0, 0})));
  // On a plate too: throats from 3 mm, 4.5.2(2).
  w.least_throat = 0;
  const CheckResult plate = end_weld_check(square(40, 4), w, {1 * kN, 0, 0, 0, 0, 0});
  CHECK(lacks_number(plate));
  CHECK_THAT(plate.reason, ContainsSubstring("4.5.2(2)"));
}

TEST_CASE("of the two rules for a thin wall the greater number counts, as a comparison",
          "[truth]") {
  // 30 kN on 4 x 40 mm of 3 mm, S235: 30000/(160 * 0.7 * 3 * 360/1.25) = 0.310 by EN 1993-1-3
  // 8.5.2; EN 1993-1-8: sqrt(2) 30000/480/360 = 0.2455.
  FilletWeld w = weld(235, 360, 3);
  const CheckResult r = end_weld_check(square(40, 3), w, {30 * kN, 0, 0, 0, 0, 0});
  truth("40 x 40 x 3, 30 kN: utilisation by the rule for thin parts", thin, *r.utilisation,
        within_rel(30000 / (160 * 0.7 * 3 * 360 / 1.25), 1e-6));
  CHECK(r.comparison);
  CHECK_THAT(r.reason, ContainsSubstring("no proof"));
  CHECK(r.clause == "EN 1993-1-3 8.5.2");

  const CheckResult thick = end_weld_check(square(40, 4), weld(235, 360, 4), {30 * kN});
  truth("40 x 40 x 4, 30 kN: utilisation", directional, *thick.utilisation,
        within_rel(std::sqrt(2.0) * 30000 / 640 / 360, 1e-6));
  CHECK_FALSE(thick.comparison);
  CHECK(thick.reason.empty());
}

TEST_CASE("along a thin weld 0.45 t f_u counts, and a throat below the wall no more than itself",
          "[truth]") {
  truth("100 N/mm along 2 mm of S235: utilisation", thin,
        thin_weld_utilisation(0, 100e3, 2 * mm, 2 * mm, 360 * MPa),
        within_rel(100 / (0.45 * 2 * 360 / 1.25), 1e-9));
  truth("30 across and 40 N/mm along 2 mm of S235: utilisation", thin,
        thin_weld_utilisation(30e3, 40e3, 2 * mm, 5 * mm, 360 * MPa),
        within_rel(std::hypot(30 / 403.2, 40 / 259.2), 1e-9));
  CHECK_THAT(thin_weld_utilisation(0, 100e3, 2 * mm, 1 * mm, 360 * MPa),
             WithinRel(2 * thin_weld_utilisation(0, 100e3, 2 * mm, 2 * mm, 360 * MPa), 1e-12));
}

// 0.25 f_u + 0.75 f_u,filler: EN 1993-1-8:2024 (MEMORY).
TEST_CASE("weld metal weaker than the tube counts, stronger one does not", "[truth]") {
  CHECK(weld_metal_strength(360 * MPa, 0) == 360 * MPa);
  CHECK(weld_metal_strength(360 * MPa, 480 * MPa) == 360 * MPa);
  truth("wire of 550 MPa on 621 MPa: strength, MPa", mixed,
        weld_metal_strength(621 * MPa, 550 * MPa) / MPa, within_rel(567.75, 1e-12));
  // Ordinary wire where nothing is said: 480 MPa.
  truth("ordinary wire on 621 MPa: strength, MPa", mixed, weld_metal_strength(621 * MPa, 0) / MPa,
        within_rel(515.25, 1e-12));
  CHECK(std::isnan(weld_metal_strength(NAN, 0)));
}

}  // namespace tubewright::end_weld_test
