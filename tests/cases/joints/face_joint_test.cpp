// Tubes on the faces of another. EN 1993-1-8 7.5 and Table 7.19 from MEMORY; resistances by hand,
// see chord_face_test and tube_joint_test; laws where there is no number.
#include "cases/joints/face_joint.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::face_joint_test {

namespace {

constexpr Source sum =
    from_memory("EN 1993-1-8 7.5.2, N/N_Rd + M_ip/M_ip,Rd + M_op/M_op,Rd, by hand");
constexpr Source seen_7_10 =
    seen_in("EN 1993-1-8 Table 7.10 (formula in an extract), worked by hand");
constexpr Source by_hand = from_memory("EN 1993-1-8 Tables 7.11, 7.14, worked by hand");
constexpr Source two_planes = from_memory("EN 1993-1-8 Table 7.19, worked by hand");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3;
constexpr double degree = std::numbers::pi / 180;
enum Face : size_t { plus_y, minus_y, plus_z, minus_z };

ChordTube chord(double side, double wall, double fy = 235) {
  ChordTube c;
  c.height = c.width = side * mm;
  c.wall = wall * mm;
  c.fy = fy * MPa;
  return c;
}

StandingTube tube(double side, double wall, double angle = 90, Face face = plus_z) {
  StandingTube t;
  t.brace.b1 = t.brace.h1 = side * mm;
  t.brace.t1 = wall * mm;
  t.brace.fy = 235 * MPa;
  t.brace.angle = std::min(angle, 180 - angle) * degree;
  t.along = std::cos(angle * degree);
  t.onto[face] = 1;
  return t;
}

StandingTube pulled(StandingTube t, double N) {
  t.brace.N = N;
  return t;
}

StandingTube moved(StandingTube t, double M_ip, double M_op) {
  t.brace.M_ip = M_ip;
  t.brace.M_op = M_op;
  t.chord_moment = M_op;
  return t;
}

CheckResult check(const ChordTube& c, const std::vector<StandingTube>& tubes, size_t which = 0) {
  return face_joint_check(c, tubes, which);
}

double use(const ChordTube& c, const std::vector<StandingTube>& tubes, size_t which = 0) {
  const CheckResult r = check(c, tubes, which);
  REQUIRE(r.utilisation);
  CHECK(std::isfinite(*r.utilisation));
  return *r.utilisation;
}

}  // namespace

TEST_CASE("force and moments of a tube on a face add up", "[truth]") {
  // 40 x 3, 30 x 3, S235: N_Rd = 44.730 x 235/355, 0.48645 and 0.49621 kN m by hand.
  const StandingTube t = moved(pulled(tube(30, 3), 10 * kN), -100, 50);
  const CheckResult r = check(chord(40, 3), {t});
  REQUIRE(r.utilisation);
  truth("30 x 3 on 40 x 3, S235, 10 kN, 100 and 50 N m: utilisation", sum, *r.utilisation,
        within_rel(10 / (44.730 * 235 / 355) + 0.1 / 0.48645 + 0.05 / 0.49621, 1e-4));
  CHECK_FALSE(r.comparison);
  CHECK(r.reason.empty());
}

TEST_CASE("joints that are too weak fail by as much as worked by hand", "[truth]") {
  // X, 20 x 1.5 on 40 x 1.5 pulling 15 kN: 3.7; T, 100 N m in plane on it: 1.96; X of equal widths
  // pushing 30 kN: 1.88.
  const ChordTube c = chord(40, 1.5);
  const StandingTube up = pulled(tube(20, 1.5), 15 * kN);
  const StandingTube down = pulled(tube(20, 1.5, 90, minus_z), 15 * kN);
  truth("X, 20 x 1.5 on 40 x 1.5 pulled by 15 kN: utilisation", seen_7_10, use(c, {up, down}),
        within_abs(3.705, 1e-3));
  truth("20 x 1.5 on 40 x 1.5, 100 N m in plane: utilisation", by_hand,
        use(c, {moved(tube(20, 1.5), 100, 0)}), within_abs(1.9585, 1e-3));
  truth("X, 40 x 1.5 on 40 x 1.5 pushed by 30 kN: utilisation", by_hand,
        use(c, {pulled(tube(40, 1.5), -30 * kN), pulled(tube(40, 1.5, 90, minus_z), -30 * kN)}),
        within_abs(1.8838, 1e-3));
  const CheckResult r = check(c, {up, down});
  CHECK(r.comparison);
  CHECK(r.reason == "walls under 2.5 mm");
}

