// Tubes on a round tube. EN 1993-1-8 Tables 7.2, 7.4, 7.5 from MEMORY; numbers by hand: 60 x 3,
// S235, k_p f_y t^2 = 2115 N, gamma 10.
#include "cases/joints/round_chord.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::round_chord_test {

namespace {

constexpr Source tables = from_memory("EN 1993-1-8 Tables 7.2, 7.4, 7.5, worked by hand");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3;
constexpr double degree = std::numbers::pi / 180;

JointBrace brace(BraceShape shape, double side, double angle = 90) {
  JointBrace b;
  b.shape = shape;
  b.b1 = b.h1 = side * mm;
  b.t1 = 2.5 * mm;
  b.fy = 235 * MPa;
  b.angle = angle * degree;
  return b;
}

JointResistance on_60(JointKind kind, const JointBrace& b, double n = 0) {
  return round_chord_resistance(kind, 60 * mm, 3 * mm, 235 * MPa, n, b);
}

ChordTube chord() {
  ChordTube c;
  c.height = c.width = 60 * mm;
  c.wall = 3 * mm;
  c.fy = 235 * MPa;
  return c;
}

StandingTube standing(const JointBrace& b, double N, double y, double z) {
  StandingTube t;
  t.brace = b;
  t.brace.N = N;
  t.onto = {std::max(0.0, y), std::max(0.0, -y), std::max(0.0, z), std::max(0.0, -z)};
  return t;
}

double use(const ChordTube& c, const std::vector<StandingTube>& tubes) {
  const CheckResult r = round_chord_check(c, tubes, 0);
  REQUIRE(r.utilisation);
  return *r.utilisation;
}

}  // namespace

TEST_CASE("round braces on a round tube hold what is worked by hand", "[truth]") {
  const JointBrace b = brace(BraceShape::round, 30);
  // 10^0.2 x 2115 (2.8 + 3.55) = 21.286 kN; 2115 x 5.2/0.595 = 18.484 kN.
  truth("T, round 30 on round 60 x 3, S235: N_Rd, kN", tables, on_60(JointKind::T, b).pull / kN,
        within_abs(21.286, 1e-3));
  truth("X, round 30 on round 60 x 3, S235: N_Rd, kN", tables, on_60(JointKind::X, b).push / kN,
        within_abs(18.484, 1e-3));
  // Punching in the plane, 407.03 x 30^2 = 366.3 N m; out of it 2115 x 30 x 2.7/0.595 = 287.9 N m.
  truth("round 30 on round 60 x 3, S235: M_ip,Rd, N m", tables, on_60(JointKind::T, b).M_ip,
        within_abs(366.33, 0.01));
  truth("round 30 on round 60 x 3, S235: M_op,Rd, N m", tables, on_60(JointKind::T, b).M_op,
        within_abs(287.92, 0.01));
  // k_p = 1 - 0.3 x 0.5 x 1.5.
  truth("X, round 30 on round 60 x 3, S235, n 0.5: N_Rd, kN", tables,
        on_60(JointKind::X, b, 0.5).pull / kN, within_abs(0.775 * 18.484, 1e-3));
  CHECK(is_spent(round_chord_stress_factor(1.4)));
  CHECK_THAT(on_60(JointKind::X, brace(BraceShape::round, 30, 45)).pull / kN,
             WithinAbs(18.484 * std::numbers::sqrt2, 2e-3));
}

TEST_CASE("rectangular braces on a round tube hold what is worked by hand", "[truth]") {
  // 2115 x 9 x 1.125 = 21.414 kN, 2115 x 5 x 1.125/0.595 = 19.995 kN, times 30 and 15 mm.
  const JointBrace b = brace(BraceShape::rectangle, 30);
  truth("T, square 30 on round 60 x 3, S235: N_Rd, kN", tables, on_60(JointKind::T, b).pull / kN,
        within_abs(21.4144, 1e-3));
  truth("X, square 30 on round 60 x 3, S235: N_Rd, kN", tables, on_60(JointKind::X, b).pull / kN,
        within_abs(19.9947, 1e-3));
  truth("square 30 on round 60 x 3, S235: M_ip,Rd, N m", tables, on_60(JointKind::T, b).M_ip,
        within_abs(642.43, 0.01));
  truth("square 30 on round 60 x 3, S235: M_op,Rd, N m", tables, on_60(JointKind::T, b).M_op,
        within_abs(321.22, 0.01));
}

TEST_CASE("a round chord looks alike from all sides, and what acts together is shared") {
  const JointBrace b = brace(BraceShape::round, 30);
  const double one = use(chord(), {standing(b, 5 * kN, 0, 1)});
  CHECK_THAT(one, WithinRel(5 / 21.286, 1e-4));
  CHECK_FALSE(round_chord_check(chord(), {standing(b, 5 * kN, 0, 1)}, 0).comparison);
  CHECK_THAT(use(chord(), {standing(b, 5 * kN, 0.6, 0.8)}), WithinRel(one, 1e-12));
  // In line on the other side: X. At 60 degrees half of it counts, and 0.9.
  CHECK_THAT(use(chord(), {standing(b, 5 * kN, 0, 1), standing(b, 5 * kN, 0, -1)}),
             WithinRel(5 / 18.484, 1e-4));
  CHECK_THAT(use(chord(), {standing(b, 5 * kN, 0, 1), standing(b, 5 * kN, std::sqrt(0.75), 0.5)}),
             WithinRel(1.5 * one / 0.9, 1e-9));
  CHECK_THAT(use(chord(), {standing(b, 5 * kN, 0, 1), standing(b, -5 * kN, std::sqrt(0.75), 0.5)}),
             WithinRel(one / 0.9, 1e-9));
  ChordTube open = chord();
  open.ends = open.open = true;
  CHECK_THAT(use(open, {standing(b, 5 * kN, 0, 1)}), WithinRel(2 * one, 1e-12));
}

TEST_CASE("force and moments on a round chord add up and grow with the load") {
  StandingTube t = standing(brace(BraceShape::round, 30), 5 * kN, 0, 1);
  t.brace.M_ip = 40;
  t.brace.M_op = -30;
  const double once = use(chord(), {t});
  CHECK_THAT(once, WithinRel(5 / 21.286 + 40 / 366.33 + 30 / 287.92, 1e-4));
  for (double* x : {&t.brace.N, &t.brace.M_ip, &t.brace.M_op}) *x *= 3;
  CHECK_THAT(use(chord(), {t}), WithinRel(3 * once, 1e-12));
}

TEST_CASE("a round chord says what range was left, and what has no number") {
  const auto reason = [](const ChordTube& c, const JointBrace& b) {
    return round_chord_check(c, {standing(b, 1, 0, 1)}, 0).reason;
  };
  ChordTube thin = chord();
  thin.wall = 1.5 * mm;
  CHECK(reason(thin, brace(BraceShape::round, 30)) == "walls under 2.5 mm");
  CHECK(reason(chord(), brace(BraceShape::round, 10)) == "a tube too narrow for the other");
  CHECK_THAT(reason(chord(), brace(BraceShape::rectangle, 30, 60)), ContainsSubstring("leans"));
  CHECK(lacks_number(
      round_chord_check(chord(), {standing(brace(BraceShape::plate, 30), 1, 0, 1)}, 0)));
  const double lost = std::numeric_limits<double>::quiet_NaN();
  CHECK(lacks_number(
      round_chord_check(chord(), {standing(brace(BraceShape::round, 30), lost, 0, 1)}, 0)));
}

}  // namespace tubewright::round_chord_test
