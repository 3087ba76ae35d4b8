// Which formula governs a T, Y or X joint. Ranges and rules of EN 1993-1-8 from MEMORY where it
// does not say SEEN; numbers by hand.
#include "cases/joints/tube_joint.h"

#include <cmath>
#include <initializer_list>
#include <numbers>

#include "tests/cases/joints/chord_and_brace.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::tube_joint_test {

namespace {

constexpr Source table_7_10 =
    seen_in("EN 1993-1-8 Table 7.10 (formula in an extract), worked by hand");
constexpr Source table_7_11 = from_memory("EN 1993-1-8 Table 7.11, worked by hand");
constexpr Source table_7_13 =
    from_memory("EN 1993-1-8 Table 7.13 (seen only in part), worked by hand");
constexpr Source tab_moment =
    rederived("yield pattern of EN 1993-1-8 Table 7.14 for a plate, worked by hand");
constexpr Source table_7_14 = from_memory("EN 1993-1-8 Table 7.14, worked by hand");
constexpr Source table_7_14_out = seen_in("EN 1993-1-8 Table 7.14, M_op, worked by hand");

constexpr double mm = 1e-3, kN = 1e3;

JointChord chord(double side, double wall, double fy = 235, double n = 0) {
  JointChord c = testing::chord_in_mm(side, side, wall, fy);
  c.stress = n * c.fy;
  return c;
}

JointBrace brace(double side, double wall, double fy = 235, double angle = 90) {
  return testing::brace_in_mm(side, wall, angle, fy);
}

JointResistance T(const JointChord& c, const JointBrace& b) {
  return joint_resistance(JointKind::T, c, b);
}

}  // namespace

TEST_CASE("up to 0.85 of the chord's width its face governs", "[truth]") {
  // Table 7.10, formula SEEN: 16.194, 33.638 and 44.730 kN by hand.
  truth("T, 20 x 2.5 on 40 x 3, S235: N_Rd, kN", table_7_10,
        T(chord(40, 3), brace(20, 2.5)).push / kN, within_abs(16.194, 5.1e-4));
  truth("Y, 25 x 2.5 at 45 degrees on 40 x 3, S235, n 0.4: N_Rd, kN", table_7_10,
        joint_resistance(JointKind::Y, chord(40, 3, 235, 0.4), brace(25, 2.5, 235, 45)).pull / kN,
        within_abs(33.638, 5.1e-4));
  truth("T, 30 x 3 on 40 x 3, S355, n 0.5: N_Rd, kN", table_7_10,
        T(chord(40, 3, 355, 0.5), brace(30, 3, 355)).pull / kN, within_abs(44.730, 5.1e-4));
  // An X joint of 20 on 40 x 1.5: 4.0486 kN, so that 15 kN are 3.7 times too much.
  truth("X, 20 x 1.5 on 40 x 1.5, S235: N_Rd, kN", table_7_10,
        joint_resistance(JointKind::X, chord(40, 1.5), brace(20, 1.5)).pull / kN,
        within_abs(4.04856, 5e-6));
}

TEST_CASE("a brace as wide as the chord stands on its side walls", "[truth]") {
  // X, 40 x 1.5: 0.8 x 0.59444 x 235 x 1.5 (80 + 15) = 15.925 kN under a push, without 0.8 in a T
  // joint 19.906, without buckling under a pull 33.4875 kN; the brace itself, b_eff = 15: 235 x 1.5
  // (80 - 6 + 30) = 36.66 kN.
  const JointChord c = chord(40, 1.5);
  const JointBrace b = brace(40, 1.5);
  truth("X, 40 x 1.5 on 40 x 1.5, push: N_Rd, kN", table_7_11,
        joint_resistance(JointKind::X, c, b).push / kN, within_abs(15.9251, 5e-5));
  truth("T, 40 x 1.5 on 40 x 1.5, push: N_Rd, kN", table_7_11, T(c, b).push / kN,
        within_abs(19.9064, 5e-5));
  truth("T, 40 x 1.5 on 40 x 1.5, pull: N_Rd, kN", table_7_11, T(c, b).pull / kN,
        within_abs(33.4875, 5e-5));
  // Thinner, the brace gives way first: 235 x 0.8 (80 - 3.2 + 2 x 28.125) = 25.01 kN, b_eff =
  // 10/26.67 x 1.5/0.8 x 40.
  truth("T, 40 x 0.8 on 40 x 1.5, pull: N_Rd, kN", table_7_11, T(c, brace(40, 0.8)).pull / kN,
        within_abs(25.0134, 5e-5));
}