TEST_CASE("a moment of rounding neither counts nor changes what the check is", "[truth]") {
  StandingTube t = moved(pulled(tube(25, 2.5, 45), 10 * kN), 1.7e-13, -1e-12);
  const CheckResult r = check(chord(40, 3), {t});
  REQUIRE(r.utilisation);
  truth("25 x 2.5 at 45 degrees on 40 x 3, 10 kN: utilisation", seen_7_10, *r.utilisation,
        within_rel(10 / 33.638, 1e-4));
  CHECK_FALSE(r.comparison);
  t.brace.M_ip = 50;  // N m, a tenth of what it holds at 90 degrees
  const CheckResult bent = check(chord(40, 3), {t});
  CHECK(*bent.utilisation > *r.utilisation + 0.1);
  CHECK(bent.comparison);
  CHECK_THAT(bent.reason, ContainsSubstring("moments of a leaning tube"));
}

TEST_CASE("a chord without strength left in its face fails, unless next to nothing stands on it") {
  ChordTube c = chord(40, 3);
  c.stress = 0.85 * c.fy;  // beta 0.25: k_n = 0
  CHECK(use(c, {pulled(tube(10, 2.5), 2 * kN)}) > 1);
  CHECK(use(c, {pulled(tube(10, 2.5), 1)}) < 1);
  CHECK(use(c, {tube(10, 2.5)}) == 0);
  // It only gets worse on the way there.
  double last = 0;
  for (double n = 0.5; n < 1.2; n += 0.01) {
    c.stress = n * c.fy;
    const double here = use(c, {pulled(tube(10, 2.5), 2 * kN)});
    CHECK(here >= last);
    last = here;
  }
}

TEST_CASE("a pair that pulls and pushes is a K joint, and its other moments count", "[truth]") {
  // 60 x 3 with 40 x 3 at 45 degrees: gap 3.4 mm; with 30 x 3: 17.6 mm, N_Rd = 42.091 kN; M_op of
  // 30 on 60 x 3: 235 x 9 (30 x 1.5 + sqrt(2 x 60 x 30 x 3)) = 314.98 N m, by hand.
  const ChordTube c = chord(60, 3);
  StandingTube a = pulled(tube(30, 3, 45), 20 * kN), b = pulled(tube(30, 3, 135), -20 * kN);
  const CheckResult r = check(c, {a, b});
  REQUIRE(r.utilisation);
  truth("K gap, 30 x 3 on 60 x 3, 20 kN: utilisation", seen_7_10, *r.utilisation,
        within_rel(20 / 42.091, 1e-4));
  CHECK_FALSE(r.comparison);
  CHECK(use(c, {b, a}, 1) == *r.utilisation);

  StandingTube twisted = a;
  twisted.brace.M_op = 100;
  truth("K gap, 30 x 3 on 60 x 3, 20 kN and 100 N m out of plane: utilisation", sum,
        use(c, {twisted, b}), within_rel(20 / 42.091 + 100 / 314.98, 1e-4));
  CHECK_THAT(check(c, {twisted, b}).reason, ContainsSubstring("moments of a K joint"));

  StandingTube bent = a;
  bent.brace.M_ip = 50;
  const double primary = use(c, {bent, b});
  CHECK(primary > *r.utilisation + 0.1);
  bent.secondary = true;
  CHECK(use(c, {bent, b}) == *r.utilisation);
}

