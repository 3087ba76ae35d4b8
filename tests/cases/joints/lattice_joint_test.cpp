// K and N joints of EN 1993-1-8: square chord and overlap formulas SEEN in an extract, Tables 7.9
// and 7.12 from MEMORY; numbers by hand.
#include "cases/joints/lattice_joint.h"

#include <cmath>
#include <numbers>

#include "tests/cases/joints/chord_and_brace.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::lattice_joint_test {

using testing::chord_in_mm;

namespace {

constexpr Source gap_7_10 =
    seen_in("EN 1993-1-8 Table 7.10, K gap (formula in an extract), worked by hand");
constexpr Source overlap_7_10 =
    seen_in("EN 1993-1-8 Table 7.10, K overlap (formula in an extract), worked by hand");
constexpr Source table_7_12 = from_memory("EN 1993-1-8 Table 7.12, worked by hand");

constexpr double mm = 1e-3, kN = 1e3;
constexpr double degree = std::numbers::pi / 180;

JointBrace brace(double side, double wall, double angle = 45, double fy = 235) {
  return testing::brace_in_mm(side, wall, angle, fy);
}

LatticeResistance K(const JointChord& c, const JointBrace& a, const JointBrace& b, double gap) {
  const auto r = lattice_resistance(c, {a, b}, gap * mm);
  REQUIRE(r);
  return *r;
}

}  // namespace

TEST_CASE("a gap within the table is held by the face", "[truth]") {
  // 56.121 kN by hand for 60 x 3 with 40 at 45 degrees, S235; 0.94 of it at n = 0.6.
  const JointBrace b = brace(40, 3);
  LatticeResistance r = K(chord_in_mm(60, 60, 3), b, b, 15);
  truth("60 x 3 with 40 x 3 at 45 degrees, S235: N_Rd, kN", gap_7_10, r.N[0] / kN,
        within_abs(56.121, 5.1e-4));
  CHECK(r.N[0] == r.N[1]);
  CHECK(r.left.none());
  JointChord c = chord_in_mm(60, 60, 3);
  c.stress = 0.6 * 235e6;
  truth("60 x 3 with 40 x 3 at 45 degrees, S235, n 0.6: N_Rd, kN", gap_7_10,
        K(c, b, b, 15).N[0] / kN, within_abs(52.754, 5.1e-4));
}

TEST_CASE("a rectangular chord may shear, and its braces tear", "[truth]") {
  // 80 x 40 x 4, S355, 40 x 3 at 45 degrees, gap 20: face 113.04, shear 108.58, brace 143.42,
  // punching 200.74 kN by hand.
  const JointBrace b = brace(40, 3, 45, 355);
  truth("80 x 40 x 4, S355, braces 40 x 3: N_Rd by shear, kN", table_7_12,
        K(chord_in_mm(80, 40, 4, 355), b, b, 20).N[0] / kN, within_abs(108.584, 5e-4));
  // Walls of 2 mm: the brace, 355 x 2 (80 - 8 + 40 + 40) = 107.92 kN.
  const JointBrace thin = brace(40, 2, 45, 355);
  truth("80 x 40 x 4, S355, braces 40 x 2: N_Rd of the brace, kN", table_7_12,
        K(chord_in_mm(80, 40, 4, 355), thin, thin, 20).N[0] / kN, within_abs(107.92, 5e-4));
}