TEST_CASE("between them a straight line, and punching where the brace leaves room for it",
          "[truth]") {
  // 37 on 40 x 1.5, beta 0.925: half of 11.982 and 31.3725 kN is 21.677; punching 20.708 kN.
  truth("T, 37 x 1.5 on 40 x 1.5: N_Rd by punching, kN", table_7_11,
        T(chord(40, 1.5), brace(37, 1.5)).pull / kN, within_abs(20.7077, 5e-5));
  // A little wider there is no room left to punch (beta above 1 - 1/gamma = 0.925).
  CHECK(T(chord(40, 1.5), brace(37.01, 1.5)).pull / kN > 21.6);
}

TEST_CASE("resistances are continuous in width and angle and never fall as the chord thickens") {
  for (const JointKind kind : {JointKind::T, JointKind::Y, JointKind::X}) {
    const auto at = [&](double side, double wall, double angle) {
      return joint_resistance(kind, chord(40, wall), brace(side, 1.5, 235, angle));
    };
    for (const double angle : {30.0, 45.0, 60.0, 90.0}) {
      const JointResistance below = at(40 * 0.85 - 1e-7, 1.5, angle);
      const JointResistance above = at(40 * 0.85 + 1e-7, 1.5, angle);
      CHECK_THAT(above.pull, WithinRel(below.pull, 1e-6));
      CHECK_THAT(above.push, WithinRel(below.push, 1e-6));
      CHECK_THAT(above.M_ip, WithinRel(below.M_ip, 1e-6));
      CHECK_THAT(above.M_op, WithinRel(below.M_op, 1e-6));
    }
    for (const double side : {10.0, 20.0, 30.0, 36.0, 40.0}) {
      double pull = 0, push = 0, M_ip = 0, M_op = 0;
      for (double wall = 1; wall <= 4; wall += 0.25) {
        const JointResistance r = at(side, wall, 90);
        CHECK(r.pull >= pull);
        CHECK(r.push >= push);
        CHECK(r.M_ip >= M_ip);
        CHECK(r.M_op >= M_op);
        pull = r.pull;
        push = r.push;
        M_ip = r.M_ip;
        M_op = r.M_op;
      }
      CHECK_THAT(at(side, 1.5, 50.0001).pull, WithinRel(at(side, 1.5, 50).pull, 1e-4));
    }
    CHECK(at(20, 1.5, 5).pull == at(20, 1.5, 30).pull);
  }
}

TEST_CASE("a wider brace never has less until it hangs over the edges") {
  double last = 0;
  for (double side = 10; side <= 40; side += 0.5) {
    const double N = T(chord(40, 1.5), brace(side, 3)).pull;
    CHECK(N >= last);
    last = N;
  }
  // Two walls across, 2 x 1.5 + 5 x 1.5 of each side wall: 235 x 1.5 (21 + 15) = 12.69 kN.
  CHECK_THAT(T(chord(40, 1.5), brace(50, 1.5)).pull / kN, WithinAbs(12.69, 1e-6));
}

TEST_CASE("the stress in the chord counts for its face, not for its side walls") {
  const double whole = T(chord(40, 3, 235, 0), brace(20, 2.5)).pull;
  CHECK_THAT(T(chord(40, 3, 235, 0.8), brace(20, 2.5)).pull, WithinRel(0.66 * whole, 1e-12));
  CHECK(T(chord(40, 3, 235, 0.8), brace(40, 3)).pull == T(chord(40, 3), brace(40, 3)).pull);
  CHECK(is_spent(T(chord(40, 3, 235, 0.85), brace(10, 2.5)).stress_factor));
}

TEST_CASE("moments: the face, the side walls, the brace's own section", "[truth]") {
  // 40 x 3 with 30, S235: 0.48645 and 0.49621 kN m by hand; side walls of 40 x 3: see
  // chord_face_test.
  const JointResistance r = T(chord(40, 3), brace(30, 3));
  truth("30 x 3 on 40 x 3, S235: M_ip,Rd, N m", table_7_14, r.M_ip, within_abs(486.45, 5.1e-3));
  truth("30 x 3 on 40 x 3, S235: M_op,Rd, N m", table_7_14_out, r.M_op, within_abs(496.21, 5.1e-3));
  CHECK_THAT(r.distortion, WithinRel(1.41 * (90 + std::sqrt(384000.0)), 1e-12));
  truth("40 x 3 on 40 x 3, S235: M_ip,Rd of side walls, N m", table_7_14,
        T(chord(40, 3), brace(40, 3)).M_ip, within_abs(1066.3125, 1e-6));
  CHECK_THAT(joint_resistance(JointKind::X, chord(40, 3), brace(40, 3)).M_ip,
             WithinAbs(0.8 * 1066.3125, 1e-6));
  // With W_pl = 5723.5 mm3 and b_eff = 30: 235 (5723.5 - 10 x 40 x 3) and 235 (5723.5 - 0.5 x 100 x
  // 3).
  JointBrace b = brace(40, 3);
  b.Wpl_ip = b.Wpl_op = 5723.5e-9;
  truth("40 x 3 on 40 x 3, S235: M_ip,Rd of the brace, N m", table_7_14, T(chord(40, 3), b).M_ip,
        within_abs(235e-3 * (5723.5 - 1200), 1e-6));
  truth("40 x 3 on 40 x 3, S235: M_op,Rd of the brace, N m", table_7_14_out,
        T(chord(40, 3), b).M_op, within_abs(235e-3 * (5723.5 - 150), 1e-6));
}