TEST_CASE("a K joint that does not balance goes over to a Y joint") {
  const ChordTube c = chord(60, 3);
  const StandingTube a = pulled(tube(30, 3, 45), 20 * kN);
  const auto with = [&](double N) { return use(c, {a, pulled(tube(30, 3, 135), N)}); };
  CHECK(with(-18 * kN) == with(-20 * kN));  // within a fifth
  const double alone = use(c, {a});
  CHECK_THAT(with(0), WithinRel(alone, 1e-12));
  CHECK(with(-10 * kN) > with(-20 * kN));
  CHECK(with(-10 * kN) < alone);
  CHECK(check(c, {a, pulled(tube(30, 3, 135), -5 * kN)}).comparison);
}

TEST_CASE("tubes that push one face together share it", "[truth]") {
  const ChordTube c = chord(60, 3);
  const StandingTube a = pulled(tube(30, 3, 45), -20 * kN), b = pulled(tube(30, 3, 135), -20 * kN);
  const double one = use(c, {a});
  const double both = use(c, {a, b});
  CHECK(both > one);
  CHECK(both < 2 * one);
  CHECK(check(c, {a, b}).reason == "several tubes on one face");
  // 17.6 mm apart, each 42.4 mm long: 235 x 9/0.5 (2 x 84.85/60 + 4 sqrt 0.5) = 23.93 kN under 2 x
  // 14.14 kN.
  truth("two braces pushing one face: utilisation", by_hand, both,
        within_rel(28.284 / 23.928, 1e-3));
}

TEST_CASE("a wide gap makes two Y joints") {
  // 60 wide and 120 deep, 30 at 45 degrees: gap 77.6 mm, above 1.5 (1 - 0.5) 60 mm.
  const ChordTube deep = [] {
    ChordTube d = chord(60, 3);
    d.height = 120 * mm;
    return d;
  }();
  const StandingTube left = pulled(tube(30, 3, 45), 5 * kN),
                     right = pulled(tube(30, 3, 135), -5 * kN);
  CHECK_THAT(use(deep, {left, right}), WithinRel(use(deep, {left}), 1e-12));
}

TEST_CASE("two planes take a tenth off, or more where crossing pairs work against each other") {
  const ChordTube c = chord(40, 3);
  const StandingTube up = pulled(tube(20, 2.5), 5 * kN);
  const StandingTube side = pulled(tube(20, 2.5, 90, plus_y), 2 * kN);
  CHECK_THAT(use(c, {up, side}), WithinRel(use(c, {up}) / 0.9, 1e-12));
  CHECK_FALSE(check(c, {up, side}).comparison);
  const StandingTube down = pulled(tube(20, 2.5, 90, minus_z), 5 * kN);
  const auto crossed = [&](double N) {
    return use(
        c, {up, down, pulled(tube(20, 2.5, 90, plus_y), N), pulled(tube(20, 2.5, 90, minus_y), N)});
  };
  const double plain = use(c, {up, down});
  CHECK_THAT(crossed(0), WithinRel(plain / 0.9, 1e-12));
  CHECK_THAT(crossed(-5 * kN), WithinRel(plain / (0.9 * 0.67), 1e-12));
  CHECK_THAT(crossed(5 * kN), WithinRel(plain / (0.9 * 1.33), 1e-12));
}

TEST_CASE("K joints in two planes shear their chord together", "[truth]") {
  ChordTube c = chord(60, 3);
  c.axial_share = 0.6;
  const auto pair = [](Face face, double N) {
    return std::array<StandingTube, 2>{pulled(tube(30, 3, 45, face), N),
                                       pulled(tube(30, 3, 135, face), -N)};
  };
  const auto one = pair(plus_z, 30 * kN), two = pair(plus_y, 30 * kN);
  // V_pl = 235 x 2 x 60 x 3/sqrt 3 = 48.84 kN, V_0 = 21.21 kN in either plane: sqrt(0.36 + 2 x
  // 0.1886) = 0.858; the face: 30/(0.9 x 42.091) = 0.792.
  truth("K joints in two planes shearing their chord: utilisation", two_planes,
        use(c, {one[0], one[1], two[0], two[1]}), within_abs(0.8586, 1e-3));
  c.axial_share = 0;
  truth("K joints in two planes: utilisation of the face", two_planes,
        use(c, {one[0], one[1], two[0], two[1]}), within_rel(30 / (0.9 * 42.091), 1e-4));
}

