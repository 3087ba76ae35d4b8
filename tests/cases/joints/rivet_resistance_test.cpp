#include "cases/joints/rivet_resistance.h"

#include "cases/model/sheet_joint_stiffness.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::rivet_resistance_test {

namespace {

constexpr Source bearing =
    seen_in("EN 1999-1-4 8.2: bearing on the thinner of sheet and support, by hand");
constexpr Source shear = from_memory("EN 1999-1-4 8.2: 38 d2");
constexpr Source tear_out = rederived("two shear planes, 2 (e - d/2) t f_u/sqrt 3, by hand");
constexpr Source flabel = seen_in(
    "J.-C. Flabel, Practical Stress Analysis (quoted in a public page), c = 3; two thirds of it is "
    "our judgement for blind rivets");
constexpr Source judgement = common_practice("judgement: 3 to 10, usually 5 kN/mm");
constexpr Source bond = rederived("shear lag across the bond, closed form and finite differences");
constexpr double mm = 1e-3, MPa = 1e6;
}  // namespace

TEST_CASE("bearing of a thin sheet under a blind rivet follows EN 1999-1-4 between its two limits",
          "[truth]") {
  // EN 1999-1-4 8.2, form of eq. 8.9 (the screws' text seen, the rivets' from memory), worked by
  // hand: f_u 220, d 4.8, t 1.2 mm.
  const auto strength = [](double support) {
    return bearing_strength(220 * MPa, 1.2 * mm, 4.8 * mm, support * mm);
  };
  truth("blind rivet 4.8, sheet 1.2 on 1.2, f_u 220: bearing, N", bearing, strength(1.2),
        within_rel(1584.0, 1e-4));
  truth("blind rivet 4.8, sheet 1.2 on 1.6, f_u 220: bearing, N", bearing, strength(1.6),
        within_rel(1654.0, 1e-3));
  truth("blind rivet 4.8, sheet 1.2 on 3, f_u 220: bearing, N", bearing, strength(3.0),
        within_rel(1900.8, 1e-4));
  // On a thinner tube it is the tube that tears: 2.5 220 sqrt(0.5^3 4.8) = 426 N.
  truth("blind rivet 4.8, sheet 1.2 on 0.5, f_u 220: bearing, N", bearing, strength(0.5),
        within_rel(426.0, 1e-3));
  CHECK(strength(9.0) == strength(3.0));
  CHECK_THAT(bearing_strength(400 * MPa, 1.2 * mm, 4.8 * mm, 3 * mm),
             WithinRel(bearing_strength(260 * MPa, 1.2 * mm, 4.8 * mm, 3 * mm), 1e-12));
}

TEST_CASE("an aluminium blind rivet of 4.8 mm shears at 876 N by EN 1999-1-4", "[truth]") {
  truth("aluminium blind rivet 4.8: shear strength, N", shear, blind_rivet_shear_strength(4.8 * mm),
        within_rel(876, 1e-3));  // 38 d2, from memory
}

TEST_CASE("a rivet tears out of the edge of a sheet along two planes", "[truth]") {
  // Worked by hand: e 10, d 4.8, t 1.2 mm, f_u 220 MPa.
  truth("rivet 4.8, edge distance 10, sheet 1.2, f_u 220: tear-out, N", tear_out,
        tear_out_strength(220 * MPa, 1.2 * mm, 4.8 * mm, 10 * mm), within_rel(2317, 1e-3));
  CHECK(tear_out_strength(220 * MPa, 1.2 * mm, 4.8 * mm, 1 * mm) == 0);
}

TEST_CASE("a sheet buckles between rivets at two thirds of the stress of protruding heads",
          "[truth]") {
  // J.-C. Flabel, c = 3 for protruding rivets: 99.5, 44.2, 24.9 MPa at 50, 75, 100 mm for t 1.2, E
  // 70 GPa.
  const auto stress = [](double pitch) {
    return inter_rivet_buckling_stress(70e9, 1.2 * mm, pitch * mm) / MPa;
  };
  truth("sheet 1.2, rivets at 50 mm: buckling between them, MPa", flabel, stress(50),
        within_rel(2.0 / 3 * 99.5, 2e-3));
  truth("sheet 1.2, rivets at 75 mm: buckling between them, MPa", flabel, stress(75),
        within_rel(2.0 / 3 * 44.2, 2e-3));
  truth("sheet 1.2, rivets at 100 mm: buckling between them, MPa", flabel, stress(100),
        within_rel(2.0 / 3 * 24.9, 2e-3));
}

TEST_CASE("the stiffness of a blind rivet grows with its diameter and stays within its band",
          "[truth]") {
  double before = 0;
  for (double d = 2.4; d <= 6.4; d += 0.2) {
    const RivetStiffness k = blind_rivet_stiffness(d * mm);
    CHECK(k.low < k.usual);
    CHECK(k.usual < k.high);
    CHECK(k.usual > before);
    before = k.usual;
  }
  // Judgement, no source: 3 to 10, usually 5 kN/mm at 4.8 mm.
  truth("blind rivet 4.8: usual stiffness, N/m", judgement, blind_rivet_stiffness(4.8 * mm).usual,
        within_rel(5e6, 1e-12));
}

TEST_CASE("rivets and bond of an edge act side by side, and an edge without either is perfect",
          "[truth]") {
  Sheet sheet;
  sheet.thickness = 1.2 * mm;
  const Material aluminium{70e9, 70e9 / 2.66, 2700, 130e6, 220e6};
  CHECK(joint_stiffness(sheet, aluminium).total() == rigid);
  sheet.rivet = RivetJoint{4.8 * mm, 50 * mm, 10e6, {}};
  CHECK_THAT(joint_stiffness(sheet, aluminium).total(), WithinRel(200e6, 1e-12));
  // Structural epoxy 20 mm wide, 0.3 mm thick, G 1000 MPa: 10 260 N/mm2 (derived, by finite
  // differences too).
  sheet.bond = BondJoint{20 * mm, 0.3 * mm, 1000 * MPa, {}};
  truth("structural epoxy 20 x 0.3: stiffness, N/m2", bond, joint_stiffness(sheet, aluminium).bond,
        within_rel(10260e6, 1e-3));
  CHECK_THAT(joint_stiffness(sheet, aluminium).total(), WithinRel(10460e6, 1e-3));
}

}  // namespace tubewright::rivet_resistance_test
