// Rivets and bond as stiffness against a published seam, the limits of shear lag and the law of
// springs side by side.
#include "cases/model/sheet_joint_stiffness.h"

#include <cmath>

#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::sheet_joint_stiffness_test {

namespace {

constexpr Source seam =
    from_memory("stressed-skin recommendations: seam of 4.8 mm blind rivets, 0.30 mm/kN");

}  // namespace

using testing::rivets;

namespace {

constexpr double mm = 1e-3, MPa = 1e6;
const Material aluminium = {70e9, 27e9, 2700, 130e6, 220e6};

Sheet bonded(double width, double thickness, double G) {
  Sheet s;
  s.thickness = 1.2 * mm;
  BondJoint b;
  b.width = width;
  b.thickness = thickness;
  b.shear_modulus = G;
  s.bond = b;
  return s;
}

}  // namespace

// Stressed-skin recommendations: seams with 4.8 mm blind rivets, 0.30 mm/kN, from memory; solid
// rivets, 18 to 37 kN/mm by published formulas, are stiffer than any blind one.
TEST_CASE(
    "a blind rivet of 4.8 mm may have the stiffness of a published seam, none that of a solid",
    "[truth]") {
  const RivetStiffness s = blind_rivet_stiffness(4.8 * mm);
  // The seam lies between our low and high values: near the low one, which is to be on the safe
  // side.
  truth("blind rivet 4.8: low stiffness against a published seam, N/m", seam, s.low,
        within_rel(1 / 0.30e-6, 0.1));
  CHECK((s.low < 1 / 0.30e-6 && 1 / 0.30e-6 < s.high));
  for (const double d : {2.4, 3.2, 4.0, 4.8, 6.4}) CHECK(blind_rivet_stiffness(d * mm).high < 18e6);
}

TEST_CASE(
    "a thicker rivet is stiffer without a jump, and the usual value lies between the bounds") {
  RivetStiffness before;
  for (double d = 0.5; d < 8; d += 0.01) {
    const RivetStiffness s = blind_rivet_stiffness(d * mm);
    CHECK((0 < s.low && s.low < s.usual && s.usual < s.high));
    CHECK((s.low > before.low && s.usual > before.usual && s.high > before.high));
    if (before.low > 0) CHECK(s.high - before.high < 0.03e6);  // 2.5 kN/mm a millimetre
    before = s;
  }
}

TEST_CASE("the stiffness of a rivet is a straight line between its rows, in proportion beyond") {
  const auto usual = [](double d) { return blind_rivet_stiffness(d * mm).usual; };
  CHECK_THAT(usual(3.6), WithinRel((usual(3.2) + usual(4.0)) / 2, 1e-9));
  CHECK_THAT(usual(4.2), WithinRel(0.75 * usual(4.0) + 0.25 * usual(4.8), 1e-9));
  CHECK_THAT(usual(1.6), WithinRel(usual(3.2) / 2, 1e-9));
  CHECK_THAT(usual(9.6), WithinRel(usual(4.8) * 2, 1e-9));
}

TEST_CASE("a rivet has the stiffness that is given, else the usual one of its diameter") {
  CHECK(rivet_stiffness(rivets(4 * mm, 40 * mm, 1.5e6)) == 1.5e6);
  CHECK(rivet_stiffness(rivets(4 * mm, 40 * mm)) == blind_rivet_stiffness(4 * mm).usual);
}

TEST_CASE("rivets at a pitch are their stiffness over the pitch, beside bond both add up") {
  Sheet s;
  s.thickness = 1.2 * mm;
  CHECK(joint_stiffness(s, aluminium).total() == rigid);  // a perfect edge
  s.rivet = rivets(4 * mm, 40 * mm, 2e6);
  CHECK_THAT(joint_stiffness(s, aluminium).total(), WithinRel(2e6 / 0.040, 1e-12));
  const Sheet glue = bonded(20 * mm, 0.5 * mm, 10 * MPa);
  const double bond = joint_stiffness(glue, aluminium).total();
  s.bond = glue.bond;
  const JointStiffness both = joint_stiffness(s, aluminium);
  CHECK_THAT(both.total(), WithinRel(2e6 / 0.040 + bond, 1e-12));
  CHECK_THAT(both.bond, WithinRel(bond, 1e-12));
}

TEST_CASE("a row of rivets carries its slip over whole, a bond 1/cosh of its width in shear lags") {
  Sheet s;
  s.thickness = 1.2 * mm;
  CHECK(joint_stiffness(s, aluminium).carry_over() == 1);
  s.rivet = rivets(4 * mm, 40 * mm);
  CHECK(joint_stiffness(s, aluminium).carry_over() == 1);
  for (const double width : {3.0, 10.0, 25.0}) {
    const double lambda = std::sqrt(500 * MPa / (0.3 * mm * 27e9 * 1.2 * mm));
    const Sheet glue = bonded(width * mm, 0.3 * mm, 500 * MPa);
    CHECK_THAT(joint_stiffness(glue, aluminium).carry_over(),
               WithinRel(1 / std::cosh(lambda * width * mm), 1e-9));
    s.bond = glue.bond;
    const double both = joint_stiffness(s, aluminium).carry_over();
    CHECK((0 <= both && both < 1));
  }
}

// Elementary: a soft bond shears evenly, G w/t_a; one so wide that its far side idles has
// sqrt(G G_s t_s/t_a) (O. Volkersen 1938, the limits of lambda tanh(lambda w)).
TEST_CASE("a soft bond shears evenly over its width, a wide one only as far as shear lag lets it") {
  const double soft = joint_stiffness(bonded(10 * mm, 2 * mm, 0.5 * MPa), aluminium).bond;
  CHECK_THAT(soft, WithinRel(0.5 * MPa * 10 / 2, 2e-3));
  const double wide = joint_stiffness(bonded(500 * mm, 0.2 * mm, 1000 * MPa), aluminium).bond;
  CHECK_THAT(wide, WithinRel(std::sqrt(1000 * MPa / (0.2 * mm) * 27e9 * 1.2 * mm), 1e-9));
}

}  // namespace tubewright::sheet_joint_stiffness_test
