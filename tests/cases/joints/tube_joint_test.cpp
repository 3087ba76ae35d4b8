#include "cases/joints/tube_joint.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::tube_joint_test {

namespace {

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3, kNm = 1e3;
constexpr double degree = std::numbers::pi / 180;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

Profile square(double side, double wall) {
  return {ProfileKind::hollow_rectangle, side * mm, side * mm, wall * mm};
}

Profile round(double diameter, double wall) {
  return {ProfileKind::round, diameter * mm, diameter * mm, wall * mm};
}

JointChord chord(double side, double wall, double fy, double n = 0) {
  return {square(side, wall), fy * MPa, n * fy * MPa};
}

JointBrace brace(double side, double wall, double fy, double angle) {
  JointBrace b;
  b.profile = square(side, wall);
  b.fy = fy * MPa;
  b.angle = angle * degree;
  b.N = 10 * kN;
  return b;
}

double gap_resistance(const JointChord& c, const JointBrace& b, double gap) {
  const TubeJoint r = gap_joint(c, b, b, gap * mm);
  REQUIRE(r.result.utilisation);
  CHECK(r.brace[0].N_Rd == r.brace[1].N_Rd);
  return r.brace[0].N_Rd / kN;
}

std::string reason(const TubeJoint& joint) {
  CHECK_FALSE(joint.result.utilisation);
  CHECK(joint.brace[0].N_Rd == 0);
  return joint.result.reason;
}

}  // namespace

TEST_CASE("T and Y joints on a square chord have the resistances worked by hand") {
  // EN 1993-1-8 Table 7.10, formula seen; worked by hand, kN.
  const struct {
    JointKind kind;
    double b0, t0, b1, t1, angle, fy0, n, beta, N_Rd;
  } table[] = {
      {JointKind::T, 40, 3, 20, 2.5, 90, 235, 0.0, 0.500, 16.194},
      {JointKind::Y, 40, 3, 25, 2.5, 45, 235, 0.4, 0.625, 33.638},
      {JointKind::T, 40, 3, 30, 3.0, 90, 355, 0.5, 0.750, 44.730},
      {JointKind::T, 100, 5, 60, 4.0, 90, 355, 0.0, 0.600, 82.755},
  };
  for (const auto& row : table) {
    const TubeJoint r = tube_joint(row.kind, chord(row.b0, row.t0, row.fy0, row.n),
                                   brace(row.b1, row.t1, row.fy0, row.angle));
    CHECK_THAT(r.beta, WithinRel(row.beta, 1e-9));
    CHECK(r.k_n == 1);
    CHECK_THAT(r.brace[0].N_Rd / kN, WithinAbs(row.N_Rd, 5.1e-4));
    REQUIRE(r.result.utilisation);
    CHECK_THAT(*r.result.utilisation, WithinRel(10 / row.N_Rd, 1e-4));
  }
}

TEST_CASE("K joints with a gap have the resistances worked by hand") {
  // EN 1993-1-8 Table 7.10, formula seen; worked by hand, kN. The gap and the brace walls are not
  // in the formula: any within Tables 7.8 and 7.9.
  const JointBrace small = brace(40, 3, 235, 45), big = brace(120, 6, 355, 38.7);
  CHECK_THAT(gap_resistance(chord(60, 3, 235), small, 15), WithinAbs(56.121, 5.1e-4));
  CHECK_THAT(gap_resistance(chord(60, 3, 235, 0.6), small, 15), WithinAbs(52.754, 5.1e-4));
  CHECK_THAT(gap_resistance(chord(180, 8, 355, 0.8), big, 40), WithinAbs(592.99, 5.1e-3));
  const TubeJoint half_used = gap_joint(chord(60, 3, 235, 0.6), small, small, 15 * mm);
  CHECK_THAT(half_used.beta, WithinAbs(0.6667, 5e-5));
  CHECK_THAT(half_used.k_n, WithinAbs(0.94, 1e-9));
  CHECK_THAT(chord_stress_factor(0.8, 2.0 / 3), WithinAbs(0.82, 1e-9));
}

TEST_CASE("the K joint agrees within a hundredth with the later formula of the design guide") {
  // CIDECT Design Guide 3, 2nd ed. (2009): 14 beta gamma^0.3 f_y0 t_0^2/sin theta Q_f, from memory;
  // 55.70 kN for 60 x 3 with 40 at 45 degrees, recomputed.
  const double guide = 14 * (2.0 / 3) * std::pow(10, 0.3) * 235 * 9 / std::sin(45 * degree) / 1e3;
  CHECK_THAT(guide, WithinAbs(55.70, 5e-3));
  CHECK_THAT(gap_resistance(chord(60, 3, 235), brace(40, 3, 235, 45), 15), WithinRel(guide, 0.01));
}