TEST_CASE("an overlap is held by the walls of the brace on top", "[truth]") {
  // 40 x 2.5 on 60 x 3 at 45 degrees, S235: b_eff 24, b_e,ov 25; at 25, 50 and 80 %: 46.4125,
  // 69.9125 and 79.3125 kN by hand.
  const JointBrace b = brace(40, 2.5);
  const double footprint = 40 / std::sin(45 * degree);
  const auto at = [&](double share) { return K(chord_in_mm(60, 60, 3), b, b, -share * footprint); };
  CHECK_THAT(overlap_share(-0.4 * footprint * mm, b), WithinRel(0.4, 1e-12));
  truth("overlap of 25 %, 40 x 2.5 on 60 x 3: N_Rd, kN", overlap_7_10, at(0.25).N[0] / kN,
        within_abs(46.4125, 5e-5));
  truth("overlap of 50 %, 40 x 2.5 on 60 x 3: N_Rd, kN", overlap_7_10, at(0.5).N[0] / kN,
        within_abs(69.9125, 5e-5));
  truth("overlap of 80 %, 40 x 2.5 on 60 x 3: N_Rd, kN", overlap_7_10, at(0.8).N[0] / kN,
        within_abs(79.3125, 5e-5));
  CHECK(at(0.5).left.none());
  CHECK(at(0.5).stress_factor == 1);
}

TEST_CASE("the wider brace lies below and is used in proportion", "[truth]") {
  // 30 x 2.5 on 40 x 2.5: b_eff = 18, b_e,ov = 10/16 x 30 = 18.75; 235 x 2.5 (18 + 18.75 + 60 - 10)
  // = 50.97 kN; below it times 2 x 2.5 x 75 over 2 x 2.5 x 55.
  const JointBrace narrow = brace(30, 2.5), wide = brace(40, 2.5);
  const double gap = -0.6 * 30 / std::sin(45 * degree);
  const LatticeResistance r = K(chord_in_mm(60, 60, 3), narrow, wide, gap);
  truth("overlap of 60 %, 30 x 2.5 over 40 x 2.5: N_Rd, kN", overlap_7_10, r.N[0] / kN,
        within_abs(50.9656, 5e-5));
  CHECK_THAT(r.N[1], WithinRel(r.N[0] * 75 / 55, 1e-12));
  const LatticeResistance turned = K(chord_in_mm(60, 60, 3), wide, narrow, gap);
  CHECK(turned.N[1] == r.N[0]);
  CHECK(turned.N[0] == r.N[1]);
}

TEST_CASE("between gap and overlap the smaller of both rules, by comparison") {
  const JointBrace b = brace(40, 3);
  const JointChord c = chord_in_mm(60, 60, 3);
  const LatticeResistance touching = K(c, b, b, 0);
  CHECK(touching.N[0] < K(c, b, b, 15).N[0]);
  CHECK(touching.N[0] < K(c, b, b, -0.3 * 40 / std::sin(45 * degree)).N[0]);
  CHECK_THAT(touching.left.text(), ContainsSubstring("neither"));
}

TEST_CASE("a wide gap is no K joint") {
  const JointBrace b = brace(40, 3);
  CHECK(lattice_resistance(chord_in_mm(60, 60, 3), {b, b}, 30 * mm));
  CHECK_FALSE(lattice_resistance(chord_in_mm(60, 60, 3), {b, b}, 31 * mm));
  JointBrace plate = b;
  plate.shape = BraceShape::plate;
  CHECK_FALSE(lattice_resistance(chord_in_mm(60, 60, 3), {b, plate}, 15 * mm));
}

TEST_CASE("pairs outside the table are named") {
  const JointBrace b = brace(40, 3);
  const JointChord c = chord_in_mm(60, 60, 3);
  CHECK_THAT(K(c, brace(57, 3), brace(25, 3), 10).left.text(), ContainsSubstring("unlike width"));
  JointBrace pipe = b;
  pipe.shape = BraceShape::round;
  CHECK_THAT(K(c, b, pipe, 15).left.text(), ContainsSubstring("one tube round"));
  CHECK_THAT(K(chord_in_mm(60, 60, 1.5), brace(40, 1.5), brace(40, 1.5), 15).left.text(),
             ContainsSubstring("walls under 2.5 mm"));
}

TEST_CASE("stronger steel counts nine tenths in a K joint too") {
  const JointBrace b = brace(40, 3, 45, 420);
  CHECK_THAT(K(chord_in_mm(60, 60, 3, 420), b, b, 15).N[0] / kN,
             WithinRel(0.9 * 420 / 235 * 56.121, 1e-4));
}

}  // namespace tubewright::lattice_joint_test
