// An M8 8.8 in 30 x 30 x 2, S235: e1 16, e2 15, worked by hand.
#include "cases/attachment_checks/bolts.h"

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::bolts_test {

namespace {

constexpr double mm = 1e-3;
constexpr Source bearing = seen_in("EN 1993-1-8 Table 3.4 in worked examples, MSB05/20 and /45");
constexpr Source table_3_4 = from_memory("EN 1993-1-8 Table 3.4, worked by hand");

Bolt m8() { return *bolt_of(8 * mm, "8.8"); }

}  // namespace

TEST_CASE("a bolt M8 8.8 holds what Table 3.4 says", "[truth]") {
  truth("bearing of an M8 in 2 mm S235, e1 16, e2 15, N", bearing,
        bearing_resistance(m8(), 360e6, 2 * mm, 16 * mm, 15 * mm), within_abs(6826.67, 0.01));
  truth("shear of an M8 8.8, N", table_3_4, bolt_shear_resistance(m8()), within_abs(14054.4, 0.1));
  truth("tension of an M8 8.8, N", table_3_4, bolt_tension_resistance(m8()),
        within_abs(21081.6, 0.1));
  truth("an M8 pulled through 2 mm S235, N", table_3_4,
        pull_through_resistance(m8(), 360e6, 2 * mm), within_abs(14863.7, 1.5));
  truth("preload of an M8 8.8, N", from_memory("EN 1090-2: 0.7 f_ub A_s"), usual_preload(m8()),
        within_abs(20496, 0.1));
}

TEST_CASE("a 30 x 2 tube folds under a washer long before its bolt is tight", "[truth]") {
  truth("30 x 30 x 2 S235 under a 16 mm washer, N",
        rederived("yield pattern f_y t^2 (2 eta + 4 sqrt(1 - beta))/(1 - beta)"),
        face_under_washer(235e6, 2 * mm, 30 * mm, 16 * mm), within_abs(7652.6, 0.1));
  CHECK(usual_preload(m8()) > 2.6 * face_under_washer(235e6, 2 * mm, 30 * mm, 16 * mm));
}

TEST_CASE("a tube with two holes of 9 mm tears before it yields", "[truth]") {
  const double A = 213.6991e-6, holes = 2 * 9 * mm * 2 * mm;
  truth("30 x 30 x 2 S235 with two 9 mm holes in tension, N", table_3_4,
        net_tension_resistance(A, A - holes, 235e6, 360e6), within_abs(46059.6, 0.1));
  truth("the same without holes, N", table_3_4, net_tension_resistance(A, A, 235e6, 1e9),
        within_abs(50219.3, 0.1));
}

TEST_CASE("shear and tension of a bolt count together") {
  const double v = bolt_shear_resistance(m8()), t = bolt_tension_resistance(m8());
  CHECK_THAT(bolt_utilisation(m8(), v, 0), WithinRel(1.0, 1e-12));
  CHECK_THAT(bolt_utilisation(m8(), 0, t), WithinRel(1.0, 1e-12));
  CHECK_THAT(bolt_utilisation(m8(), v / 2, t / 2), WithinRel(0.5 + 0.5 / 1.4, 1e-12));
  CHECK(bolt_utilisation(m8(), 0, -t) == 0);  // pushed: the plate bears
}

TEST_CASE("a hole nearer to the edge bears less, and nothing where there is no metal") {
  const auto bears = [](double e) { return bearing_resistance(m8(), 360e6, 2 * mm, e, e); };
  CHECK(bears(11 * mm) < bears(16 * mm));
  CHECK(bears(40 * mm) == bears(60 * mm));
  CHECK(bears(5 * mm) == 0);
}

TEST_CASE("only bolts of the table are known") {
  CHECK(!bolt_of(7 * mm, "8.8"));
  CHECK(!bolt_of(8 * mm, "12.9"));
  double last = 0;
  for (const double d : {5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0}) {
    const auto bolt = bolt_of(d * mm, "10.9");
    REQUIRE(bolt);
    CHECK(bolt->A_s > last);
    CHECK(bolt->d0 > bolt->d);
    CHECK(bolt->washer > bolt->d_m);
    CHECK(bolt_bending_resistance(*bolt) > 0);
    last = bolt->A_s;
  }
}

}  // namespace tubewright::bolts_test