TEST_CASE(
    "a T joint of 40 x 3 with a brace of 30 resists 0.486 kNm in plane and 0.496 kNm out of it") {
  // EN 1993-1-8 Table 7.14, from memory; recomputed.
  CHECK_THAT(in_plane_moment_resistance(235 * MPa, 40 * mm, 3 * mm, 30 * mm, 1) / kNm,
             WithinAbs(0.48645, 5.1e-6));
  CHECK_THAT(out_of_plane_moment_resistance(235 * MPa, 40 * mm, 3 * mm, 30 * mm, 1) / kNm,
             WithinAbs(0.49621, 5.1e-6));
  // Distortion of the chord, by hand: 2 x 235 x 3 (30 x 3 + sqrt(40 x 40 x 3 x 80)) N mm.
  CHECK_THAT(chord_distortion_resistance(235 * MPa, 40 * mm, 3 * mm, 30 * mm) / kNm,
             WithinRel(1410 * (90 + std::sqrt(384000.0)) / 1e6, 1e-12));
  const TubeJoint r = tube_joint(JointKind::T, chord(40, 3, 235), brace(30, 3, 235, 90));
  CHECK_THAT(r.brace[0].Mip_Rd / kNm, WithinAbs(0.48645, 5.1e-6));
  CHECK_THAT(r.brace[0].Mop_Rd / kNm, WithinAbs(0.49621, 5.1e-6));
}

TEST_CASE("force and moments of a brace add up") {
  // EN 1993-1-8 7.5.2, from memory.
  JointBrace b = brace(30, 3, 235, 90);
  b.M_ip = -0.1 * kNm;
  b.M_op = 0.05 * kNm;
  const TubeJoint r = tube_joint(JointKind::T, chord(40, 3, 235), b);
  REQUIRE(r.result.utilisation);
  CHECK_THAT(*r.result.utilisation,
             WithinRel(10 * kN / r.brace[0].N_Rd + 0.1 / 0.48645 + 0.05 / 0.49621, 1e-4));
}

TEST_CASE("compression in the chord weakens the joint, tension does not") {
  // EN 1993-1-8 Table 7.10: k_n.
  CHECK(chord_stress_factor(0, 0.5) == 1);
  CHECK(chord_stress_factor(-0.9, 0.5) == 1);
  CHECK(chord_stress_factor(0.1, 0.5) == 1);
  CHECK_THAT(chord_stress_factor(0.8, 0.5), WithinRel(0.66, 1e-12));
  CHECK(chord_stress_factor(5, 0.25) == 0);
  CHECK_THAT(reason(tube_joint(JointKind::T, chord(40, 3, 235, 3), brace(20, 2.5, 235, 90))),
             ContainsSubstring("k_n = 0"));
}

TEST_CASE("a round brace has pi/4 of the square one's resistance") {
  JointBrace b = brace(30, 3, 235, 90);
  const double whole = tube_joint(JointKind::T, chord(40, 3, 235), b).brace[0].N_Rd;
  b.profile = round(30, 3);
  const TubeJoint r = tube_joint(JointKind::T, chord(40, 3, 235), b);
  CHECK_THAT(r.brace[0].N_Rd, WithinRel(std::numbers::pi / 4 * whole, 1e-12));
}

TEST_CASE("steel above S355 counts nine tenths, above S460 not at all") {
  // EN 1993-1-8 7.1.1(4), from memory.
  const double N_355 =
      tube_joint(JointKind::T, chord(40, 3, 355), brace(30, 3, 355, 90)).brace[0].N_Rd;
  const double N_420 =
      tube_joint(JointKind::T, chord(40, 3, 420), brace(30, 3, 420, 90)).brace[0].N_Rd;
  CHECK_THAT(N_420, WithinRel(0.9 * 420 / 355 * N_355, 1e-12));
  CHECK_THAT(reason(tube_joint(JointKind::T, chord(40, 3, 700), brace(30, 3, 355, 90))),
             ContainsSubstring("yield strength"));
}