TEST_CASE("between two faces a tube is used no less than on one, and the change is gradual") {
  const ChordTube c = chord(40, 3);
  const auto at = [&](double phi) {
    StandingTube t = moved(pulled(tube(20, 2.5), 5 * kN), 40, 30);
    t.onto = {std::sin(phi * degree), 0, std::cos(phi * degree), 0};
    return use(c, {t});
  };
  const double square = use(c, {moved(pulled(tube(20, 2.5), 5 * kN), 40, 30)});
  CHECK_THAT(at(0), WithinRel(square, 1e-12));
  double last = square;
  for (double phi = 1; phi <= 45; phi += 1) {
    CHECK(at(phi) >= last * (1 - 1e-12));
    CHECK(at(phi) < last * 1.05);
    last = at(phi);
  }
  CHECK_THAT(at(60), WithinRel(at(30), 1e-12));
  StandingTube skew = tube(20, 2.5);
  skew.onto = {0.6, 0, 0.8, 0};
  CHECK_THAT(check(c, {skew}).reason, ContainsSubstring("between two faces"));
}

TEST_CASE("a turned tube counts as the circle in it, an open end half") {
  ChordTube c = chord(40, 3);
  StandingTube t = pulled(tube(20, 2.5), 5 * kN);
  const double plain = use(c, {t});
  c.ends = true;
  CHECK(use(c, {t}) == plain);
  CHECK_THAT(check(c, {t}).reason, ContainsSubstring("on the end of the other"));
  c.open = true;
  CHECK_THAT(use(c, {t}), WithinRel(2 * plain, 1e-12));
  t.turned = true;
  CHECK_THAT(use(c, {t}), WithinRel(2 * plain * 4 / std::numbers::pi, 1e-12));
  CHECK_THAT(check(c, {t}).reason, ContainsSubstring("turned"));
}

TEST_CASE("a rectangular chord shows each tube the face it stands on", "[truth]") {
  ChordTube c = chord(40, 3);
  c.width = 20 * mm;  // 40 high, 20 wide: +y is 40 wide, +z 20
  const double wide = use(c, {pulled(tube(20, 2.5, 90, plus_y), 5 * kN)});
  truth("20 x 2.5 on the 40 side of 40 x 20 x 3, 5 kN: utilisation", seen_7_10, wide,
        within_rel(5 / 16.194, 1e-4));  // 20 on 40 x 3
  CHECK(use(c, {pulled(tube(20, 2.5, 90, plus_z), 5 * kN)}) < wide);
}

TEST_CASE("the use is proportional to the load, whatever stands there") {
  const ChordTube c = chord(40, 2);
  const auto all = [](double k) {
    StandingTube skew = moved(pulled(tube(20, 1.5, 60), -2 * kN * k), 20 * k, 10 * k);
    skew.onto = {0.6, 0, 0.8, 0};
    return std::vector<StandingTube>{moved(pulled(tube(25, 2, 50), 3 * kN * k), -10 * k, 12 * k),
                                     skew, pulled(tube(20, 1.5, 130), -3 * kN * k),
                                     moved(tube(20, 2, 90, minus_y), 5 * k, -7 * k)};
  };
  for (size_t i = 0; i < 4; ++i) {
    CHECK_THAT(use(c, all(2), i), WithinRel(2 * use(c, all(1), i), 1e-9));
    CHECK(use(c, all(0), i) == 0);
  }
}

TEST_CASE("what is not known or not finite gets no number") {
  StandingTube lost = pulled(tube(20, 2.5), std::numeric_limits<double>::quiet_NaN());
  CHECK(lacks_number(check(chord(40, 3), {lost})));
  CHECK(lacks_number(check(chord(40, 3), {tube(20, 2.5), lost})));
  CHECK(lacks_number(check(chord(0, 3), {tube(20, 2.5)})));
  StandingTube along = tube(20, 2.5, 1);
  along.onto = {};
  CHECK_THAT(check(chord(40, 3), {along}).reason, ContainsSubstring("lies along"));
}

}  // namespace tubewright::face_joint_test