TEST_CASE("a round brace has pi/4 of a square one") {
  JointBrace b = brace(30, 3);
  const JointResistance square = T(chord(40, 3), b);
  b.shape = BraceShape::round;
  CHECK_THAT(T(chord(40, 3), b).pull, WithinRel(std::numbers::pi / 4 * square.pull, 1e-12));
  CHECK_THAT(T(chord(40, 3), b).M_ip, WithinRel(std::numbers::pi / 4 * square.M_ip, 1e-12));
  b.shape = BraceShape::bar;
  b.t1 = 0;
  CHECK_THAT(T(chord(40, 3), b).pull, WithinRel(std::numbers::pi / 4 * square.pull, 1e-12));
}

TEST_CASE("flat bars are plates along or across the tube", "[truth]") {
  // Table 7.13 (SEEN in part), worked numbers: along 6931.2 N and 152.724 N m on 30 x 2, 15087 N
  // and 419.47 N m on 40 x 3; across, 4 x 25 on 40 x 2, b_eff = 6.25: 5875 N.
  const auto plate = [](double across, double along) {
    JointBrace b = brace(across, 0);
    b.shape = BraceShape::plate;
    b.h1 = along * mm;
    return b;
  };
  truth("plate 4 x 40 along 30 x 2, S235: N_Rd, N", table_7_13, T(chord(30, 2), plate(4, 40)).pull,
        within_abs(6931.2, 0.05));
  truth("plate 4 x 40 along 30 x 2, S235: M_ip,Rd, N m", tab_moment,
        T(chord(30, 2), plate(4, 40)).M_ip, within_abs(152.724, 5e-4));
  truth("plate 5 x 50 along 40 x 3, S235: N_Rd, N", table_7_13, T(chord(40, 3), plate(5, 50)).pull,
        within_abs(15087, 0.05));
  truth("plate 5 x 50 along 40 x 3, S235: M_ip,Rd, N m", tab_moment,
        T(chord(40, 3), plate(5, 50)).M_ip, within_abs(419.474, 1e-3));
  truth("plate 4 x 25 across 40 x 2, S235: N_Rd, N", table_7_13, T(chord(40, 2), plate(25, 4)).pull,
        within_abs(5875, 0.05));
  // k_m, not k_n: 1.3 (1 - 0.45).
  truth("plate 4 x 40 along 30 x 2, S235, n 0.45: N_Rd, N", table_7_13,
        T(chord(30, 2, 235, 0.45), plate(4, 40)).pull, within_abs(0.715 * 6931.2, 0.05));
}

TEST_CASE("stronger steel counts nine tenths above S355 and eight above S460") {
  // 7.1.1(4), EN 1993-1-12.
  const double S355 = T(chord(40, 3, 355), brace(30, 3, 355)).pull;
  CHECK_THAT(T(chord(40, 3, 420), brace(30, 3, 420)).pull,
             WithinRel(0.9 * 420 / 355 * S355, 1e-12));
  CHECK_THAT(T(chord(40, 3, 700), brace(30, 3, 355)).pull,
             WithinRel(0.8 * 700 / 355 * S355, 1e-12));
}

TEST_CASE("an X joint that leans far shears its chord") {
  // 60 x 3 with 20 at 30 degrees, cos > 20/60: 235 x 2 x 60 x 3/(sqrt 3 x 0.5) = 97.69 kN is more
  // than the face; of a brace of 50 the face holds more than that.
  const double shear = 235e6 * 2 * 0.060 * 0.003 / (std::sqrt(3.0) * 0.5);
  CHECK(joint_resistance(JointKind::X, chord(60, 3), brace(20, 3, 235, 30)).pull < shear);
  CHECK_THAT(joint_resistance(JointKind::X, chord(60, 3), brace(50, 5, 235, 30)).pull,
             WithinRel(shear, 1e-12));
  CHECK(joint_resistance(JointKind::Y, chord(60, 3), brace(50, 5, 235, 30)).pull > shear);
}

}  // namespace tubewright::tube_joint_test