TEST_CASE("a joint outside the ranges of the tables is never passed and says why") {
  // EN 1993-1-8 7.1.1, Tables 7.8 and 7.9, from memory.
  const auto T = [](const JointChord& c, const JointBrace& b) {
    return reason(tube_joint(JointKind::T, c, b));
  };
  const JointChord c = chord(40, 3, 235);
  CHECK(T(c, brace(25, 1.5, 235, 90)) ==
        "outside the scope: the brace's wall 1.5 mm is below 2.5 mm");
  CHECK(T(chord(40, 2, 235), brace(25, 3, 235, 90)) ==
        "outside the scope: the chord's wall 2 mm is below 2.5 mm");
  CHECK(T(c, brace(40, 3, 235, 90)) == "outside the scope: beta = b1/b0 1 is above 0.85");
  CHECK(T(c, brace(25, 3, 235, 20)) ==
        "outside the scope: the angle of brace and chord 20 degrees is below 30 degrees");
  CHECK_THAT(T(chord(120, 3, 235), brace(60, 3, 235, 90)), ContainsSubstring("b0/t0 40 is above"));
  CHECK_THAT(T(chord(40, 5, 235), brace(25, 3, 235, 90)), ContainsSubstring("b0/t0 8 is below 10"));
  CHECK_THAT(T(chord(100, 4, 235), brace(20, 3, 235, 90)), ContainsSubstring("b1/b0 0.2 is below"));
  CHECK_THAT(T(chord(200, 8, 235), brace(110, 3, 235, 90)), ContainsSubstring("the brace's b/t"));
  CHECK_THAT(T({{ProfileKind::hollow_rectangle, 60 * mm, 40 * mm, 3 * mm}, 235 * MPa, 0},
               brace(25, 3, 235, 90)),
             ContainsSubstring("chord is not a square tube"));
  JointBrace flat = brace(25, 3, 235, 90);
  flat.profile.height = 40 * mm;
  CHECK_THAT(T(c, flat), ContainsSubstring("brace is not a square or round tube"));
  CHECK_THAT(T(c, brace(25, 3, missing, 90)), ContainsSubstring("no yield strength"));
  CHECK_THAT(T(chord(40, 3, missing), brace(25, 3, 235, 90)), ContainsSubstring("yield strength"));
  CHECK_THAT(T(c, brace(25, 3, 235, missing)), ContainsSubstring("angle"));
  JointBrace lost = brace(25, 3, 235, 90);
  lost.N = missing;
  CHECK_THAT(T(c, lost), ContainsSubstring("not finite"));
  JointBrace leaning = brace(25, 3, 235, 60);
  leaning.M_ip = 10;
  CHECK_THAT(T(c, leaning), ContainsSubstring("90 degrees only"));
}

TEST_CASE("a gap joint outside the ranges of the tables is never passed and says why") {
  // EN 1993-1-8 Tables 7.8 and 7.9, from memory.
  const JointChord c = chord(60, 3, 235);
  const JointBrace b = brace(40, 3, 235, 45);
  const auto K = [&](const JointBrace& first, const JointBrace& second, double gap) {
    return reason(gap_joint(c, first, second, gap * mm));
  };
  CHECK(K(b, b, 8) == "outside the scope: the gap 8 mm is below 10 mm");
  CHECK(K(b, b, 31) == "outside the scope: the gap 31 mm is above 30 mm");
  CHECK_THAT(K(b, b, -5), ContainsSubstring("the gap"));
  CHECK_THAT(K(b, b, missing), ContainsSubstring("the gap is not known"));
  CHECK_THAT(K(brace(20, 2.5, 235, 45), b, 15), ContainsSubstring("b1/b0 0.333 is below 0.35"));
  CHECK_THAT(K(brace(57, 3, 235, 45), brace(25, 3, 235, 45), 20), ContainsSubstring("(b1 + b2)"));
  JointBrace twisted = b;
  twisted.M_op = 1;
  CHECK_THAT(K(b, twisted, 15), ContainsSubstring("moments"));
  JointBrace pipe = b;
  pipe.profile = round(40, 3);
  CHECK_THAT(K(b, pipe, 15), ContainsSubstring("one brace is square and one round"));
  CHECK_THAT(reason(gap_joint(chord(40, 3, 235), b, b, 15 * mm)), ContainsSubstring("below 15"));
}

TEST_CASE("a joint without forces is not used") {
  JointBrace b = brace(30, 3, 235, 90);
  b.N = 0;
  CHECK(tube_joint(JointKind::T, chord(40, 3, 235), b).result.utilisation == 0.0);
}

TEST_CASE("the gap of two braces follows from where their axes meet") {
  // Geometry at 45 degrees, axes meeting on the chord's: 60 - 40 sqrt(2) mm; at 45 degrees 1 mm of
  // eccentricity opens the gap by 2 mm.
  const auto gap = [](double e) {
    return joint_gap(60 * mm, 40 * mm, 40 * mm, 45 * degree, 45 * degree, e * mm) / mm;
  };
  CHECK_THAT(gap(0), WithinAbs(60 - 40 * std::numbers::sqrt2, 1e-9));
  CHECK_THAT(gap(1) - gap(0), WithinAbs(2, 1e-9));
}

}  // namespace tubewright::tube_joint_test
