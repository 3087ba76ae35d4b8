#include "cases/joints/rivet_resistance.h"

#include "cases/model/sheet_joint_stiffness.h"
#include "tests/catch.h"

namespace tubewright::rivet_resistance_test {

namespace {
constexpr double mm = 1e-3, MPa = 1e6;
}

TEST_CASE(
    "bearing of a thin sheet under a blind rivet follows EN 1999-1-4 between its two limits") {
  // EN 1999-1-4 8.2, form of eq. 8.9 (the screws' text seen, the rivets' from memory), worked by
  // hand: f_u 220, d 4.8, t 1.2 mm.
  const auto strength = [](double support) {
    return bearing_strength(220 * MPa, 1.2 * mm, 4.8 * mm, support * mm);
  };
  CHECK_THAT(strength(1.2), WithinRel(1584.0, 1e-4));
  CHECK_THAT(strength(1.6), WithinRel(1654.0, 1e-3));
  CHECK_THAT(strength(3.0), WithinRel(1900.8, 1e-4));
  // On a thinner tube it is the tube that tears: 2.5 220 sqrt(0.5^3 4.8) = 426 N.
  CHECK_THAT(strength(0.5), WithinRel(426.0, 1e-3));
  CHECK(strength(9.0) == strength(3.0));
  CHECK_THAT(bearing_strength(400 * MPa, 1.2 * mm, 4.8 * mm, 3 * mm),
             WithinRel(bearing_strength(260 * MPa, 1.2 * mm, 4.8 * mm, 3 * mm), 1e-12));
}

TEST_CASE("an aluminium blind rivet of 4.8 mm shears at 876 N by EN 1999-1-4") {
  CHECK_THAT(blind_rivet_shear_strength(4.8 * mm), WithinRel(876, 1e-3));  // 38 d2, from memory
}

TEST_CASE("a rivet tears out of the edge of a sheet along two planes") {
  // Worked by hand: e 10, d 4.8, t 1.2 mm, f_u 220 MPa.
  CHECK_THAT(tear_out_strength(220 * MPa, 1.2 * mm, 4.8 * mm, 10 * mm), WithinRel(2317, 1e-3));
  CHECK(tear_out_strength(220 * MPa, 1.2 * mm, 4.8 * mm, 1 * mm) == 0);
}

TEST_CASE("a sheet buckles between rivets at two thirds of the stress of protruding heads") {
  // J.-C. Flabel, c = 3 for protruding rivets: 99.5, 44.2, 24.9 MPa at 50, 75, 100 mm for t 1.2, E
  // 70 GPa.
  const auto stress = [](double pitch) {
    return inter_rivet_buckling_stress(70e9, 1.2 * mm, pitch * mm) / MPa;
  };
  CHECK_THAT(stress(50), WithinRel(2.0 / 3 * 99.5, 2e-3));
  CHECK_THAT(stress(75), WithinRel(2.0 / 3 * 44.2, 2e-3));
  CHECK_THAT(stress(100), WithinRel(2.0 / 3 * 24.9, 2e-3));
}

TEST_CASE("the stiffness of a blind rivet grows with its diameter and stays within its band") {
  double before = 0;
  for (double d = 2.4; d <= 6.4; d += 0.2) {
    const RivetStiffness k = blind_rivet_stiffness(d * mm);
    CHECK(k.low < k.usual);
    CHECK(k.usual < k.high);
    CHECK(k.usual > before);
    before = k.usual;
  }
  // Judgement, no source: 3 to 10, usually 5 kN/mm at 4.8 mm.
  CHECK_THAT(blind_rivet_stiffness(4.8 * mm).usual, WithinRel(5e6, 1e-12));
}

TEST_CASE("rivets and bond of an edge act side by side, and an edge without either is perfect") {
  Sheet sheet;
  sheet.thickness = 1.2 * mm;
  const Material aluminium{70e9, 70e9 / 2.66, 2700, 130e6, 220e6};
  CHECK(joint_stiffness(sheet, aluminium).total() == rigid);
  sheet.rivet = RivetJoint{4.8 * mm, 50 * mm, 10e6, {}};
  CHECK_THAT(joint_stiffness(sheet, aluminium).total(), WithinRel(200e6, 1e-12));
  // Structural epoxy 20 mm wide, 0.3 mm thick, G 1000 MPa: 10 260 N/mm2 (derived, by finite
  // differences too).
  sheet.bond = BondJoint{20 * mm, 0.3 * mm, 1000 * MPa, {}};
  CHECK_THAT(joint_stiffness(sheet, aluminium).bond, WithinRel(10260e6, 1e-3));
  CHECK_THAT(joint_stiffness(sheet, aluminium).total(), WithinRel(10460e6, 1e-3));
}

}  // namespace tubewright::rivet_resistance_test
